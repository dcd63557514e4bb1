#include "compile/compare.h"

#include <algorithm>
#include <set>
#include <tuple>

#include "base/text.h"
#include "compile/compare_words.h"

namespace dogear {

namespace {

using Facts = std::map<std::string, std::string>;

// Facts that are told together, of one side.
struct Group {
  FactName name;  // of its first fact
  Facts by_part;
  Facts by_name;
};
using Groups = std::map<std::string, Group>;

std::map<std::string, Groups> by_size(const ComparedSide& side, bool steps) {
  std::map<std::string, Groups> out;
  const auto add = [&](const Facts& facts) {
    for (const auto& [full, value] : facts) {
      const auto [size, name] = split_size(full);
      FactName read = read_fact_name(name);
      Group& group = out[size][read.group];
      group.by_part[read.part] = value;
      group.by_name[name] = value;
      if (group.by_name.size() == 1) group.name = std::move(read);
    }
  };
  add(side.facts);
  if (steps) add(side.steps);
  return out;
}

std::string get(const Facts& facts, const std::string& key) {
  const auto found = facts.find(key);
  return found == facts.end() ? "" : found->second;
}

// The part of a group that is counted.
std::string main_part(const FactName& name) {
  switch (name.kind) {
    case FactKind::cloth:
      return "cloth";
    case FactKind::strip_set:
      return "sets";
    case FactKind::batch:
      return "batches";
    case FactKind::binding:
      return "strips";
    case FactKind::block_count:
      return "count";
    case FactKind::piece:
    case FactKind::strip:
      return "";
    default:
      return name.part;
  }
}

bool may_be_none(FactKind kind) {
  switch (kind) {
    case FactKind::cloth:
    case FactKind::sheets:
    case FactKind::bundle_strips:
    case FactKind::block_count:
    case FactKind::piece:
    case FactKind::strip:
    case FactKind::strip_set:
    case FactKind::batch:
    case FactKind::make:
    case FactKind::foundation:
      return true;
    default:
      return false;
  }
}

// Of 0 where a group of a countable kind is not there.
std::optional<Amount> amount_in(const Group* group, const FactName& name, Amount::In in) {
  const bool extent = name.part.ends_with("width") || name.part.ends_with("height");
  if (extent && name.kind != FactKind::binding) return std::nullopt;  // two measures, no one number
  if (group != nullptr && name.kind == FactKind::bundle) {
    const std::string used = get(group->by_part, "strips-used");
    return amount_of(used.empty() ? get(group->by_part, "squares-used") : used);
  }
  if (group != nullptr) return amount_of(get(group->by_part, main_part(name)));
  if (may_be_none(name.kind)) return Amount{Exact(0), in};
  return std::nullopt;
}

Effect grown(int direction, Effect more = Effect::more_to_buy, Effect less = Effect::less_to_buy) {
  return direction >= 0 ? more : less;
}

// Which of two sizes of cloth, "45 × 60 in", is the larger: 1, 0 or -1.
int larger(const std::string& was, const std::string& now) {
  const auto area = [](const std::string& words) {
    Exact product = 1;
    LengthError ignored;
    for (const std::string& word : split(words, ' ')) {
      if (const auto n = parse_number(word, ignored)) product *= Exact(*n);
    }
    return product;
  };
  return (area(now) - area(was)).sign();
}

int sign_of(const std::optional<Amount>& was, const std::optional<Amount>& now) {
  return was && now ? (now->value - was->value).sign() : 0;
}

Effect effect_of(const FactName& name, const Group* was, const Group* now, int direction) {
  switch (name.kind) {
    case FactKind::finished_size:
      return Effect::finished_size;
    case FactKind::cloth:
      return grown(direction, Effect::more_cloth);
    case FactKind::sheets:
      return grown(direction);
    case FactKind::ruler:
      return was != nullptr && now != nullptr ? Effect::other : grown(was == nullptr ? 1 : -1);
    case FactKind::package:
      if (was == nullptr || now == nullptr) return grown(now == nullptr ? 1 : -1);
      return grown(larger(get(was->by_part, "package"), get(now->by_part, "package")));
    case FactKind::batting: {
      const auto grew = [&](const char* part) {
        if (was == nullptr || now == nullptr) return now != nullptr;
        return sign_of(amount_of(get(was->by_part, part)), amount_of(get(now->by_part, part))) > 0;
      };
      return grown(grew("width") || grew("height") ? 1 : -1);
    }
    case FactKind::bundle:
      if (was == nullptr || now == nullptr) return grown(was == nullptr ? 1 : -1);
      for (const char* part : {"bought", "strips", "squares"}) {
        const int change =
            sign_of(amount_of(get(was->by_part, part)), amount_of(get(now->by_part, part)));
        if (change != 0) return grown(change);
      }
      return Effect::strips;
    case FactKind::block_count:
    case FactKind::block_size:
      return Effect::blocks;
    case FactKind::count:
      return name.subject == "blocks"        ? Effect::blocks
             : name.subject == "foundations" ? Effect::steps
                                             : Effect::pieces;
    case FactKind::piece:
    case FactKind::seam:
      return Effect::pieces;
    case FactKind::strip:
    case FactKind::strip_set:
    case FactKind::binding:
    case FactKind::backing:
    case FactKind::sleeve:
    case FactKind::bundle_strips:
      return Effect::strips;
    case FactKind::make:
    case FactKind::measure:
    case FactKind::foundation:
    case FactKind::batch:
    case FactKind::step:
      return Effect::steps;
    case FactKind::title:
    case FactKind::leftover:
    case FactKind::of_fabric:
    case FactKind::pressing:
    case FactKind::month:
    case FactKind::other:
      break;
  }
  return Effect::other;
}

class Comparer {
 public:
  Comparer(const ComparedSide& was, const ComparedSide& now) : titles_(was.titles) {
    for (const auto& [key, title] : now.titles) titles_[key] = title;
  }

  std::vector<Change> changes(const Groups& was, const Groups& now) const {
    std::vector<Change> out;
    std::vector<const Group*> gone, fresh;
    for (const auto& [key, group] : was) {
      const auto found = now.find(key);
      if (found == now.end()) {
        gone.push_back(&group);
      } else if (group.by_name != found->second.by_name) {
        out.push_back(change(&group, &found->second, false));
      }
    }
    for (const auto& [key, group] : now) {
      if (!was.contains(key)) fresh.push_back(&group);
    }
    pair(gone, fresh, out);
    for (const Group* group : gone) out.push_back(change(group, nullptr, false));
    for (const Group* group : fresh) out.push_back(change(nullptr, group, false));
    std::sort(out.begin(), out.end(), [](const Change& a, const Change& b) {
      if (a.effect != b.effect) return a.effect < b.effect;
      if (a.amount != b.amount) return a.amount > b.amount;
      return std::tie(a.what, a.facts.front().name) < std::tie(b.what, b.facts.front().name);
    });
    return out;
  }

 private:
  // What is gone and what is new are one thing where only a measure of the name differs: the
  // same count first, then from the smallest measure on.
  void pair(std::vector<const Group*>& gone, std::vector<const Group*>& fresh,
            std::vector<Change>& out) const {
    const auto by_measure = [](const Group* a, const Group* b) {
      return std::lexicographical_compare(
          a->name.measures.begin(), a->name.measures.end(), b->name.measures.begin(),
          b->name.measures.end(),
          [](const Fraction& x, const Fraction& y) { return Exact(x) < Exact(y); });
    };
    std::stable_sort(gone.begin(), gone.end(), by_measure);
    std::stable_sort(fresh.begin(), fresh.end(), by_measure);
    for (const bool same_value : {true, false}) {
      for (const Group*& old : gone) {
        const FactKind kind = old->name.kind;
        if (kind != FactKind::piece && kind != FactKind::strip && kind != FactKind::strip_set) {
          continue;
        }
        const auto match = std::find_if(fresh.begin(), fresh.end(), [&](const Group* other) {
          return other != nullptr && other->name.likeness == old->name.likeness &&
                 (!same_value || other->by_part == old->by_part);
        });
        if (match == fresh.end()) continue;
        out.push_back(change(old, *match, true));
        fresh.erase(match);
        old = nullptr;
      }
      std::erase(gone, nullptr);
    }
  }

  Change change(const Group* was, const Group* now, bool measure) const {
    const FactName& name = was != nullptr ? was->name : now->name;
    Change c;
    c.kind = name.kind;
    c.what = subject_words(name, titles_, !measure);
    if (was != nullptr) c.was = value_words(was->name, was->by_part, measure);
    if (now != nullptr) c.now = value_words(now->name, now->by_part, measure);
    if (c.was == c.now && was != nullptr && now != nullptr) tell_parts(*was, *now, c);
    if (name.kind == FactKind::step && name.part == "figure") {
      // The number that stands for a figure says nothing to people.
      c.was = was == nullptr ? "" : "one figure";
      c.now = now == nullptr ? "" : "another figure";
    }
    count(was, now, name, c);
    std::set<std::string> names;
    for (const Group* group : {was, now}) {
      if (group == nullptr) continue;
      for (const auto& [fact, value] : group->by_name) names.insert(fact);
    }
    for (const std::string& fact : names) {
      ChangedFact f{fact, value_of(was, fact), value_of(now, fact)};
      if (f.was != f.now) c.facts.push_back(std::move(f));
    }
    return c;
  }

  static std::optional<std::string> value_of(const Group* group, const std::string& fact) {
    if (group == nullptr) return std::nullopt;
    const auto found = group->by_name.find(fact);
    if (found == group->by_name.end()) return std::nullopt;
    return found->second;
  }

  // Where the words of a group do not show its difference, the parts that differ are told.
  static void tell_parts(const Group& was, const Group& now, Change& c) {
    const auto words = [](const Facts& mine, const Facts& other) {
      std::vector<std::string> out;
      for (const auto& [part, value] : mine) {
        if (other.contains(part) && other.at(part) == value) continue;
        std::string said = part;
        std::replace(said.begin(), said.end(), '-', ' ');
        out.push_back(said.empty() ? value : said + ' ' + value);
      }
      return join(out, "; ");
    };
    c.was = words(was.by_part, now.by_part);
    c.now = words(now.by_part, was.by_part);
  }

  void count(const Group* was, const Group* now, const FactName& name, Change& c) const {
    const Amount::In in = name.kind == FactKind::cloth ? Amount::In::yards : Amount::In::count;
    auto a = amount_in(was, name, in), b = amount_in(now, name, in);
    if (name.kind == FactKind::cloth && a && b && a->value == b->value) {
      // The yards are the same; the metric length may differ by itself.
      const auto metric = [](const Group* group) {
        return amount_of(group == nullptr ? "0" : get(group->by_part, "metric"));
      };
      a = metric(was);
      b = metric(now);
    }
    c.effect = effect_of(name, was, now, sign_of(a, b));
    if (!a || !b) return;
    c.difference = difference_words(*a, *b);
    c.amount = abs(b->value - a->value);
    if (c.amount.is_zero()) c.amount = a->value;  // another measure of as many
  }

  std::map<std::string, std::string> titles_;
};

std::string title_of(const std::string& size, const Groups& groups) {
  const auto found = groups.find("size.title");
  return found == groups.end() ? size : found->second.by_part.begin()->second;
}

Change whole_size(const std::string& title, bool gone) {
  Change c;
  c.effect = gone ? Effect::size_gone : Effect::size_new;
  c.what = "The whole size";
  (gone ? c.was : c.now) = title;
  ChangedFact fact;
  (gone ? fact.was : fact.now) = title;
  c.facts.push_back(std::move(fact));
  return c;
}

}  // namespace

std::string_view effect_name(Effect effect) {
  switch (effect) {
    case Effect::size_gone:
      return "size gone";
    case Effect::more_cloth:
      return "more cloth";
    case Effect::more_to_buy:
      return "more to buy";
    case Effect::finished_size:
      return "finished size";
    case Effect::size_new:
      return "size new";
    case Effect::less_to_buy:
      return "less to buy";
    case Effect::blocks:
      return "blocks";
    case Effect::pieces:
      return "pieces";
    case Effect::strips:
      return "strips";
    case Effect::steps:
      return "steps";
    case Effect::other:
      break;
  }
  return "other";
}

bool is_felt_by_buyers(const Change& change) {
  return change.effect != Effect::other && change.effect != Effect::size_new &&
         change.kind != FactKind::step;
}

std::size_t Comparison::changes() const {
  std::size_t n = 0;
  for (const SizeComparison& size : sizes) n += size.changes.size();
  return n;
}

Comparison compare_sides(const ComparedSide& was, const ComparedSide& now) {
  const bool steps = was.compiled() && now.compiled();
  auto before = by_size(was, steps), after = by_size(now, steps);
  const Comparer comparer(was, now);
  Comparison out;
  out.was_name = was.name;
  out.now_name = now.name;
  std::set<std::string> sizes;
  for (const auto& [size, groups] : before) sizes.insert(size);
  for (const auto& [size, groups] : after) sizes.insert(size);
  for (const std::string& size : sizes) {
    const bool had = before.contains(size), has = after.contains(size);
    SizeComparison one{size, title_of(size, has ? after[size] : before[size]), {}};
    if (had && has) {
      one.changes = comparer.changes(before[size], after[size]);
    } else {
      one.changes.push_back(whole_size(one.title, had));
    }
    if (!one.changes.empty()) out.sizes.push_back(std::move(one));
  }
  std::stable_sort(out.sizes.begin(), out.sizes.end(),
                   [](const SizeComparison& a, const SizeComparison& b) {
                     const Change &x = a.changes.front(), &y = b.changes.front();
                     return x.effect != y.effect ? x.effect < y.effect : x.amount > y.amount;
                   });
  return out;
}

}  // namespace dogear
