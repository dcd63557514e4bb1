#include "cutting/leftovers.h"

#include <algorithm>
#include <map>

namespace dogear {

namespace {

class LeftoverList {
 public:
  void add(Leftover::From from, std::size_t source, const Fraction& height, const Fraction& length,
           long long count = 1) {
    if (count <= 0 || Exact(height) < Exact(1) || Exact(length) < Exact(1)) return;
    for (Leftover& l : all_) {
      if (l.from == from && l.source == source && l.height == height && l.length == length) {
        l.count += count;
        return;
      }
    }
    all_.push_back({from, height, length, count, source, {}});
  }

  void add_pieces(PieceId piece, long long count) {
    if (count > 0) all_.push_back({Leftover::From::squares, {}, {}, count, 0, piece});
  }

  std::vector<Leftover> sorted() {
    const auto key = [](const Leftover& l) { return std::pair(Exact(l.length), Exact(l.height)); };
    std::stable_sort(all_.begin(), all_.end(), [&](const Leftover& a, const Leftover& b) {
      const bool whole_a = a.from == Leftover::From::whole_sheet;
      const bool whole_b = b.from == Leftover::From::whole_sheet;
      if (whole_a != whole_b) return whole_a;
      return key(b) < key(a);
    });
    return std::move(all_);
  }

 private:
  std::vector<Leftover> all_;
};

}  // namespace

std::vector<Leftover> leftovers_of(const Fabric& fabric, const std::vector<PieceCut>& cuts,
                                   const ClothWants& wants, const ClothPlan& plan) {
  LeftoverList list;
  std::map<std::pair<std::size_t, long long>, Exact> taken;  // of sheets with several strips
  for (const StripPlan& strip : plan.strips) {
    for (const Run& run : strip.runs) {
      if (run.kind != Run::Kind::leftover) continue;
      list.add(Leftover::From::strip, strip.source, run.height, run.length, strip.times);
    }
    if (strip.sheet > 0 && !strip.beside) {
      taken[{strip.source, strip.sheet}] += Exact(strip.height) * Exact(strip.times);
    }
  }
  for (const auto& [sheet, height] : taken) {
    const ClothSource& source = fabric.sources[sheet.first];
    list.add(Leftover::From::sheet, sheet.first, (*source.height - height).round_down(8),
             source.length.round_down(8));
  }
  for (const auto& [height, length] : plan.rests) {
    list.add(Leftover::From::sheet, fabric.sources.size() - 1, height, length);
  }
  for (std::size_t s = 0; s < fabric.sources.size(); ++s) {
    const ClothSource& source = fabric.sources[s];
    if (!source.height || !source.had) continue;
    // No more fat quarters are bought than are cut.
    if (source.kind == ClothSource::Kind::fat_quarter ||
        source.kind == ClothSource::Kind::fat_eighth) {
      continue;
    }
    long long used = 0;
    for (const SourceUse& u : plan.need.sources) used += u.source == s ? u.used : 0;
    list.add(Leftover::From::whole_sheet, s, source.height->round_down(8),
             source.length.round_down(8), *source.had - used);
  }
  if (plan.need.yards) {
    const Exact rest = Exact(*plan.need.yards) * Exact(36) - plan.need.length - plan.need.squaring -
                       plan.need.shrinkage - plan.need.margin;
    const std::size_t last = fabric.sources.size() - 1;
    list.add(Leftover::From::cloth, last, rest.round_down(8),
             fabric.sources[last].length.round_down(8));
  }
  // Squares come apart into more triangles than are sewn. A directional print's are waste.
  std::map<PieceId, long long> cut_apart;
  for (const StripDemand& d : wants.demands) {
    if (d.kind == Run::Kind::piece && d.per_cut > 1 && !cuts[d.piece].one_way) {
      cut_apart[d.piece] += d.cuts() * d.per_cut - d.pieces;
    }
  }
  for (const auto& [piece, count] : cut_apart) list.add_pieces(piece, count);
  return list.sorted();
}

}  // namespace dogear
