// What is compared: a pattern or a ledger as names and values.

#include "base/text.h"
#include "compile/compare.h"
#include "compile/compare_steps.h"
#include "compile/ledger.h"

namespace dogear {

std::optional<ComparedSide> side_of_ledger(const std::string& name, std::string_view text,
                                           std::string& error) {
  ComparedSide side;
  side.name = name;
  for (const LedgerLine& line : read_ledger(text)) {
    if (!line.sound) {
      error = "line " + std::to_string(line.number) +
              " is not written as in a ledger: " + line.name.substr(0, 60);
      return std::nullopt;
    }
    side.facts[line.name] = line.value;
  }
  if (side.facts.empty()) {
    error = "it holds no quantities";
    return std::nullopt;
  }
  return side;
}

ComparedSide side_of_plan(const std::string& name, const Plan& plan, const Session& session) {
  ComparedSide side;
  side.name = name;
  for (const LedgerLine& line : read_ledger(ledger_text(plan))) side.facts[line.name] = line.value;
  side.steps = step_facts(plan);
  const Pattern& pattern = plan.pattern();
  const std::string head = pattern.folder + '/';
  for (const std::string& file : session.sources.files()) {
    if (starts_with(file, head))
      side.sources[file.substr(head.size())] = *session.sources.text(file);
  }
  for (const Fabric& f : pattern.fabrics) side.titles["fabric " + f.id] = f.name;
  for (const Bundle& b : pattern.bundles) side.titles["bundle " + b.id] = b.name;
  for (const BlockUse& use : pattern.uses) side.titles["block " + use.id] = use.title;
  return side;
}

std::optional<ComparedSide> side_of_pattern(const std::string& name, const std::string& folder,
                                            Session& session) {
  const auto plan = make_plan(folder, session);
  if (!plan) return std::nullopt;
  return side_of_plan(name, *plan, session);
}

}  // namespace dogear
