#include "model/keys.h"
#include "model/load.h"
#include "model/reader.h"

namespace dogear {

// errata:
//   - {edition: "1", fact: lap fabric.ink.cloth, was: 1 7/8 yd, now: 2 yd, words: ...}
// What the facts were and are is compared with the editions' ledgers once they are computed.
void read_errata(const Node& node, Pattern& pattern, Diagnostics& d) {
  const auto* items = read_list(node, "errata", d);
  if (items == nullptr) return;
  for (const Node& item : *items) {
    MapReader m(item, keys::erratum(), d);
    if (!m.ok()) continue;
    Erratum e;
    e.span = item.span;
    e.edition = m.need_text("edition");
    e.fact = m.need_text("fact");
    if (const Node* fact = m.may("fact")) e.fact_span = fact->span;
    e.was = m.text("was");
    e.now = m.text("now");
    e.words = m.text("words");
    m.finish();
    pattern.errata.push_back(std::move(e));
  }
}

}  // namespace dogear
