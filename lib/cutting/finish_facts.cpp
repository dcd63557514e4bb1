#include "base/length.h"
#include "cutting/finish.h"

namespace dogear {

void finish_facts(const SizeQuantities& q, std::map<std::string, std::string>& out) {
  const auto number = [](long long n) { return std::to_string(n); };
  if (q.binding) {
    if (q.binding->square) {
      out["binding.squares"] = number(q.binding->squares);
      out["binding.square"] = plain_inches(*q.binding->square);
    } else {
      out["binding.strips"] = number(q.binding->strips);
    }
    out["binding.width"] = plain_inches(q.binding->strip);
    out["binding.length"] = plain_inches(q.binding->length);
  }
  if (q.backing) {
    const Backing& b = *q.backing;
    out["backing.cloth"] = plain(b.yards) + " yd";
    out["backing.metric"] = number(b.centimetres) + " cm";
    out["backing.panels"] = number(b.panels);
    out["backing.width"] = plain_inches(b.width);
    out["backing.height"] = plain_inches(b.height);
    if (b.wide) {
      out["backing.wide-width"] = plain_inches(*b.wide);
      out["backing.wide-cloth"] = plain(b.wide_yards) + " yd";
      out["backing.wide-metric"] = number(b.wide_centimetres) + " cm";
      out["backing.wide-panels"] = number(b.wide_panels);
    }
  }
  if (q.batting) {
    out["batting.width"] = plain_inches(q.batting->width);
    out["batting.height"] = plain_inches(q.batting->height);
    if (!q.batting->package.empty()) out["batting.package"] = q.batting->package;
  }
  if (q.sleeve) {
    out["sleeve.strip"] = plain_inches(q.sleeve->strip);
    out["sleeve.length"] = plain_inches(q.sleeve->length);
    out["sleeve.depth"] = plain_inches(q.sleeve->finished);
  }
}

}  // namespace dogear
