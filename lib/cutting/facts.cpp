#include <algorithm>

#include "base/length.h"
#include "base/text.h"
#include "cutting/finish.h"
#include "cutting/quantities.h"
#include "cutting/sew_along.h"
#include "cutting/unfinished.h"
#include "cutting/unit_measure.h"
#include "piecing/press_count.h"

namespace dogear {

namespace {

std::string number(long long n) { return std::to_string(n); }

std::string size_words(const Exact& e) {
  const Fraction f = e.round_nearest(8);
  return plain_inches(f);
}

// "1 whole strip; 2 of 2 1/2 x 9 3/8 in; 3 A2": what a fabric leaves that is worth keeping.
std::string leftovers(const Pattern& pattern, const Piecing& piecing, const FabricNeed& need) {
  std::vector<std::string> words;
  for (const Leftover& l : need.leftovers) {
    if (l.piece) {
      words.push_back(number(l.count) + " " + piecing.pieces[*l.piece].label(pattern));
      continue;
    }
    const ClothSource& source = pattern.fabrics[need.fabric].sources[l.source];
    const bool strip = l.from == Leftover::From::whole_sheet &&
                       source.kind == ClothSource::Kind::bundle &&
                       !pattern.bundles[source.bundle].squares;
    if (strip) {
      words.push_back(number(l.count) + (l.count == 1 ? " whole strip" : " whole strips"));
      continue;
    }
    words.push_back((l.count > 1 ? number(l.count) + " of " : "") + plain(l.height) + " x " +
                    plain(l.length) + " in");
  }
  return join(words, "; ");
}

}  // namespace

std::string fact_number(const Fraction& f) {
  std::string s = plain(f);
  std::replace(s.begin(), s.end(), ' ', '-');
  return s;
}

std::string fact_name(const Pattern& pattern, const Piecing& piecing, const StripSet& set) {
  std::string name = "strip-set";
  for (const auto& [fabric, width] : set.strips)
    name += "." + pattern.fabrics[fabric].id + "-" + fact_number(width);
  return name + "." + slug(piecing.units[set.unit].name);
}

std::map<std::string, std::string> facts(const CheckedPattern& checked, const Piecing& piecing,
                                         const Quantities& quantities, std::size_t size) {
  std::map<std::string, std::string> out;
  const Pattern& pattern = checked.pattern;
  const SizeDef& def = pattern.sizes[size];
  const CheckedSize& top = checked.sizes[size];
  const SizeSewing& sewing = piecing.sizes[size];
  const SizeQuantities& q = quantities.sizes[size];
  const Exact allowances = pattern.seam_allowance * Exact(2);

  out["size.title"] = def.title;
  out["size.width"] = size_words(top.width);
  out["size.height"] = size_words(top.height);
  out["size.unfinished-width"] = size_words(top.width + allowances);
  out["size.unfinished-height"] = size_words(top.height + allowances);
  out["seam-allowance"] = plain_inches(pattern.seam_allowance.round_nearest(64));
  std::map<std::string, long long> sums;  // facts that several things add to
  const auto add_foundation = [&](const std::string& owner, UnitId unit) {
    if (!piecing.units[unit].foundation) return;
    sums["foundation." + owner + "." + slug(piecing.units[unit].name)] += sewing.make.at(unit);
    sums["foundations.count"] += sewing.make.at(unit);
  };
  UnitFacts of_units(pattern, piecing, q, sewing, def.setting);
  long long blocks = 0;
  for (const BlockSewing& block : sewing.blocks) {
    const std::string name = "block." + pattern.uses[block.use].id;
    const Box box = bounds(checked.parts[checked.block_parts[block.use]].outline);
    out[name + ".count"] = number(block.blocks);
    out[name + ".finished-width"] = size_words(box.width());
    out[name + ".finished-height"] = size_words(box.height());
    const auto [wide, high] = unfinished_size(checked.parts[checked.block_parts[block.use]].outline,
                                              pattern.seam_allowance);
    out[name + ".unfinished-width"] = size_words(wide);
    out[name + ".unfinished-height"] = size_words(high);
    blocks += block.blocks;
    for (const UnitId unit : block.steps) {
      out["make." + pattern.uses[block.use].id + "." + slug(piecing.units[unit].name)] =
          number(sewing.make.at(unit));
      of_units.add(pattern.uses[block.use].id, unit);
      add_foundation(pattern.uses[block.use].id, unit);
      if (const BatchCount* b = batches_of(q, unit)) {
        const std::string batch =
            "batch." + pattern.uses[block.use].id + "." + slug(piecing.units[unit].name);
        out[batch + ".batches"] = number(b->batches);
        out[batch + ".each"] = number(piecing.units[unit].batch->yield);
        out[batch + ".extra"] = number(b->extra);
        out[batch + ".made"] = number(b->made());
      }
    }
  }
  out["blocks.count"] = number(blocks);
  for (const UnitId unit : sewing.assembly) {
    sums["make.assembly." + slug(piecing.units[unit].name)] += sewing.make.at(unit);
    of_units.add("assembly", unit);
    add_foundation("assembly", unit);
  }
  of_units.add_to(out);

  long long pieces = 0;
  for (const CutPiece& p : q.pieces) {
    const Piece& piece = piecing.pieces[p.piece];
    std::string name = "cut." + pattern.fabrics[piece.fabric].id + "." + fact_number(p.cut.strip) +
                       "." + slug(piece.shape_words);
    if (p.cut.reading) {
      name += "-at-" + fact_number(*p.cut.reading);
    } else if (p.cut.per_cut == 1) {
      name += "-" + fact_number(p.cut.length);
    }
    if (p.cut.method == CutMethod::templated) name += "-template";
    if (p.cut.method == CutMethod::lengthwise) name += "-lengthwise";
    if (piece.generous) name += "-generous";
    // Mirrored pieces share every measure, so they share a line.
    sums[name] += p.count;
    if (p.twin && piece.reversed) sums[name + ".reversed"] += p.count;
    if (p.layers > 1) out[name + ".layers"] = number(p.layers);
    pieces += p.count;
  }
  out["pieces.count"] = number(pieces);
  for (const StripPlan& plan : q.strips) {
    sums["strips." + pattern.fabrics[plan.fabric].id + "." + fact_number(plan.height)] +=
        plan.times;
  }
  for (const StripSet& set : q.strip_sets) {
    const std::string name = fact_name(pattern, piecing, set);
    out[name + ".sets"] = number(set.sets);
    out[name + ".shapes"] = number(set.need);
  }

  for (const FabricNeed& need : q.fabrics) {
    const std::string name = "fabric." + pattern.fabrics[need.fabric].id;
    if (need.yards) {
      out[name + ".cloth"] = plain(*need.yards) + " yd";
      out[name + ".metric"] = number(*need.centimetres) + " cm";
    }
    if (need.length.sign() > 0) {
      out[name + ".cut-length"] = size_words(need.length);
      if (need.squaring.sign() > 0) out[name + ".squaring-up"] = size_words(need.squaring);
      if (need.shrinkage.sign() > 0) out[name + ".shrinkage"] = size_words(need.shrinkage);
      if (need.margin.sign() > 0) out[name + ".margin"] = size_words(need.margin);
    }
    if (need.least && need.yards) {
      const Fraction least = Fraction::of(need.least->bought, pattern.allowances.yard_parts);
      out[name + ".least-cloth"] = plain(least) + " yd";
    } else if (need.least) {
      out[name + ".least-sheets"] = number(need.least->bought);
    }
    for (const SourceUse& use : need.sources) {
      const ClothSource& source = pattern.fabrics[need.fabric].sources[use.source];
      if (source.kind == ClothSource::Kind::fat_quarter)
        out[name + ".fat-quarters"] = number(use.used);
      if (source.kind == ClothSource::Kind::fat_eighth)
        out[name + ".fat-eighths"] = number(use.used);
      if (source.kind == ClothSource::Kind::scrap) sums[name + ".scraps"] += use.used;
    }
    if (const std::string left = leftovers(pattern, piecing, need); !left.empty()) {
      out[name + ".left-over"] = left;
    }
    if (need.bundle_strips_had > 0) {
      out[name + ".bundle-strips"] = number(need.bundle_strips);
    }
  }
  for (const BundleUse& use : q.bundles) {
    const std::string name = "bundle." + pattern.bundles[use.bundle].id;
    sums[name + (pattern.bundles[use.bundle].squares ? ".squares-used" : ".strips-used")] +=
        use.sheets_used;
    out[name + ".bought"] = number(use.bought);
  }
  for (const auto& [name, n] : sums) out[name] = number(n);
  const PressCounts presses = count_presses(piecing, sewing);
  out["press.open.count"] = number(presses.open);
  out["press.crossings.count"] = number(presses.crossings);
  out["press.nested.count"] = number(presses.nested);
  if (presses.most_layers > 0) out["press.layers.most"] = number(presses.most_layers);
  for (const Bundle& b : pattern.bundles) {
    out["bundle." + b.id + (b.squares ? ".squares" : ".strips")] =
        number(b.each * static_cast<long long>(b.fabrics.size()));
  }
  finish_facts(q, out);
  for (const std::size_t r : q.rulers)
    out["ruler." + pattern.rulers[r].id] = pattern.rulers[r].name;
  add_month_facts(pattern, sewing, q, out);
  return out;
}

}  // namespace dogear
