#include "compile/lists.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>

#include "base/text.h"
#include "compile/list_words.h"
#include "cutting/tips.h"

namespace dogear {

namespace {

using list_words::centimetres;
using list_words::inches;
using list_words::yards;

std::string inches(const std::optional<Fraction>& f) { return f ? plain_inches(*f) : ""; }

// Blank at a tip, where there is nothing to read.
std::string upper_reading(const PieceCut& cut) {
  return cut.upper_reading && cut.upper_reading->num > 0 ? inches(*cut.upper_reading) : "";
}

std::string_view cut_words(const PieceCut& cut) {
  switch (cut.method) {
    case CutMethod::rectangle:
      return "subcut the strip";
    case CutMethod::half_square:
      return "squares cut once on the diagonal";
    case CutMethod::quarter_square:
      return "squares cut twice on the diagonal";
    case CutMethod::angled:
      return cut.angle == 45 ? "both ends at the 45° line of the ruler"
                             : "both ends at the angle of the ruler";
    case CutMethod::half_angled:
      return "one end square, the other at the angle of the ruler";
    case CutMethod::joined_strip:
      return "strips joined end to end, then cut";
    case CutMethod::lengthwise:
      return "cut along the length of the cloth";
    case CutMethod::from_strip_set:
      return "cut from sewn strips";
    case CutMethod::templated:
      return "cut round a template";
  }
  return "";
}

class Lister {
 public:
  Lister(const Plan& plan, const SizeQuantities& of_size)
      : plan_(plan), pattern_(plan.pattern()), of_size_(of_size) {}

  std::vector<List> lists() const {
    std::vector<List> all{quilt(),  fabrics(), pieces(), strip_sets(), batches(), foundations(),
                          strips(), grain(),   tips(),   finishing(),  rulers()};
    std::erase_if(all, [](const List& list) { return list.rows.empty(); });
    return all;
  }

  std::vector<List> of_part() const {
    return {pieces(), strip_sets(), batches(), foundations(), strips(), cloth()};
  }

 private:
  const Plan& plan_;
  const Pattern& pattern_;
  const SizeQuantities& of_size_;

  std::string fabric_name(FabricId id) const { return pattern_.fabrics[id].name; }

  std::string ruler_names(const std::vector<std::size_t>& ids) const {
    std::vector<std::string> names;
    names.reserve(ids.size());
    for (const std::size_t id : ids) names.push_back(pattern_.rulers[id].name);
    return join(names, "; ");
  }

  List quilt() const {
    return {"quilt",
            {"width", "height"},
            {{inches(of_size_.finished_width), inches(of_size_.finished_height)}}};
  }

  std::string source_name(const ClothSource& source) const {
    switch (source.kind) {
      case ClothSource::Kind::yardage:
        return "yardage";
      case ClothSource::Kind::bundle:
        return pattern_.bundles[source.bundle].name;
      case ClothSource::Kind::fat_quarter:
        return "fat quarters";
      case ClothSource::Kind::fat_eighth:
        return "fat eighths";
      case ClothSource::Kind::scrap:
        return "scraps";
    }
    return "";
  }

  // "2 of 2 of 2½ in strip bundle, then yardage".
  std::string from_words(const FabricNeed& need) const {
    const auto& sources = pattern_.fabrics[need.fabric].sources;
    std::vector<std::string> words;
    for (const SourceUse& use : need.sources) {
      const ClothSource& source = sources[use.source];
      words.push_back(source.height ? std::to_string(use.used) + " of " + std::to_string(use.had) +
                                          " of " + source_name(source)
                                    : source_name(source));
    }
    return join(words, ", then ");
  }

  static std::string allowance(const Exact& inches) {
    return inches.is_zero() ? "" : list_words::inches(inches.round_up(16));
  }

  // The least that any plan could buy, in the units in which the fabric is bought.
  std::string least_words(const FabricNeed& need) const {
    if (!need.least) return "";
    if (!need.yards) return list_words::count(need.least->bought, "sheet", "sheets");
    return yards(Fraction::of(need.least->bought, pattern_.allowances.yard_parts));
  }

  List fabrics() const {
    List list{"fabrics",
              {"number", "fabric", "used for", "yardage", "metric", "bundle strips", "from",
               "cut into strips", "squaring up", "shrinkage", "margin", "least possible", "proved"},
              {}};
    for (const FabricNeed& need : of_size_.fabrics) {
      Cell strips = "";
      if (need.bundle_strips > 0) strips = need.bundle_strips;
      list.rows.push_back({static_cast<long long>(pattern_.fabrics[need.fabric].number),
                           fabric_name(need.fabric), join(need.uses, ", "),
                           need.yards ? yards(*need.yards) : "",
                           need.centimetres ? centimetres(*need.centimetres) : "", strips,
                           from_words(need), allowance(need.length), allowance(need.squaring),
                           allowance(need.shrinkage), allowance(need.margin), least_words(need),
                           need.least ? (need.least->met ? "yes" : "no") : ""});
    }
    return list;
  }

  // The fabrics of a part: strips by height, and what to buy where it is bought by itself.
  List cloth() const {
    List list{"cloth", {"fabric", "used for", "strips", "sheets", "yardage", "metric"}, {}};
    for (const FabricNeed& need : of_size_.fabrics) {
      std::vector<std::pair<Fraction, long long>> heights;
      for (const StripPlan& strip : of_size_.strips) {
        if (strip.fabric != need.fabric) continue;
        const auto same = std::find_if(heights.begin(), heights.end(),
                                       [&](const auto& h) { return h.first == strip.height; });
        if (same == heights.end()) {
          heights.emplace_back(strip.height, strip.times);
        } else {
          same->second += strip.times;
        }
      }
      std::stable_sort(heights.begin(), heights.end(), [](const auto& a, const auto& b) {
        return Exact(b.first) < Exact(a.first);
      });
      std::vector<std::string> strips, sheets;
      for (const auto& [height, n] : heights) {
        strips.push_back(std::to_string(n) + " of " + inches(height));
      }
      for (const SourceUse& use : need.sources) {
        const ClothSource& source = pattern_.fabrics[need.fabric].sources[use.source];
        if (!source.height) continue;
        sheets.push_back(std::to_string(use.used) + " of " + source_name(source));
      }
      list.rows.push_back({fabric_name(need.fabric), join(need.uses, ", "), join(strips, ", "),
                           join(sheets, ", "), need.yards ? yards(*need.yards) : "",
                           need.centimetres ? centimetres(*need.centimetres) : ""});
    }
    return list;
  }

  std::string hand_words(const CutPiece& piece) const {
    if (piece.twin) return "mirror image of " + plan_.piecing.pieces[*piece.twin].label(pattern_);
    return piece.hand == Hand::mirrored ? "not symmetric" : "";
  }

  List pieces() const {
    List list{"pieces",
              {"label", "shape", "fabric", "count", "strip", "length", "reading", "narrow reading",
               "cut", "layers", "hand", "ruler"},
              {}};
    for (const CutPiece& each : of_size_.pieces) {
      const Piece& piece = plan_.piecing.pieces[each.piece];
      const bool plain_length = !each.cut.reading;
      list.rows.push_back({piece.label(pattern_), piece.shape_words, fabric_name(piece.fabric),
                           each.count, inches(each.cut.strip),
                           plain_length ? inches(each.cut.length) : "", inches(each.cut.reading),
                           upper_reading(each.cut), std::string(cut_words(each.cut)),
                           each.layers == 1 ? Cell("") : Cell(static_cast<long long>(each.layers)),
                           hand_words(each), ruler_names(each.cut.rulers)});
    }
    return list;
  }

  List strip_sets() const {
    List list{"strip sets", {"unit", "strips", "sets", "lengths", "cut", "reading", "extra"}, {}};
    for (const StripSet& set : of_size_.strip_sets) {
      std::vector<std::string> strips, lengths;
      for (const auto& [fabric, width] : set.strips) {
        strips.push_back(fabric_name(fabric) + ' ' + inches(width));
      }
      for (const Fraction& length : set.set_lengths) lengths.push_back(inches(length));
      list.rows.push_back({plan_.piecing.units[set.unit].name, join(strips, " + "), set.sets,
                           join(lengths, ", "), set.need, inches(set.cut.reading), set.extra});
    }
    return list;
  }

  List batches() const {
    List list{"batches", {"unit", "method", "pieces", "batches", "each", "units", "extra"}, {}};
    for (const BatchCount& b : of_size_.batches) {
      const SewnUnit& unit = plan_.piecing.units[b.unit];
      std::vector<std::string> takes;
      for (const SewnBatch::Take& take : unit.batch->takes) {
        takes.push_back(std::to_string(take.count) + " " +
                        plan_.piecing.pieces[take.piece].label(pattern_));
      }
      list.rows.push_back({unit.name, std::string(method_words(unit.batch->method)),
                           join(takes, " + "), b.batches, unit.batch->yield, b.need, b.extra});
    }
    return list;
  }

  List foundations() const {
    List list{"foundations", {"unit", "patches", "in the order", "print"}, {}};
    for (const auto& [id, made] : of_size_.papers) {
      const SewnUnit& unit = plan_.piecing.units[id];
      std::vector<std::string> order;
      for (const Input& in : unit.inputs)
        order.push_back(plan_.piecing.pieces[in.piece].label(pattern_));
      list.rows.push_back(
          {unit.name, static_cast<long long>(unit.inputs.size()), join(order, ", "), made});
    }
    return list;
  }

  std::string run_words(const Run& run) const {
    switch (run.kind) {
      case Run::Kind::piece: {
        std::string words =
            std::to_string(run.count) + " of " + plan_.piecing.pieces[run.piece].label(pattern_);
        for (const auto& [piece, n] : run.also) {
          words +=
              " with " + std::to_string(n) + " of " + plan_.piecing.pieces[piece].label(pattern_);
        }
        return words;
      }
      case Run::Kind::strip_set:
        return inches(run.length) + " for strip set " + std::to_string(run.strip_set + 1);
      case Run::Kind::whole_strip:
        return inches(run.length) + " as it is";
      case Run::Kind::leftover:
        return inches(run.length) + " left over";
    }
    return "";
  }

  std::string strip_source(const StripPlan& strip) const {
    const auto& sources = pattern_.fabrics[strip.fabric].sources;
    if (strip.source >= sources.size()) return strip.from_bundle ? "bundle" : "yardage";
    std::string name = source_name(sources[strip.source]);
    if (strip.sheet > 0) name += ", number " + std::to_string(strip.sheet);
    if (strip.along) name += ", along its length";
    if (strip.beside) name += ", beside what is cut along its length";
    return name;
  }

  List strips() const {
    List list{"strips", {"fabric", "from", "height", "strips", "used for", "cut into"}, {}};
    for (const StripPlan& strip : of_size_.strips) {
      std::vector<std::string> runs;
      for (const Run& run : strip.runs) runs.push_back(run_words(run));
      list.rows.push_back({fabric_name(strip.fabric), strip_source(strip), inches(strip.height),
                           strip.times, strip.purpose, join(runs, ", ")});
    }
    return list;
  }

  // The edges of each piece by the thread they lie on, finished.
  List grain() const {
    List list{"grain", {"label", "lengthwise edges", "crosswise edges", "bias edges"}, {}};
    for (const CutPiece& each : of_size_.pieces) {
      const Piece& piece = plan_.piecing.pieces[each.piece];
      if (piece.shape.corners.empty()) continue;
      std::array<std::map<std::string, int>, 3> kinds;
      for (const EdgeGrain& e : edges(plan_.piecing, {each.piece, Transform{}})) {
        const Point along = e.where.b - e.where.a;
        const double length = std::sqrt(dot(along, along).approx());
        std::string words = inches(Fraction::of(std::llround(length * 16), 16));
        if (e.thread == Thread::bias) words += " at " + std::to_string(std::lround(e.off)) + "°";
        ++kinds[static_cast<std::size_t>(e.thread)][words];
      }
      std::vector<Cell> row{piece.label(pattern_)};
      for (const auto& kind : kinds) {
        std::vector<std::string> words;
        for (const auto& [what, n] : kind) {
          words.push_back(n == 1 ? what : std::to_string(n) + " of " + what);
        }
        row.emplace_back(join(words, ", "));
      }
      list.rows.push_back(std::move(row));
    }
    return list;
  }

  // Which tips to trim, and what the trimmed end lies flush with.
  List tips() const {
    List list{"tips", {"label", "tip", "trim", "flush with", "step", "to align"}, {}};
    if (plan_.piecing.sizes.size() <= of_size_.size) return list;
    for (const auto& [id, n] : plan_.piecing.sizes[of_size_.size].make) {
      const SewnUnit& unit = plan_.piecing.units[id];
      for (const PieceTip& tip : tips_in(pattern_, plan_.piecing, of_size_, id)) {
        const Input& in = unit.inputs[tip.trim.neighbour];
        std::vector<Cell> row{plan_.piecing.pieces[tip.trim.piece].label(pattern_),
                              std::to_string(tip.degrees) + "°",
                              inches(tip.printed),
                              in.is_piece ? plan_.piecing.pieces[in.piece].label(pattern_)
                                          : plan_.piecing.units[in.unit].name,
                              unit.name,
                              tip.one_end ? "must be trimmed" : "or centered"};
        // The step stands last but one: a tip is told of where it is trimmed first.
        const auto same = [&](const std::vector<Cell>& other) {
          return std::equal(row.begin(), row.begin() + 4, other.begin());
        };
        if (std::none_of(list.rows.begin(), list.rows.end(), same)) {
          list.rows.push_back(std::move(row));
        }
      }
    }
    return list;
  }

  List finishing() const {
    List list{"finishing", {"item", "what", "width", "height", "count", "yardage", "metric"}, {}};
    if (const auto& binding = of_size_.binding) {
      list.rows.push_back({binding->square ? "bias binding" : "binding",
                           fabric_name(binding->fabric), inches(binding->strip),
                           inches(binding->length),
                           binding->square ? binding->squares : binding->strips, "", ""});
    }
    if (const auto& backing = of_size_.backing) {
      list.rows.push_back({"backing", backing->name, inches(backing->width),
                           inches(backing->height), backing->panels, yards(backing->yards),
                           centimetres(backing->centimetres)});
    }
    if (const auto& b = of_size_.backing; b && b->wide) {
      list.rows.push_back({"backing", "from cloth " + inches(*b->wide) + " wide", inches(b->width),
                           inches(b->height), b->wide_panels, yards(b->wide_yards),
                           centimetres(b->wide_centimetres)});
    }
    if (const auto& sleeve = of_size_.sleeve) {
      list.rows.push_back({"hanging sleeve", fabric_name(sleeve->fabric), inches(sleeve->strip),
                           inches(sleeve->length), 1LL, "", ""});
    }
    if (const auto& batting = of_size_.batting) {
      list.rows.push_back({"batting", batting->package, inches(batting->width),
                           inches(batting->height), 1LL, "", ""});
    }
    return list;
  }

  List rulers() const {
    List list{"rulers", {"ruler", "lowest", "highest", "step"}, {}};
    for (const std::size_t id : of_size_.rulers) {
      const Ruler& ruler = pattern_.rulers[id];
      std::vector<Cell> row{ruler.name};
      for (const Exact& reading : {ruler.lowest, ruler.highest, ruler.step}) {
        row.emplace_back(inches(reading.as_fraction()));
      }
      list.rows.push_back(std::move(row));
    }
    return list;
  }
};

}  // namespace

std::vector<List> quantity_lists(const Plan& plan, std::size_t size) {
  return Lister(plan, plan.quantities.sizes[size]).lists();
}

std::vector<List> part_lists(const Plan& plan, const SizeQuantities& part) {
  return Lister(plan, part).of_part();
}

std::optional<ListFormat> list_format(std::string_view name) {
  if (name == "text") return ListFormat::text;
  if (name == "csv") return ListFormat::csv;
  if (name == "json") return ListFormat::json;
  if (name == "markdown") return ListFormat::markdown;
  return std::nullopt;
}

}  // namespace dogear
