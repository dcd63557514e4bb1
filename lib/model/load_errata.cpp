#include "model/load.h"
#include "model/reader.h"

namespace dogear {

void read_errata(const Node& node, Pattern& pattern, Diagnostics& d) {
  const auto* items = read_list(node, "errata", d);
  if (items == nullptr) return;
  for (const Node& item : *items) {
    MapReader m(item, "an erratum", d);
    if (!m.ok()) continue;
    Erratum e;
    e.span = item.span;
    e.edition = m.need_text("edition");
    if (const Node* fact = m.need("fact")) {
      e.fact = fact->text;
      e.fact_span = fact->span;
    }
    e.was = m.text("was", "");
    e.now = m.text("now", "");
    e.words = m.text("words", "");
    m.finish();
    pattern.errata.push_back(std::move(e));
  }
}

}  // namespace dogear
