#include "booklet/proofread_known.h"

#include <algorithm>
#include <set>

#include "base/length.h"
#include "base/text.h"
#include "cutting/unfinished.h"

namespace dogear::editing {
namespace {

bool holds(const std::vector<std::size_t>& all, std::size_t one) {
  return all.empty() || std::find(all.begin(), all.end(), one) != all.end();
}

std::string many(long long n, const std::string& noun) {
  return std::to_string(n) + " " + noun + (n == 1 ? "" : "s");
}

// Whether a piece of these shape words may be called by the noun.
bool is_called(const std::string& shape, const std::string& noun) {
  if (noun == "piece" || noun == "patch") return true;
  if (noun == "half-hexagon") return shape == "half-hexagon";
  if (noun == "hexagon") return shape == "hexagon";
  if (noun == "trapezoid" && shape == "half-hexagon") return true;
  if (noun == "triangle") return shape.ends_with("triangle");
  return shape == noun || shape.ends_with(" " + noun);
}

// What the parts of a strip are there for, and how many of each.
std::map<std::string, long long> purposes_of(const StripPlan& plan) {
  std::map<std::string, long long> out;
  for (const Run& run : plan.runs) {
    if (run.kind == Run::Kind::leftover) continue;
    const bool whole = run.kind == Run::Kind::whole_strip && !run.purpose.empty();
    if (whole)
      ++out[run.purpose];
    else
      out["pieces"] = 1;
  }
  return out;
}

}  // namespace

Known::Known(const Scene& scene, std::size_t size)
    : scene_(scene),
      size_(size),
      tags_(facts(scene.checked, scene.piecing, scene.quantities, size)) {}

// Strips that lie side by side in a higher one, cut down to their own height.
void Known::add_rows(const StripPlan& plan, const Fraction& height, const Fabric& fabric,
                     Values& out) const {
  std::map<std::string, std::pair<Fraction, long long>> rows;  // by purpose
  for (const Run& run : plan.runs) {
    if (run.kind != Run::Kind::whole_strip || run.height == plan.height) continue;
    if (!(run.height == height)) continue;
    auto& [high, n] = rows[run.purpose];
    high = run.height;
    n += plan.times;
  }
  for (const auto& [purpose, row] : rows)
    out.push_back(count(row.second, "",
                        many(row.second, "strip") + " of " + fabric.name + " for " + purpose +
                            ", " + plain_inches(row.first) + " high",
                        fabric.span));
}

// A tag is named only where it prints just this number.
Value Known::value(Fraction number, std::string tag, std::string words, const Span& span) const {
  const auto found = tags_.find(tag);
  bool same = false;
  if (found != tags_.end()) {
    const std::string spelled = plain(number);
    same = found->second == spelled || starts_with(found->second, spelled + " ");
  }
  return {number, same ? std::move(tag) : std::string(), std::move(words), span};
}

Value Known::count(long long n, std::string tag, std::string words, const Span& span) const {
  return value({n, 1}, std::move(tag), std::move(words), span);
}

Values Known::strips(const std::vector<FabricId>& fabrics, std::optional<Fraction> height) const {
  Values out;
  const auto& plans = quantities().strips;
  for (FabricId f = 0; f < pattern().fabrics.size(); ++f) {
    if (!holds(fabrics, f)) continue;
    const Fabric& fabric = pattern().fabrics[f];
    std::map<std::pair<std::int64_t, std::int64_t>, std::pair<Fraction, long long>> by_height;
    std::map<std::string, long long> by_purpose;
    long long all = 0;
    Values parts;
    for (const StripPlan& plan : plans) {
      if (plan.fabric == f && height) add_rows(plan, *height, fabric, parts);
      if (plan.fabric != f || (height && !(plan.height == *height))) continue;
      auto& [high, n] = by_height[{plan.height.num, plan.height.den}];
      high = plan.height;
      n += plan.times;
      all += plan.times;
      for (const auto& [purpose, n_of] : purposes_of(plan))
        by_purpose[purpose] += n_of * plan.times;
      parts.push_back(count(plan.times, "",
                            many(plan.times, "strip") + " of " + fabric.name + ", cut alike",
                            fabric.span));
    }
    for (const auto& [key, sum] : by_height) {
      out.push_back(count(sum.second, "strips." + fabric.id + "." + fact_number(sum.first),
                          many(sum.second, "strip") + " of " + fabric.name + ", " +
                              plain_inches(sum.first) + " high",
                          fabric.span));
    }
    if (by_height.size() > 1)
      out.push_back(
          count(all, "", many(all, "strip") + " of " + fabric.name + " altogether", fabric.span));
    for (const FabricNeed& need : quantities().fabrics) {
      if (need.fabric != f || need.bundle_strips_had == 0 || height) continue;
      out.push_back(count(need.bundle_strips, "fabric." + fabric.id + ".bundle-strips",
                          many(need.bundle_strips, "strip") + " of " + fabric.name + " used",
                          fabric.span));
      out.push_back(
          count(need.bundle_strips_had, "",
                many(need.bundle_strips_had, "strip") + " of " + fabric.name + " in the bundle",
                fabric.span));
    }
    if (by_purpose.size() > 1)
      for (const auto& [purpose, n] : by_purpose)
        out.push_back(
            count(n, "", many(n, "strip") + " of " + fabric.name + " for " + purpose, fabric.span));
    out.insert(out.end(), parts.begin(), parts.end());
    // Pieces as long as strips go by that name as well.
    for (const CutPiece& p : quantities().pieces) {
      const Piece& piece = scene_.piecing.pieces[p.piece];
      if (piece.fabric != f || piece.shape_words != "rectangle" || out.empty()) continue;
      if (height && !(p.cut.strip == *height)) continue;
      out.push_back(count(
          p.count, "", many(p.count, "piece") + " " + piece.label(pattern()) + " of " + fabric.name,
          piece.span));
    }
  }
  return out;
}

Values Known::bundle_sheets(bool squares) const {
  Values out;
  const std::string noun = squares ? "square" : "strip";
  for (std::size_t i = 0; i < pattern().bundles.size(); ++i) {
    const Bundle& b = pattern().bundles[i];
    if (b.squares != squares) continue;
    const auto all = static_cast<long long>(b.fabrics.size()) * b.each;
    out.push_back(count(all, "bundle." + b.id + "." + noun + "s",
                        many(all, noun) + " in the bundle", b.span));
    out.push_back(count(b.each, "", many(b.each, noun) + " of each fabric in it", b.span));
    for (const BundleUse& use : quantities().bundles) {
      if (use.bundle != i) continue;
      out.push_back(count(use.sheets_used, "bundle." + b.id + "." + noun + "s-used",
                          many(use.sheets_used, noun) + " of the bundle used", b.span));
      out.push_back(count(use.sheets_had - use.sheets_used, "",
                          many(use.sheets_had - use.sheets_used, noun) + " of the bundle left",
                          b.span));
      if (use.bought > 1)
        out.push_back(count(use.sheets_had, "",
                            many(use.sheets_had, noun) + " in " + many(use.bought, "bundle"),
                            b.span));
    }
  }
  return out;
}

Values Known::sheets(ClothSource::Kind kind, const std::vector<FabricId>& fabrics) const {
  Values out;
  const bool quarter = kind == ClothSource::Kind::fat_quarter;
  const std::string noun = quarter ? "fat quarter" : "fat eighth";
  long long all = 0;
  for (const FabricNeed& need : quantities().fabrics) {
    if (!holds(fabrics, need.fabric)) continue;
    const Fabric& fabric = pattern().fabrics[need.fabric];
    for (const SourceUse& use : need.sources) {
      if (fabric.sources[use.source].kind != kind) continue;
      const std::string tag = "fabric." + fabric.id + (quarter ? ".fat-quarters" : ".fat-eighths");
      out.push_back(count(use.used, tag, many(use.used, noun) + " of " + fabric.name, fabric.span));
      all += use.used;
    }
  }
  if (out.size() > 1)
    out.push_back(count(all, "", many(all, noun) + " altogether", size_def().span));
  return out;
}

Values Known::binding_strips() const {
  if (!quantities().binding) return {};
  const long long n = quantities().binding->strips;
  return {count(n, "binding.strips", many(n, "strip") + " for the binding",
                size_def().binding ? size_def().binding->span : size_def().span)};
}

Values Known::strip_sets(const std::vector<FabricId>& fabrics) const {
  Values out;
  long long all = 0;
  for (const StripSet& set : quantities().strip_sets) {
    const bool named = fabrics.empty() ||
                       std::any_of(set.strips.begin(), set.strips.end(),
                                   [&](const auto& strip) { return holds(fabrics, strip.first); });
    if (!named) continue;
    const SewnUnit& unit = scene_.piecing.units[set.unit];
    const std::string tag = fact_name(pattern(), scene_.piecing, set) + ".sets";
    out.push_back(
        count(set.sets, tag, many(set.sets, "strip set") + " for " + unit.name, unit.span));
    all += set.sets;
  }
  if (out.size() > 1)
    out.push_back(count(all, "", many(all, "strip set") + " altogether", size_def().span));
  const auto kinds = static_cast<long long>(out.size() > 1 ? out.size() - 1 : 0);
  if (kinds > 1)
    out.push_back(count(kinds, "", std::to_string(kinds) + " kinds of strip set", size_def().span));
  return out;
}

Values Known::pieces(const std::string& noun, const std::vector<FabricId>& fabrics,
                     std::optional<Fraction> measure) const {
  Values out;
  std::map<std::string, long long> by_letter;
  std::map<FabricId, long long> by_fabric;
  long long all = 0;
  for (const CutPiece& p : quantities().pieces) {
    const Piece& piece = scene_.piecing.pieces[p.piece];
    if (!holds(fabrics, piece.fabric)) continue;
    if (measure && !(p.cut.strip == *measure) && !(p.cut.length == *measure)) continue;
    const Fabric& fabric = pattern().fabrics[piece.fabric];
    const bool halved =
        p.cut.method == CutMethod::half_square || p.cut.method == CutMethod::quarter_square;
    if (noun == "square" && halved && p.cut.per_cut > 1) {
      const long long squares = (p.count + p.cut.per_cut - 1) / p.cut.per_cut;
      out.push_back(
          count(squares, "",
                many(squares, "square") + " of " + fabric.name + " for " + piece.label(pattern()),
                piece.span));
      by_fabric[piece.fabric] += squares;
      all += squares;
      continue;
    }
    if (!is_called(piece.shape_words, noun)) continue;
    std::string tag;  // mirrored pieces share one, which then prints another number
    const std::string head =
        "cut." + fabric.id + "." + fact_number(p.cut.strip) + "." + slug(piece.shape_words);
    for (auto it = tags_.lower_bound(head); it != tags_.end() && starts_with(it->first, head); ++it)
      if (it->second == std::to_string(p.count)) tag = it->first;
    out.push_back(count(p.count, tag,
                        std::to_string(p.count) + " of " + piece.label(pattern()) + ", " +
                            piece.shape_words + " of " + fabric.name,
                        piece.span));
    by_letter[piece.letter] += p.count;
    by_fabric[piece.fabric] += p.count;
    all += p.count;
  }
  const std::size_t single = out.size();
  if (single == 0) return out;
  for (const auto& [letter, n] : by_letter)
    if (!letter.empty())
      out.push_back(count(n, "", many(n, "piece") + " of shape " + letter, size_def().span));
  for (const auto& [fabric, n] : by_fabric)
    out.push_back(count(n, "", many(n, noun) + " of " + pattern().fabrics[fabric].name,
                        pattern().fabrics[fabric].span));
  out.push_back(count(all, "", many(all, noun) + " altogether", size_def().span));
  for (const StripSet& set : quantities().strip_sets)
    out.push_back(count(set.need, "", many(set.need, "shape") + " from a strip set",
                        scene_.piecing.units[set.unit].span));
  return out;
}

Values Known::all_pieces() const {
  long long all = 0;
  for (const CutPiece& p : quantities().pieces) all += p.count;
  return {count(all, "pieces.count", many(all, "piece") + " cut", size_def().span)};
}

Values Known::blocks(bool in_all) const {
  Values out;
  long long all = 0, sewn = 0;
  std::map<std::size_t, long long> of_file;
  for (const BlockSewing& block : sewing().blocks) {
    all += block.blocks;
    if (!block.steps.empty() || !block.shared.empty()) sewn += block.blocks;
    of_file[pattern().uses[block.use].block] += block.blocks;
  }
  const Span& span = size_def().span;
  out.push_back(count(all, "blocks.count", many(all, "block") + " in all", span));
  if (in_all) return out;
  const auto uses = static_cast<long long>(sewing().blocks.size());
  const auto files = static_cast<long long>(of_file.size());
  if (uses > 1) out.push_back(count(uses, "", std::to_string(uses) + " kinds of block", span));
  if (files > 1) out.push_back(count(files, "", std::to_string(files) + " designs of block", span));
  out.push_back(count(sewn, "", many(sewn, "block") + " that are sewn", span));
  if (of_file.size() < 2) return out;
  for (const auto& [file, n] : of_file)
    out.push_back(count(n, "", many(n, "block") + " of " + pattern().blocks[file].title,
                        pattern().blocks[file].span));
  for (const BlockSewing& block : sewing().blocks)
    out.push_back(
        count(all - block.blocks, "",
              many(all - block.blocks, "block") + " other than " + pattern().uses[block.use].title,
              pattern().uses[block.use].span));
  return out;
}

Values Known::blocks_of(const std::vector<std::size_t>& uses) const {
  Values out;
  long long all = 0;
  std::size_t named = 0;
  for (const BlockSewing& block : sewing().blocks) {
    if (!holds(uses, block.use)) continue;
    const BlockUse& use = pattern().uses[block.use];
    out.push_back(count(block.blocks, "block." + use.id + ".count",
                        many(block.blocks, use.title + " block"), use.span));
    all += block.blocks;
    ++named;
  }
  if (!uses.empty() && named > 1)
    out.push_back(count(all, "", many(all, "block") + " of these together", size_def().span));
  return out;
}

Values Known::makes(const std::vector<std::size_t>& uses,
                    const std::vector<std::size_t>& units) const {
  Values out;
  const auto& made = sewing().make;
  for (const BlockSewing& block : sewing().blocks) {
    if (!holds(uses, block.use)) continue;
    const BlockUse& use = pattern().uses[block.use];
    const auto add = [&](UnitId id) {
      const auto n = made.find(id);
      if (n == made.end() || !holds(units, id)) return;
      const SewnUnit& unit = scene_.piecing.units[id];
      const std::string name = unit.name.empty() ? "section" : unit.name;
      out.push_back(count(n->second, "make." + use.id + "." + slug(unit.name),
                          std::to_string(n->second) + " of " + name + " for " + use.title,
                          unit.span));
    };
    for (const UnitId id : block.steps) {
      add(id);
      const auto together = cut_together(scene_, size_, id);
      if (together.size() < 2 || together.front() != id || !units.empty()) continue;
      long long n = 0;
      for (const UnitId one : together)
        if (made.contains(one)) n += made.at(one);
      out.push_back(
          count(n, "", many(n, "shape") + " from the strip set", scene_.piecing.units[id].span));
    }
    for (const UnitId id : block.shared) add(id);
    if (!units.empty()) continue;
    out.push_back(count(block.blocks, "block." + use.id + ".count",
                        many(block.blocks, use.title + " block"), use.span));
    if (comes_in_halves(scene_, block))
      out.push_back(
          count(block.blocks * 2, "", many(block.blocks * 2, use.title + " half"), use.span));
  }
  if (!units.empty() && out.size() > 1) {
    std::set<std::int64_t> seen;
    std::int64_t all = 0;
    for (const Value& v : out) all += v.value.num;
    out.push_back(count(all, "", std::to_string(all) + " of them altogether", size_def().span));
  }
  return out;
}

Values Known::made_in_step(const std::string& address) const {
  const std::vector<std::string> words = split(address, '/');
  const auto number = [](const std::string& text) {
    std::size_t n = 0;
    for (const char c : text)
      n = is_digit(c) && n < 100000 ? n * 10 + static_cast<std::size_t>(c - '0') : 0;
    return n;
  };
  std::vector<UnitId> units;
  std::string tag = "make.assembly.";
  if (words.size() == 3 && words[0] == "figure:step") {
    for (const BlockSewing& block : sewing().blocks)
      if (pattern().uses[block.use].id == words[1]) units = block.steps;
    tag = "make." + words[1] + ".";
  } else if (words.size() == 2 && words[0] == "figure:assembly") {
    units = sewing().assembly;
  }
  const std::size_t n = number(words.back());
  if (n == 0 || n > units.size()) return {};
  Values out;
  long long all = 0;
  for (const UnitId id : cut_together(scene_, size_, units[n - 1])) {
    const auto made = sewing().make.find(id);
    if (made == sewing().make.end()) continue;
    const SewnUnit& unit = scene_.piecing.units[id];
    all += made->second;
    out.push_back(count(made->second, tag + slug(unit.name),
                        std::to_string(made->second) + " of " +
                            (unit.name.empty() ? std::string("section") : unit.name),
                        unit.span));
  }
  if (out.size() > 1) out.push_back(count(all, "", std::to_string(all) + " together", out[0].span));
  return out;
}

Values Known::cloth(FabricId fabric) const {
  const Fabric& f = pattern().fabrics[fabric];
  for (const FabricNeed& need : quantities().fabrics)
    if (need.fabric == fabric && need.yards)
      return {value(*need.yards, "fabric." + f.id + ".cloth",
                    plain(*need.yards) + " yd of " + f.name, f.span)};
  return {};
}

Values Known::metric(FabricId fabric) const {
  const Fabric& f = pattern().fabrics[fabric];
  for (const FabricNeed& need : quantities().fabrics)
    if (need.fabric == fabric && need.centimetres)
      return {count(*need.centimetres, "fabric." + f.id + ".metric",
                    std::to_string(*need.centimetres) + " cm of " + f.name, f.span)};
  return {};
}

Values Known::backing_cloth() const {
  if (!quantities().backing) return {};
  const Fraction& yards = quantities().backing->yards;
  return {value(yards, "backing.cloth", plain(yards) + " yd of backing",
                size_def().backing ? size_def().backing->span : size_def().span)};
}

Values Known::block_measures(const std::vector<std::size_t>& uses, bool finished,
                             bool unfinished) const {
  Values out;
  for (const BlockSewing& block : sewing().blocks) {
    if (!holds(uses, block.use)) continue;
    const BlockUse& use = pattern().uses[block.use];
    const Polygon& outline = scene_.checked.parts[scene_.checked.block_parts[block.use]].outline;
    const Box box = bounds(outline);
    const auto [wide, high] = unfinished_size(outline, pattern().seam_allowance);
    const auto add = [&](const Exact& e, const std::string& what) {
      const Fraction f = e.round_nearest(8);
      std::string words = what;
      std::replace(words.begin(), words.end(), '-', ' ');
      out.push_back(value(f, "block." + use.id + "." + what,
                          plain_inches(f) + ", the " + words + " of " + use.title, use.span));
    };
    if (finished) {
      add(box.width(), "finished-width");
      add(box.height(), "finished-height");
    }
    if (unfinished) {
      add(wide, "unfinished-width");
      add(high, "unfinished-height");
    }
  }
  return out;
}

Values Known::cut_measures(FabricId fabric) const {
  Values out;
  const Fabric& f = pattern().fabrics[fabric];
  const auto add = [&](const Fraction& measure, const std::string& what, const Span& span) {
    const bool known =
        std::any_of(out.begin(), out.end(), [&](const Value& v) { return v.value == measure; });
    if (!known && measure.num > 0)
      out.push_back(value(measure, "", plain_inches(measure) + ", " + what, span));
  };
  for (const StripPlan& plan : quantities().strips) {
    if (plan.fabric != fabric) continue;
    add(plan.height, "the height of strips of " + f.name, f.span);
    for (const Run& run : plan.runs)
      if (run.kind != Run::Kind::leftover)
        add(run.height, "the height of strips of " + f.name, f.span);
  }
  for (const CutPiece& p : quantities().pieces) {
    const Piece& piece = scene_.piecing.pieces[p.piece];
    if (piece.fabric != fabric) continue;
    const std::string label = piece.label(pattern());
    add(p.cut.strip, "the height of " + label, piece.span);
    add(p.cut.length, "the length of " + label, piece.span);
    if (p.cut.reading) add(*p.cut.reading, "the reading of " + label, piece.span);
  }
  return out;
}

Value Known::seam_allowance() const {
  const Fraction f = pattern().seam_allowance.round_nearest(64);
  return value(f, "", plain_inches(f) + ", the seam allowance", {});
}

Value Known::width() const {
  const Fraction f = quantities().finished_width;
  return value(f, "size.width", plain_inches(f) + ", the finished width", size_def().span);
}

Value Known::height() const {
  const Fraction f = quantities().finished_height;
  return value(f, "size.height", plain_inches(f) + ", the finished height", size_def().span);
}

Values Known::top_with_allowances() const {
  const Exact both = pattern().seam_allowance * Exact(2);
  const CheckedSize& top = scene_.checked.sizes[size_];
  const auto one = [&](const Exact& e, const std::string& what) {
    const Fraction f = (e + both).round_nearest(8);
    return value(f, "size.unfinished-" + what,
                 plain_inches(f) + ", the " + what + " with seam allowances", size_def().span);
  };
  return {one(top.width, "width"), one(top.height, "height")};
}

}  // namespace dogear::editing
