#include "model/load.h"
#include "model/reader.h"

namespace dogear {

void read_schedule(const Node& node, Pattern& pattern, Diagnostics& d) {
  pattern.schedule_span = node.span;
  const auto* items = read_list(node, "schedule", d);
  if (items == nullptr) return;
  for (const Node& item : *items) {
    MapReader m(item, "a month of the schedule", d);
    if (!m.ok()) continue;
    Instalment part;
    part.span = item.span;
    part.title = m.need_text("month");
    if (const Node* blocks = m.may("blocks")) {
      if (const auto* names = read_list(*blocks, "blocks", d)) {
        for (const Node& name : *names) {
          if (const auto use = read_block_use(name, pattern, d)) part.uses.push_back(*use);
        }
      }
    }
    part.assembly = m.yes("assembly", false);
    part.finishing = m.yes("finishing", false);
    m.finish();
    pattern.schedule.push_back(std::move(part));
  }
}

}  // namespace dogear
