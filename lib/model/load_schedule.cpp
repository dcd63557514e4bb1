#include <algorithm>
#include <set>

#include "model/keys.h"
#include "model/load.h"
#include "model/reader.h"

namespace dogear {

namespace {

// The blocks of a size, pieced borders included.
std::set<std::size_t> uses_of(const SizeDef& size) {
  std::set<std::size_t> uses;
  for (const auto& row : size.cells) {
    for (const SizeDef::Cell& cell : row) uses.insert(cell.use);
  }
  for (const BorderDef& border : size.borders) {
    if (border.use) uses.insert(*border.use);
  }
  return uses;
}

class ScheduleReader {
 public:
  ScheduleReader(const Node& node, Pattern& pattern, Diagnostics& d)
      : node_(node), p_(pattern), d_(d) {}

  void read() {
    const std::size_t before = d_.error_count();
    const auto* items = read_list(node_, "schedule", d_);
    if (items == nullptr) return;
    for (const Node& item : *items) read_month(item);
    if (d_.error_count() > before) return;
    check_blocks();
    check_order();
  }

 private:
  void read_month(const Node& item) {
    MapReader m(item, keys::month(), d_);
    if (!m.ok()) return;
    Instalment part;
    part.span = item.span;
    part.title = m.need_text("month");
    for (const Instalment& other : p_.schedule) {
      if (part.title.empty() || other.title != part.title) continue;
      d_.error("D115", item.span, "the schedule has `" + part.title + "` twice")
          .notes.push_back({other.span, "it is here already"});
    }
    const Node* blocks = m.may("blocks");
    const auto* names = blocks == nullptr ? nullptr : read_list(*blocks, "blocks", d_);
    if (names != nullptr) {
      for (const Node& name : *names) read_block(name, part);
    }
    part.assembly = m.yes("assembly");
    part.finishing = m.yes("finishing");
    m.finish();
    if (blocks == nullptr && !part.assembly && !part.finishing) {
      d_.error("D673", item.span, "nothing is to do in this month of the schedule")
          .hints.push_back(
              "give it `blocks: [...]`, `assembly: yes` or `finishing: yes`, or leave it out");
    }
    p_.schedule.push_back(std::move(part));
  }

  void read_block(const Node& name, Instalment& part) {
    const auto use = read_block_use(name, p_, d_);
    if (!use) return;
    const auto [known, fresh] = made_.try_emplace(*use, name.span);
    if (!fresh) {
      d_.error("D672", name.span, "the schedule makes the block `" + p_.uses[*use].id + "` twice")
          .notes.push_back({known->second, "all of them are made here"});
      return;
    }
    part.uses.push_back(*use);
  }

  void check_blocks() {
    for (std::size_t use = 0; use < p_.uses.size(); ++use) {
      if (made_.contains(use)) continue;
      const auto size = std::find_if(p_.sizes.begin(), p_.sizes.end(),
                                     [&](const SizeDef& s) { return uses_of(s).contains(use); });
      if (size == p_.sizes.end()) continue;
      Diagnostic& e = d_.error(
          "D671", node_.span, "no month of the schedule makes the block `" + p_.uses[use].id + "`");
      e.notes.push_back({size->span, "this size has it"});
      e.hints.push_back("add it to the `blocks` of a month");
    }
  }

  void check_order() {
    const auto& months = p_.schedule;
    const auto assembly = only(&Instalment::assembly, "assembly", "sewn together");
    const auto finishing = only(&Instalment::finishing, "finishing", "finished");
    const bool finished = std::any_of(p_.sizes.begin(), p_.sizes.end(), [](const SizeDef& s) {
      return s.binding || s.backing || s.batting || s.sleeve;
    });
    if (!assembly) warn_missing("assembly", "sewn together");
    if (!finishing && finished) warn_missing("finishing", "quilted and bound");
    for (std::size_t month = 0; month < months.size(); ++month) {
      if (!assembly || month <= *assembly || months[month].uses.empty()) continue;
      d_.error("D674", months[*assembly].span,
               "the quilt is sewn together before all its blocks are made")
          .notes.push_back({months[month].span, "these blocks are made later"});
      break;
    }
    if (assembly && finishing && *finishing < *assembly) {
      d_.error("D674", months[*finishing].span, "the quilt is finished before it is sewn together")
          .notes.push_back({months[*assembly].span, "it is sewn together here"});
    }
  }

  void warn_missing(const std::string& key, const std::string& words) {
    d_.warning("D675", node_.span, "no month of the schedule says when the quilt is " + words)
        .hints.push_back("add `" + key + ": yes` to the month");
  }

  // The month that says so; a second one is an error.
  std::optional<std::size_t> only(bool Instalment::*says, const std::string& key,
                                  const std::string& words) {
    std::optional<std::size_t> found;
    for (std::size_t month = 0; month < p_.schedule.size(); ++month) {
      if (!(p_.schedule[month].*says)) continue;
      if (found) {
        d_.error("D674", p_.schedule[month].span,
                 "the quilt is " + words + " in two months: `" + key + ": yes` goes with one")
            .notes.push_back({p_.schedule[*found].span, "it is here as well"});
        continue;
      }
      found = month;
    }
    return found;
  }

  const Node& node_;
  Pattern& p_;
  Diagnostics& d_;
  std::map<std::size_t, Span> made_;  // by use
};

}  // namespace

void read_schedule(const Node& node, Pattern& pattern, Diagnostics& d) {
  pattern.schedule_span = node.span;
  ScheduleReader(node, pattern, d).read();
}

}  // namespace dogear
