#include "compile/ledger.h"

#include <algorithm>
#include <map>

#include "base/text.h"

namespace dogear {

namespace {

constexpr std::string_view explanation =
    "# The quantities of this pattern, written by `dogear quantities --ledger`; not to be "
    "edited.\n";
constexpr std::string_view is = " = ";

std::map<std::string, LedgerLine> read_lines(std::string_view ledger) {
  std::map<std::string, LedgerLine> lines;
  for (LedgerLine& line : read_ledger(ledger)) lines[line.name] = line;
  return lines;
}

}  // namespace

std::vector<LedgerLine> read_ledger(std::string_view ledger) {
  std::vector<LedgerLine> lines;
  std::size_t number = 0;
  for (const std::string& line : split(ledger, '\n')) {
    ++number;
    const std::string_view text = trim(line);
    if (text.empty() || text.front() == '#') continue;
    LedgerLine read;
    read.number = number;
    std::size_t at = std::min(text.find(is), text.size());
    const bool no_value = at == text.size() && text.ends_with(" =");
    if (no_value) at = text.size() - 2;
    read.name = std::string(text.substr(0, at));
    const std::size_t blank = read.name.find(' ');
    read.sound = at < text.size() && blank != std::string::npos && blank > 0 &&
                 read.name.find(' ', blank + 1) == std::string::npos;
    if (at < text.size() && !no_value) read.value = std::string(text.substr(at + is.size()));
    lines.push_back(std::move(read));
  }
  return lines;
}

std::string ledger_text(const Plan& plan) {
  std::map<std::string, std::string> lines;
  for (std::size_t size = 0; size < plan.pattern().sizes.size(); ++size) {
    for (auto& [name, value] : facts(plan.checked, plan.piecing, plan.quantities, size)) {
      lines[plan.pattern().sizes[size].id + ' ' + name] = value;
    }
  }
  std::string text(explanation);
  for (const auto& [name, value] : lines) {
    text += name;
    text += is;
    text += one_line(value) + '\n';
  }
  return text;
}

std::string LedgerChange::words() const {
  if (before.empty()) return name + " is new: " + after;
  if (after.empty()) return name + " is gone: was " + before;
  return name + " was " + before + " and is now " + after;
}

std::vector<LedgerChange> compare_ledgers(std::string_view before, std::string_view after) {
  const auto old_lines = read_lines(before);
  const auto new_lines = read_lines(after);
  std::map<std::string, LedgerChange> changes;
  for (const auto& [name, line] : old_lines) {
    const auto found = new_lines.find(name);
    const std::string now = found == new_lines.end() ? "" : found->second.value;
    if (now != line.value || found == new_lines.end()) {
      changes[name] = {name, line.value, now, line.number};
    }
  }
  for (const auto& [name, line] : new_lines) {
    if (!old_lines.contains(name)) changes[name] = {name, "", line.value, 0};
  }
  std::vector<LedgerChange> sorted;
  sorted.reserve(changes.size());
  for (auto& [name, change] : changes) sorted.push_back(std::move(change));
  return sorted;
}

}  // namespace dogear
