#include "cutting/one_way.h"

#include <algorithm>

#include "piecing/mirror.h"

namespace dogear {

namespace {

bool is_halved(const PieceCut& cut) {
  return cut.method == CutMethod::half_square || cut.method == CutMethod::quarter_square;
}

// Do the cuts that give `a` give `b` as well?
bool come_together(const Piece& a, const PieceCut& cut_a, const Piece& b, const PieceCut& cut_b) {
  if (a.fabric != b.fabric || cut_a.method != cut_b.method || !(cut_a.strip == cut_b.strip)) {
    return false;
  }
  if (cut_a.method == CutMethod::quarter_square) {
    return posed(a.shape, 6).shape == b.shape || posed(a.shape, 12).shape == b.shape ||
           posed(a.shape, 18).shape == b.shape;
  }
  const bool turned_about = cut_a.method == CutMethod::half_square ||
                            cut_a.method == CutMethod::angled ||
                            cut_a.method == CutMethod::half_angled;
  return turned_about && posed(a.shape, 12).shape == b.shape;
}

}  // namespace

void cut_one_way(PieceCut& cut) {
  if (cut.method == CutMethod::rectangle || cut.method == CutMethod::joined_strip) return;
  cut.one_way = true;
  cut.per_cut = 1;
  cut.turned_pitch = cut.pitch;
  if (is_halved(cut)) return;
  cut.pitch = cut.first;
  cut.square_ends = false;
}

std::vector<CutFamily> join_families(const Piecing& piecing, const std::vector<PieceCut>& cuts,
                                     std::vector<StripDemand>& demands) {
  std::vector<CutFamily> out;
  std::vector<StripDemand> joined;
  std::vector<bool> taken(demands.size(), false);
  for (std::size_t i = 0; i < demands.size(); ++i) {
    if (taken[i]) continue;
    taken[i] = true;
    std::vector<StripDemand> kin{demands[i]};
    const bool one_way = demands[i].kind == Run::Kind::piece && cuts[demands[i].piece].one_way;
    for (std::size_t k = i + 1; k < demands.size() && one_way; ++k) {
      if (taken[k] || demands[k].kind != Run::Kind::piece) continue;
      const PieceId a = demands[i].piece, b = demands[k].piece;
      if (!cuts[b].one_way ||
          !come_together(piecing.pieces[a], cuts[a], piecing.pieces[b], cuts[b])) {
        continue;
      }
      taken[k] = true;
      kin.push_back(demands[k]);
    }
    if (kin.size() == 1) {
      joined.push_back(kin.front());
      continue;
    }
    std::stable_sort(kin.begin(), kin.end(), [](const StripDemand& a, const StripDemand& b) {
      return a.pieces > b.pieces;
    });
    CutFamily family;
    StripDemand together = kin.front();
    family.leader = together.piece;
    together.shared = true;
    const PieceCut& cut = cuts[together.piece];
    if (!is_halved(cut)) {
      // Turn about: two pieces a cut; what is needed of one kind alone is cut without turning.
      StripDemand rest = together;
      rest.shared = false;
      rest.pieces -= kin[1].pieces;
      together.pieces = kin[1].pieces;
      together.first = cut.first + cut.turned_pitch;
      together.pitch = 2 * cut.turned_pitch;
      if (rest.pieces > 0) joined.push_back(rest);
    }
    for (std::size_t n = 1; n < kin.size(); ++n) {
      family.others.emplace_back(kin[n].piece, kin[n].pieces);
    }
    joined.push_back(together);
    out.push_back(std::move(family));
  }
  demands = std::move(joined);
  return out;
}

void hand_out(const std::vector<CutFamily>& families, std::vector<Strip>& strips) {
  for (CutFamily family : families) {
    for (Strip& strip : strips) {
      for (Run& run : strip.runs) {
        if (run.kind != Run::Kind::piece || run.piece != family.leader || !run.shared) continue;
        for (auto& [piece, left] : family.others) {
          const long long n = std::min(left, run.count);
          if (n > 0) run.also.emplace_back(piece, n);
          left -= n;
        }
      }
    }
  }
}

}  // namespace dogear
