// Blocks on point. As seen, the rows of the source run level, every second one a block shorter;
// they are sewn in diagonal rows, because those alone can be joined in straight seams.
//
// In steps of half a diagonal, the block c of row r has its center at X = 2c + 1 (2c + 2 in every
// second row), Y = r + 1. A diagonal row runs up to the right, so X + Y is the same all along it.
// It ends in a side triangle, or in a corner triangle where it ends in a corner of the quilt; the
// two corners that no row runs into are sewn on last. Triangles have their long edge (sides) or
// short edges (corners) on the straight grain, along the edge of the quilt.

#include <algorithm>
#include <map>

#include "base/length.h"
#include "check/build.h"

namespace dogear {

namespace {

class OnPoint {
 public:
  OnPoint(PartBuilder& b, const CheckedPattern& checked, const SizeDef& size,
          std::vector<BlockPlace>& places, Diagnostics& d)
      : b_(b), checked_(checked), size_(size), places_(places), d_(d) {}

  std::optional<PartId> build() {
    if (!counts_are_right() || !blocks_are_alike()) return std::nullopt;
    wide_ = static_cast<long long>(size_.cells[0].size());
    tall_ = static_cast<long long>(size_.cells.size());
    half_ = side_ * Exact::sqrt2() / Exact(2);
    make_triangles();
    std::map<long long, Row> rows;  // by X + Y
    for (std::size_t r = 0; r < size_.cells.size(); ++r) {
      for (std::size_t c = 0; c < size_.cells[r].size(); ++c) {
        const long long x = static_cast<long long>(2 * c + 1 + r % 2);
        const long long y = static_cast<long long>(r) + 1;
        place_block(rows[x + y], size_.cells[r][c], x, y);
      }
    }
    std::vector<Placed> parts;
    std::vector<Span> spans;
    corner(parts, spans, 6, 0, 0);
    std::size_t number = 0;
    for (auto& [sum, row] : rows) {
      if (!place_row(row, ++number, parts, spans)) return std::nullopt;
    }
    corner(parts, spans, 18, 2 * wide_ - 1, tall_);
    return b_.whole({"center", "quilt center", size_.setting_span, std::nullopt, {}, {}},
                    std::move(parts), spans);
  }

 private:
  using Cell = SizeDef::Cell;
  struct Row {
    std::map<long long, std::pair<Placed, Span>> blocks;  // by X
    std::map<long long, long long> heights;               // X to Y
  };

  const std::string& name_of(const Cell& cell) const { return checked_.pattern.uses[cell.use].id; }
  const Polygon& outline(const Cell& cell) const {
    return b_.part(checked_.block_parts[cell.use]).outline;
  }

  bool counts_are_right() {
    const std::size_t first = size_.cells[0].size();
    bool good = true;
    for (std::size_t r = 0; r < size_.cells.size(); ++r) {
      const auto& row = size_.cells[r];
      const std::size_t want = r % 2 == 0 ? first : first - 1;
      if (row.size() == want && want > 0) continue;
      Diagnostic& e =
          d_.error("D206", row.empty() ? size_.setting_span : row[0].span,
                   "row " + std::to_string(r + 1) + " has " + std::to_string(row.size()) +
                       " blocks where " + std::to_string(want) + " are needed on point");
      e.notes.push_back({size_.cells[0][0].span, "the first row sets the width"});
      e.hints.push_back("every second row lies between the blocks of the first, so one shorter");
      good = false;
    }
    if (good && size_.cells.size() % 2 == 0) {
      d_.error("D206", size_.cells.back()[0].span,
               "a setting on point ends with a full row, as it begins")
          .hints.push_back("add a row of " + std::to_string(first) + " blocks, or leave this out");
      good = false;
    }
    return good;
  }

  bool blocks_are_alike() {
    bool good = true;
    const Cell& first = size_.cells[0][0];
    side_ = bounds(outline(first)).width();
    for (const auto& row : size_.cells) {
      for (const Cell& cell : row) {
        const Polygon& p = outline(cell);
        const Box box = bounds(p);
        if (!is_rectangle(p) || box.width() != box.height()) {
          d_.error("D207", cell.span,
                   "`" + name_of(cell) + "` is no square, so it cannot be set on point")
              .hints.push_back("blocks on point are squares; others go into `setting: rows`");
          good = false;
        } else if (box.width() != side_) {
          Diagnostic& e = d_.error("D207", cell.span,
                                   "`" + name_of(cell) + "` finishes " + about_inches(box.width()) +
                                       " square, and the first block " + about_inches(side_));
          e.notes.push_back({first.span, "the first block is here"});
          e.hints.push_back("all blocks of a setting on point have one size");
          good = false;
        }
      }
    }
    return good;
  }

  void make_triangles() {
    const Exact z = 0;
    const Exact a = half_;
    side_triangle_ =
        b_.patch({{{a, z}, {a * Exact(2), a}, {z, a}}}, *size_.ground, size_.setting_span);
    corner_ = b_.patch({{{z, z}, {a, a}, {z, a}}}, *size_.ground, size_.setting_span);
  }

  // A part turned, its box starting at (x, y) half diagonals.
  Placed at(PartId id, int turn, long long x, long long y) const {
    Placed p = b_.turned_to_origin(id, turn);
    p.where = p.where.then(Transform::moved({half_ * Exact(x), half_ * Exact(y)}));
    return p;
  }

  void corner(std::vector<Placed>& parts, std::vector<Span>& spans, int turn, long long x,
              long long y) const {
    parts.push_back(at(corner_, turn, x, y));
    spans.push_back(size_.setting_span);
  }

  void place_block(Row& row, const Cell& cell, long long x, long long y) {
    const Placed p = at(checked_.block_parts[cell.use], 3, x - 1, y - 1);
    places_.push_back({cell.use, p.where});
    row.blocks.emplace(x, std::pair(p, cell.span));
    row.heights[x] = y;
  }

  // The triangle at the lower left end of a row, beyond the block at (x, y).
  Placed lower_end(long long x, long long y) const {
    if (x == 1 && y == tall_) return at(corner_, 0, 0, tall_);
    if (y == tall_) return at(side_triangle_, 0, x - 2, tall_);
    return at(side_triangle_, 6, 0, y);
  }

  Placed upper_end(long long x, long long y) const {
    const long long right = 2 * wide_ - 1;
    if (x == right && y == 1) return at(corner_, 12, right, 0);
    if (y == 1) return at(side_triangle_, 12, x, 0);
    return at(side_triangle_, 18, right, y - 2);
  }

  bool place_row(Row& row, std::size_t number, std::vector<Placed>& parts,
                 std::vector<Span>& spans) {
    std::vector<Placed> in;
    std::vector<Span> in_spans;
    const auto add = [&](const Placed& p, const Span& span) {
      in.push_back(p);
      in_spans.push_back(span);
    };
    const auto& [first_x, first_y] = *row.heights.begin();
    const auto& [last_x, last_y] = *row.heights.rbegin();
    const Span& span = row.blocks.begin()->second.second;
    add(lower_end(first_x, first_y), size_.setting_span);
    for (const auto& [x, block] : row.blocks) add(block.first, block.second);
    add(upper_end(last_x, last_y), size_.setting_span);
    Point least = bounds(b_.placed_outline(in.front())).least;
    for (const Placed& p : in) {
      const Point l = bounds(b_.placed_outline(p)).least;
      least = {min(least.x, l.x), min(least.y, l.y)};
    }
    const auto id = b_.whole({"row " + std::to_string(number), "row", span, std::nullopt, {}, {}},
                             std::move(in), in_spans);
    if (!id) return false;
    parts.push_back({*id, Transform::moved(least)});
    spans.push_back(span);
    return true;
  }

  PartBuilder& b_;
  const CheckedPattern& checked_;
  const SizeDef& size_;
  std::vector<BlockPlace>& places_;
  Diagnostics& d_;
  Exact side_, half_;
  long long wide_ = 0, tall_ = 0;
  PartId side_triangle_ = 0, corner_ = 0;
};

}  // namespace

std::optional<PartId> set_on_point(PartBuilder& builder, const CheckedPattern& checked,
                                   const SizeDef& size, std::vector<BlockPlace>& places,
                                   Diagnostics& diagnostics) {
  return OnPoint(builder, checked, size, places, diagnostics).build();
}

}  // namespace dogear
