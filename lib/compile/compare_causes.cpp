#include "compile/compare_causes.h"

#include <algorithm>

#include "base/text.h"
#include "compile/line_diff.h"

namespace dogear {

namespace {

using Texts = std::map<std::string, std::string>;  // by path within the folder, or by name
using Lines = std::vector<std::string>;

constexpr const char* folder = "pattern";

// A change of one file, to be applied alone, and what then holds.
struct Trial {
  std::string file;
  Hunk hunk;
  bool whole = false;  // all of a hunk, where its lines are trials as well
  std::optional<Texts> facts{};
};

bool says_nothing(const std::string& line) {
  const std::string_view text = trim(line);
  return text.empty() || text.front() == '#';
}

bool says_nothing(const Hunk& hunk, const Lines& was, const Lines& now) {
  for (std::size_t i = 0; i < hunk.gone; ++i) {
    if (!says_nothing(was[hunk.was + i])) return false;
  }
  for (std::size_t i = 0; i < hunk.come; ++i) {
    if (!says_nothing(now[hunk.now + i])) return false;
  }
  return true;
}

class Finder {
 public:
  Finder(const ComparedSide& was, const ComparedSide& now) : was_(was), now_(now) {}

  void find(Comparison& comparison) {
    list_trials();
    comparison.causes_sought = true;
    comparison.tried = std::min(trials_.size(), most_tried);
    comparison.untried = trials_.size() - comparison.tried;
    trials_.resize(comparison.tried);
    for (Trial& trial : trials_) trial.facts = facts_with(trial);
    for (SizeComparison& size : comparison.sizes) {
      for (Change& change : size.changes) change.cause = cause_of(size.id, change);
    }
  }

 private:
  // Lines first, then hunks of several lines.
  void list_trials() {
    std::vector<Trial> hunks;
    for (const auto& [file, text] : was_.sources) {
      const auto found = now_.sources.find(file);
      if (!file.ends_with(".yaml") || found == now_.sources.end() || found->second == text) {
        continue;
      }
      const Lines &was = was_lines_[file] = split(text, '\n'),
                  &now = now_lines_[file] = split(found->second, '\n');
      for (const Hunk& hunk : diff_lines(was, now)) {
        if (says_nothing(hunk, was, now)) continue;
        const bool pairs = hunk.gone == hunk.come && hunk.gone > 1;
        if (!pairs) {
          trials_.push_back({file, hunk});
          continue;
        }
        for (std::size_t i = 0; i < hunk.gone; ++i) {
          const Hunk line{hunk.was + i, 1, hunk.now + i, 1};
          if (!says_nothing(line, was, now)) trials_.push_back({file, line});
        }
        hunks.push_back({file, hunk, true});
      }
    }
    std::move(hunks.begin(), hunks.end(), std::back_inserter(trials_));
  }

  std::optional<Texts> facts_with(const Trial& trial) const {
    MemoryFiles files;
    // Files that only the new side has do no harm; what needs them is a line elsewhere.
    for (const Texts* side : {&now_.sources, &was_.sources}) {
      for (const auto& [path, text] : *side) {
        files.content[std::string(folder) + '/' + path] = text;
      }
    }
    const Lines &was = was_lines_.at(trial.file), &now = now_lines_.at(trial.file);
    const auto at = [](const Lines& lines, std::size_t n) {
      return lines.begin() + static_cast<std::ptrdiff_t>(n);
    };
    Lines lines(was.begin(), at(was, trial.hunk.was));
    lines.insert(lines.end(), at(now, trial.hunk.now), at(now, trial.hunk.now + trial.hunk.come));
    lines.insert(lines.end(), at(was, trial.hunk.was + trial.hunk.gone), was.end());
    files.content[std::string(folder) + '/' + trial.file] = join(lines, "\n");
    Session session(files);
    const auto side = side_of_pattern("", folder, session);
    if (!side) return std::nullopt;
    Texts facts = side->facts;
    facts.insert(side->steps.begin(), side->steps.end());
    return facts;
  }

  static bool explains(const Trial& trial, const std::string& size, const Change& change) {
    if (!trial.facts) return false;
    const std::string head = size.empty() ? "" : size + ' ';
    if (change.effect == Effect::size_gone || change.effect == Effect::size_new) {
      const auto first = trial.facts->lower_bound(head);
      const bool has = first != trial.facts->end() && starts_with(first->first, head);
      return has == (change.effect == Effect::size_new);
    }
    return std::all_of(change.facts.begin(), change.facts.end(), [&](const ChangedFact& fact) {
      const auto found = trial.facts->find(head + fact.name);
      return found == trial.facts->end() ? !fact.now : fact.now && found->second == *fact.now;
    });
  }

  Cause cause_of(const std::string& size, const Change& change) const {
    Cause several;
    several.kind = trials_.empty() ? Cause::Kind::unknown : Cause::Kind::several;
    for (const bool whole : {false, true}) {
      std::vector<const Trial*> found;
      for (const Trial& trial : trials_) {
        if (trial.whole == whole && explains(trial, size, change)) found.push_back(&trial);
      }
      if (found.size() == 1) return told(*found.front());
      if (!found.empty()) break;
    }
    return several;
  }

  Cause told(const Trial& trial) const {
    const Hunk& hunk = trial.hunk;
    Cause cause;
    cause.file = trial.file;
    cause.of_old = hunk.come == 0;
    const std::size_t first = cause.of_old ? hunk.was : hunk.now;
    const std::size_t count = cause.of_old ? hunk.gone : hunk.come;
    cause.kind = count == 1 ? Cause::Kind::line : Cause::Kind::lines;
    cause.line = first + 1;
    cause.last = first + count;
    const Lines& lines = (cause.of_old ? was_lines_ : now_lines_).at(trial.file);
    std::size_t said = first;
    while (said + 1 < first + count && says_nothing(lines[said])) ++said;
    cause.text = std::string(trim(lines[said]));
    return cause;
  }

  const ComparedSide &was_, &now_;
  std::map<std::string, Lines> was_lines_, now_lines_;
  std::vector<Trial> trials_;
};

}  // namespace

void find_causes(Comparison& comparison, const ComparedSide& was, const ComparedSide& now) {
  if (comparison.same() || !was.compiled() || !now.compiled()) return;
  Finder(was, now).find(comparison);
}

}  // namespace dogear
