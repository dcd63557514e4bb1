#include "compile/errata.h"

#include <algorithm>
#include <set>

#include "base/text.h"
#include "compile/compare.h"
#include "compile/ledger.h"
#include "source/load.h"

namespace dogear {

namespace {

constexpr std::string_view none = "none";  // what `was` or `now` says of a thing that is not there
constexpr std::size_t shown = 5;

struct Edition {
  std::string name, path;
  std::map<std::string, LedgerLine> lines;
  Comparison comparison;
  std::set<const Change*> told;
};

// "lap cut.ink" begins "lap cut.ink.2-1/2.square-2-1/2", "lap" begins "lap size.width".
bool begins(const std::string& head, const std::string& fact) {
  return starts_with(fact, head) &&
         (fact.size() == head.size() || fact[head.size()] == '.' || fact[head.size()] == ' ');
}

std::string full_name(const SizeComparison& size, const ChangedFact& fact) {
  return fact.name.empty() ? size.id : size.id + ' ' + fact.name;
}

std::string said(const std::string& value) { return value.empty() ? std::string(none) : value; }

class Checker {
 public:
  Checker(const Plan& plan, Session& session)
      : pattern_(plan.pattern()),
        session_(session),
        d_(session.diagnostics),
        now_(side_of_plan(pattern_.folder, plan, session)) {
    const std::string head = pattern_.folder + "/editions";
    for (const std::string& name : session.files.list(head)) {
      if (name.ends_with(".txt")) kept_.push_back(name.substr(0, name.size() - 4));
    }
  }

  void check() {
    for (const std::string& name : kept_) read(name);
    std::set<std::pair<std::string, std::string>> seen;
    for (const Erratum& e : pattern_.errata) {
      if (e.edition == pattern_.edition) {
        d_.error("D669", e.span, "edition " + e.edition + " is this one: it is corrected itself")
            .hints.push_back("if it is printed already, give the pattern a new `edition`");
      } else if (!seen.insert({e.edition, e.fact}).second) {
        tell_twice(e);
      } else if (std::find(kept_.begin(), kept_.end(), e.edition) == kept_.end()) {
        Diagnostic& d = d_.error("D662", e.span, "no ledger of edition " + e.edition + " is kept");
        const std::string near = nearest(e.edition, kept_);
        if (!near.empty()) d.hints.push_back("did you mean edition " + near + "?");
        d.hints.push_back("keep the quantities.txt that was printed as editions/" + e.edition +
                          ".txt");
      } else {
        const auto found = std::find_if(editions_.begin(), editions_.end(),
                                        [&](const Edition& x) { return x.name == e.edition; });
        if (found != editions_.end()) check(e, *found);
      }
    }
    for (const Edition& edition : editions_) tell_missing(edition);
  }

 private:
  void read(const std::string& name) {
    Edition edition;
    edition.name = name;
    edition.path = pattern_.folder + "/editions/" + name + ".txt";
    const FencedFiles inside(session_.files, pattern_.folder);
    const auto text = load(inside, edition.path, {}, session_.sources, d_);
    if (!text) return;
    std::string error;
    const auto side = side_of_ledger(name, *text, error);
    if (!side) {
      d_.error("D662", {edition.path, 0, 0, 0, 0}, "this is no ledger of an edition: " + error)
          .hints.push_back("keep the quantities.txt that was printed");
      return;
    }
    for (LedgerLine& line : read_ledger(*text)) edition.lines[line.name] = line;
    edition.comparison = compare_sides(*side, now_);
    editions_.push_back(std::move(edition));
  }

  Span place(const Edition& edition, const std::string& fact) const {
    const auto found = edition.lines.find(fact);
    const std::size_t line = found == edition.lines.end() ? 0 : found->second.number;
    const std::size_t column = line == 0 ? 0 : 1;
    return {edition.path, line, column, line, column};
  }

  void tell_twice(const Erratum& e) {
    Diagnostic& d =
        d_.error("D666", e.fact_span, "`" + e.fact + "` is listed twice for edition " + e.edition);
    for (const Erratum& other : pattern_.errata) {
      if (&other == &e || other.edition != e.edition || other.fact != e.fact) continue;
      d.notes.push_back({other.fact_span, "it is here already"});
      return;
    }
  }

  void check(const Erratum& e, Edition& edition) {
    const bool one = edition.lines.contains(e.fact) || now_.facts.contains(e.fact);
    if (one) {
      check_one(e, edition);
    } else {
      check_group(e, edition);
    }
  }

  void check_one(const Erratum& e, Edition& edition) {
    for (const SizeComparison& size : edition.comparison.sizes) {
      for (const Change& change : size.changes) {
        const bool whole = change.effect == Effect::size_gone || change.effect == Effect::size_new;
        for (const ChangedFact& fact : change.facts) {
          if (full_name(size, fact) != e.fact && !(whole && begins(size.id, e.fact))) continue;
          edition.told.insert(&change);
          if (!whole) compare_values(e, edition, change, fact);
          return;
        }
      }
    }
    Diagnostic& d = d_.error(
        "D664", e.fact_span,
        "`" + e.fact + "` is as edition " + e.edition + " has it: there is nothing to correct");
    d.notes.push_back({place(edition, e.fact), "here it is in the edition's ledger"});
    d.hints.push_back("take the entry out");
  }

  void compare_values(const Erratum& e, const Edition& edition, const Change& change,
                      const ChangedFact& fact) {
    if (e.was.empty() || e.now.empty()) {
      Diagnostic& d = d_.error("D667", e.span,
                               std::string("this correction does not say what ") +
                                   (e.was.empty() ? "was printed" : "is right"));
      d.hints.push_back("`was: " + said(fact.was.value_or("")) +
                        "`, `now: " + said(fact.now.value_or("")) + '`');
      return;
    }
    const auto agrees = [](const std::string& written, const std::optional<std::string>& value,
                           const std::string& words) {
      return written == said(value.value_or("")) || written == said(words);
    };
    if (!agrees(e.was, fact.was, change.was)) {
      Diagnostic& d = d_.error("D665", e.span, "this says that `" + e.was + "` was printed");
      d.notes.push_back(
          {place(edition, e.fact), "edition " + e.edition + " has " + said(fact.was.value_or(""))});
    }
    if (!agrees(e.now, fact.now, change.now)) {
      Diagnostic& d = d_.error("D665", e.span, "this says that `" + e.now + "` is right");
      Note note;
      note.span.file = pattern_.folder + "/pattern.yaml";
      note.message = "the pattern now gives " + said(fact.now.value_or(""));
      d.notes.push_back(std::move(note));
    }
  }

  void check_group(const Erratum& e, Edition& edition) {
    const auto known = [&](const std::map<std::string, std::string>& facts) {
      const auto at = facts.lower_bound(e.fact);
      return std::any_of(at, facts.end(), [&](const auto& f) { return begins(e.fact, f.first); });
    };
    std::map<std::string, std::string> printed;
    for (const auto& [name, line] : edition.lines) printed[name] = line.value;
    if (!known(printed) && !known(now_.facts)) {
      std::vector<std::string> names;
      for (const auto& [name, value] : now_.facts) names.push_back(name);
      for (const auto& [name, value] : printed) names.push_back(name);
      const std::string near = nearest(e.fact, names);
      Diagnostic& d = d_.error(
          "D663", e.fact_span,
          "no fact of edition " + e.edition + " or of this one is called `" + e.fact + "`");
      d.hints.push_back(near.empty() ? "the names are those of the ledger, `lap fabric.ink.cloth`"
                                     : "did you mean `" + near + "`?");
      return;
    }
    bool any = false;
    for (const SizeComparison& size : edition.comparison.sizes) {
      for (const Change& change : size.changes) {
        for (const ChangedFact& fact : change.facts) {
          if (!begins(e.fact, full_name(size, fact))) continue;
          edition.told.insert(&change);
          any = true;
        }
      }
    }
    if (!any) {
      d_.error("D664", e.fact_span,
               "nothing under `" + e.fact + "` differs from edition " + e.edition +
                   ": there is nothing to correct")
          .hints.push_back("take the entry out");
    } else if (e.words.empty() || !e.was.empty() || !e.now.empty()) {
      d_.error("D667", e.span,
               "`" + e.fact +
                   "` names several facts: this correction needs "
                   "`words` alone")
          .hints.push_back("say what buyers are to change, or name one fact with `was` and `now`");
    }
  }

  void tell_missing(const Edition& edition) {
    struct Missing {
      const SizeComparison* size;
      const Change* change;
    };
    std::vector<Missing> missing;
    for (const SizeComparison& size : edition.comparison.sizes) {
      for (const Change& change : size.changes) {
        if (is_felt_by_buyers(change) && !edition.told.contains(&change)) {
          missing.push_back({&size, &change});
        }
      }
    }
    if (missing.empty()) return;
    const bool present = edition.name == pattern_.edition;
    const std::string count =
        std::to_string(missing.size()) + (missing.size() == 1 ? " difference" : " differences");
    Span whole;
    whole.file = pattern_.folder + "/pattern.yaml";
    Diagnostic& d = d_.warning(
        present ? "D668" : "D661", whole,
        present ? "edition " + edition.name + " was printed with other quantities: " + count
                : "buyers of edition " + edition.name + " are not told of " + count);
    for (std::size_t i = 0; i < std::min(missing.size(), shown); ++i) {
      const auto [size, change] = missing[i];
      Note note;
      note.span = place(edition, full_name(*size, change->facts.front()));
      note.message = size->id + ", " + change->what + ": was " + said(change->was) + ", now " +
                     said(change->now);
      d.notes.push_back(std::move(note));
    }
    if (present) d.hints.push_back("give the pattern a new `edition` and list the corrections");
    d.hints.push_back("`dogear compare " + edition.path + ' ' + pattern_.folder +
                      " --as errata` writes the list");
  }

  const Pattern& pattern_;
  Session& session_;
  Diagnostics& d_;
  ComparedSide now_;
  std::vector<std::string> kept_;  // editions
  std::vector<Edition> editions_;  // those that could be read
};

}  // namespace

bool check_errata(const Plan& plan, Session& session) {
  const std::size_t errors = session.diagnostics.error_count();
  const bool kept = !session.files.list(plan.pattern().folder + "/editions").empty();
  if (kept || !plan.pattern().errata.empty()) Checker(plan, session).check();
  return session.diagnostics.error_count() == errors;
}

}  // namespace dogear
