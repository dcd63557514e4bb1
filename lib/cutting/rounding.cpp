#include "cutting/rounding.h"

#include <algorithm>
#include <cmath>
#include <set>

#include "base/text.h"
#include "cutting/lines.h"
#include "cutting/sums.h"

namespace dogear {

namespace {

// In; no cutter keeps to less in one piece. What many such pieces add up to is still held to the
// tolerances.
constexpr double unseen = 1.0 / 128;

// The pieces of one kind that lie side by side in a block or a top.
struct Side {
  double times = 0;  // by how much a difference of the measure grows on the line where it is most
  long long patches = 0;
  bool rows = true;
  std::string where;  // "the block Star", "the top of the size `mini`"
  Span span;
};

struct OffMeasure {
  CutMeasure measure;
  double off = 0;  // printed - exact
  Stretch each;    // for an inch of difference
  Side block, top;
};

struct OffPiece {
  std::vector<OffMeasure> measures;
  Stretch stretch;
};

class RoundingCheck {
 public:
  RoundingCheck(const CheckedPattern& checked, const Piecing& piecing,
                const std::vector<PieceCut>& cuts, Diagnostics& d)
      : pattern_(checked.pattern), piecing_(piecing), cuts_(cuts), d_(d) {}

  void run() {
    for (PieceId id = 0; id < piecing_.pieces.size(); ++id) find_off(id);
    if (off_.empty()) return;
    for (const SizeSewing& size : piecing_.sizes) look_at_blocks(size);
    for (const SizeSewing& size : piecing_.sizes) look_at_top(size);
    report_blocks();
    report_seams();
    report_tops();
    for (const auto& [id, piece] : off_) warn(id, piece);
  }

 private:
  // How much too large, with its sign, and where.
  struct Total {
    double inches = 0;
    bool rows = true;
    std::string where;
    Span span;
    std::set<PieceId> pieces;
  };

  void find_off(PieceId id) {
    const Piece& piece = piecing_.pieces[id];
    if (piece.made_of) return;  // sewn larger and trimmed, or cut out of what is judged itself
    const PieceCut& cut = cuts_[id];
    OffPiece out;
    const auto add = [&](const CutMeasure& m, const Stretch& each) {
      const double off = (Exact(m.printed) - m.exact).approx();
      if (off == 0 || each.none()) return;
      out.stretch += each * off;
      for (OffMeasure& known : out.measures) {
        // Both sides of a square are one measure.
        if (known.measure.exact != m.exact) continue;
        known.each += each;
        return;
      }
      out.measures.push_back({m, off, each, {}, {}});
    };
    if (piece.in_strip_set) {
      const Exact height = bounds(piece.shape).height();
      CutMeasure m;
      m.exact = height + pattern_.seam_allowance * Exact(2);
      m.printed = printed_line(m.exact, straight_step(pattern_));
      Stretch s;
      s.yy = 1 / height.approx();
      add(m, s);
    } else {
      for (const CutMeasure& m : cut.measures) add(m, stretch_of(piece.shape, cut, m));
    }
    if (out.measures.empty()) return;
    stretches_[id] = out.stretch;
    off_[id] = std::move(out);
  }

  std::vector<PlacedPiece> off_patches(UnitId unit) const {
    std::vector<PlacedPiece> out = flatten(piecing_, unit);
    std::erase_if(out, [&](const PlacedPiece& p) { return !off_.contains(p.piece); });
    return out;
  }

  // The sums across one block or top, and what each piece has in them.
  void look_at(UnitId unit, const std::string& where, const Span& span, bool is_top,
               std::vector<Total>& totals) {
    std::map<PieceId, std::vector<PlacedPiece>> by_piece;
    const std::vector<PlacedPiece> patches = off_patches(unit);
    for (const PlacedPiece& p : patches) by_piece[p.piece].push_back(p);
    for (const bool rows : {true, false}) {
      Total total;
      total.inches = greatest_sum(piecing_, patches, stretches_, rows).inches;
      total.rows = rows;
      total.where = where;
      total.span = span;
      for (const auto& [id, of_piece] : by_piece) {
        for (OffMeasure& m : off_[id].measures) {
          const LineSum sum = greatest_sum(piecing_, of_piece, {{id, m.each}}, rows);
          if (sum.inches != 0) total.pieces.insert(id);
          Side& side = is_top ? m.top : m.block;
          if (std::abs(sum.inches) <= side.times + 1e-9) continue;
          side = {std::abs(sum.inches), sum.patches, rows, where, span};
        }
      }
      totals.push_back(std::move(total));
    }
  }

  void look_at_blocks(const SizeSewing& size) {
    for (const BlockSewing& block : size.blocks) {
      const BlockUse& use = pattern_.uses[block.use];
      const BlockDef& def = pattern_.blocks[use.block];
      for (const UnitId unit : block.finals) {
        if (!seen_.insert(unit).second) continue;
        look_at(unit, "the block " + use.title, def.span, false, blocks_);
      }
    }
  }

  void look_at_top(const SizeSewing& size) {
    const SizeDef& def = pattern_.sizes[size.size];
    look_at(size.top, "the top of the size `" + def.id + "`", def.span, true, tops_);
  }

  std::string name(PieceId id) const {
    const Piece& piece = piecing_.pieces[id];
    const std::string fabric = pattern_.fabrics[piece.fabric].name;
    return "the " + (piece.in_strip_set ? "strip" : piece.shape_words) + " of " + fabric;
  }

  static std::string measures(const OffPiece& piece, bool exact) {
    std::string out;
    for (const OffMeasure& m : piece.measures) {
      if (!out.empty()) out += " × ";
      out += exact ? decimal(m.measure.exact.approx(), 3) : plain(m.measure.printed);
    }
    return out + " in";
  }

  // "2 1/2 in is about 1/32 in more in each piece: ..." for a line next to the exact measure.
  static std::string cost(const OffMeasure& m, const Fraction& line) {
    const double off = (Exact(line) - m.measure.exact).approx();
    std::string out = plain_inches(line) + " is " + small_inches(off) +
                      (off > 0 ? " more" : " less") + " in each piece, " + small_inches(off / 2) +
                      " in each of its seams";
    if (m.block.times > 0) out += ", " + small_inches(off * m.block.times) + " across the block";
    if (m.top.times > 0) out += ", " + small_inches(off * m.top.times) + " across the top";
    return out;
  }

  void add_choices(Diagnostic& d, PieceId id) const {
    const Exact step = straight_step(pattern_);
    const Exact allowances = pattern_.seam_allowance * Exact(2);
    for (const OffMeasure& m : off_.at(id).measures) {
      std::vector<std::string> finished;
      for (const Fraction& line : lines_beside(m.measure.exact, step, allowances)) {
        const auto lines = (Exact(line) / step).as_fraction();
        const bool has = lines && lines->den == 1;
        d.hints.push_back((has ? "" : "on a ruler with lines every 1/8 in, ") + cost(m, line));
        const auto inside = (Exact(line) - allowances).as_fraction();
        if (has && inside && inside->num > 0) finished.push_back(plain_inches(*inside));
      }
      if (!finished.empty() && cuts_[id].method == CutMethod::rectangle) {
        d.hints.push_back("a finished measure on the lines is " + join(finished, " or "));
      }
    }
  }

  void add_places(Diagnostic& d, PieceId id) const {
    const auto note = [&](const Side& side, double off) {
      if (side.times == 0) return;
      const std::string lie = side.patches == 1 ? "one lies "
                              : side.rows
                                  ? std::to_string(side.patches) + " lie side by side "
                                  : std::to_string(side.patches) + " lie one above the other ";
      d.notes.push_back({side.span, lie + (side.rows ? "across " : "in the height of ") +
                                        side.where + ": " + small_inches(off * side.times)});
    };
    for (const OffMeasure& m : off_.at(id).measures) {
      note(m.block, m.off);
      note(m.top, m.off);
    }
  }

  bool told(const std::set<PieceId>& pieces) const {
    return std::all_of(pieces.begin(), pieces.end(),
                       [&](PieceId id) { return named_.contains(id); });
  }

  // The pieces that take part, the one that adds most first.
  void add_pieces(Diagnostic& d, const std::set<PieceId>& pieces) {
    std::vector<PieceId> order(pieces.begin(), pieces.end());
    const auto weight = [&](PieceId id) {
      double most = 0;
      for (const OffMeasure& m : off_.at(id).measures) {
        most = std::max(most, std::abs(m.off) * std::max({1.0, m.block.times, m.top.times}));
      }
      return most;
    };
    std::stable_sort(order.begin(), order.end(),
                     [&](PieceId a, PieceId b) { return weight(a) > weight(b) + 1e-9; });
    constexpr std::size_t most_told = 4;
    for (std::size_t i = 0; i < order.size() && i < most_told; ++i) {
      d.notes.push_back({piecing_.pieces[order[i]].span,
                         name(order[i]) + ": " + measures(off_.at(order[i]), true) +
                             " would be exact, " + measures(off_.at(order[i]), false) +
                             " is printed"});
    }
    if (!order.empty()) add_choices(d, order.front());
    if (pattern_.tolerance_span.line > 0) {
      d.notes.push_back({pattern_.tolerance_span, "the tolerance is stated here"});
    }
    named_.insert(pieces.begin(), pieces.end());
  }

  static std::string too(const Total& total) {
    const char* large = total.rows ? " too wide" : " too high";
    const char* small = total.rows ? " too narrow" : " too low";
    return small_inches(total.inches) + (total.inches > 0 ? large : small);
  }

  void report_blocks() {
    const Exact& most = pattern_.tolerance;
    for (const Total& total : blocks_) {
      if (std::abs(total.inches) <= most.approx() + 1e-9) continue;
      if (told(total.pieces)) continue;
      Diagnostic& d =
          d_.error("D522", total.span,
                   total.where + " comes out " + too(total) + ", more than the tolerance of " +
                       about_inches(most, 64) + ": its cuts are rounded, and that adds up");
      add_pieces(d, total.pieces);
    }
  }

  // A long strip takes the length of what it is sewn to.
  bool is_eased(const Input& in, const Seam& seam) const {
    if (!in.is_piece) return false;
    const auto& measures = cuts_[in.piece].measures;
    const bool is_long = std::any_of(measures.begin(), measures.end(), [](const CutMeasure& m) {
      return m.eased && m.what == CutMeasure::What::length;
    });
    return is_long && in.where.inverse().apply_direction(seam.where.b - seam.where.a).y.is_zero();
  }

  void report_seams() {
    SeamSums sums(piecing_, stretches_);
    std::set<UnitId> units;
    for (const SizeSewing& size : piecing_.sizes) {
      for (const auto& [unit, count] : size.make) units.insert(unit);
    }
    for (const UnitId unit : units) {
      SeamSums::Miss worst;
      const Seam* where = nullptr;
      for (const Seam& seam : piecing_.units[unit].seams) {
        const auto& inputs = piecing_.units[unit].inputs;
        if (is_eased(inputs[seam.first], seam) || is_eased(inputs[seam.second], seam)) continue;
        SeamSums::Miss miss = sums.miss(unit, seam);
        if (miss.inches <= worst.inches + 1e-9) continue;
        worst = std::move(miss);
        where = &seam;
      }
      if (where == nullptr || worst.inches <= pattern_.tolerance.approx() + 1e-9) continue;
      if (told(worst.pieces)) continue;
      Diagnostic& d = d_.error(
          "D521", where->span,
          "two edges sewn together in `" + piecing_.units[unit].name + "` differ by " +
              small_inches(worst.inches) + ", more than the tolerance of " +
              about_inches(pattern_.tolerance, 64) + ": their cuts are rounded, and that adds up");
      add_pieces(d, worst.pieces);
    }
  }

  void report_tops() {
    for (const Total& total : tops_) {
      if (std::abs(total.inches) <= pattern_.top_tolerance.approx() + 1e-9) continue;
      if (told(total.pieces)) continue;
      Diagnostic& d =
          d_.error("D523", total.span,
                   total.where + " comes out " + too(total) + ", more than the top tolerance of " +
                       about_inches(pattern_.top_tolerance, 64) +
                       ": its cuts are rounded, and that adds up");
      add_pieces(d, total.pieces);
    }
  }

  void warn(PieceId id, const OffPiece& piece) {
    const bool seen = std::any_of(piece.measures.begin(), piece.measures.end(),
                                  [](const OffMeasure& m) { return std::abs(m.off) > unseen; });
    if (!seen || named_.contains(id)) return;
    Diagnostic& d = d_.warning("D551", piecing_.pieces[id].span,
                               name(id) + " cannot be cut to a line: " + measures(piece, true) +
                                   " would be exact, " + measures(piece, false) + " is printed");
    add_places(d, id);
    add_choices(d, id);
  }

  const Pattern& pattern_;
  const Piecing& piecing_;
  const std::vector<PieceCut>& cuts_;
  Diagnostics& d_;
  std::map<PieceId, OffPiece> off_;
  std::map<PieceId, Stretch> stretches_;
  std::set<UnitId> seen_;
  std::vector<Total> blocks_, tops_;
  std::set<PieceId> named_;  // pieces that an error has told of
};

}  // namespace

void check_rounding(const CheckedPattern& checked, const Piecing& piecing,
                    const std::vector<PieceCut>& cuts, Diagnostics& diagnostics) {
  RoundingCheck(checked, piecing, cuts, diagnostics).run();
}

}  // namespace dogear
