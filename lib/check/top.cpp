#include <algorithm>
#include <set>

#include "base/length.h"
#include "check/build.h"
#include "check/words.h"
#include "model/shapes.h"

namespace dogear {

namespace {

Polygon triangle(const Point& a, const Point& b, const Point& c) { return {{a, b, c}}; }

class TopBuilder {
 public:
  TopBuilder(PartBuilder& builder, const CheckedPattern& checked, const SizeDef& size,
             Diagnostics& d)
      : b_(builder), checked_(checked), size_(size), d_(d) {}

  std::optional<CheckedSize> build(std::size_t index) {
    out_.size = index;
    std::optional<PartId> center;
    switch (size_.setting) {
      case Setting::rows:
        center = rows();
        break;
      case Setting::on_point:
        for (const auto& row : size_.cells) {
          for (const Cell& cell : row) block_of(cell);
        }
        center = set_on_point(b_, checked_, size_, out_.places, d_);
        break;
      case Setting::hexagon_columns:
        center = hexagon_columns();
        break;
      case Setting::hexagon_rows:
        center = hexagon_rows();
        break;
    }
    if (!center) return std::nullopt;
    if (size_.sashing && size_.sashing->around && size_.setting == Setting::hexagon_rows) {
      const SashingDef& sash = *size_.sashing;
      center = add_border(b_, checked_, *center, {sash.fabric, sash.width, sash.span},
                          "outer sashing", out_, d_);
      if (!center) return std::nullopt;
    }
    for (std::size_t i = 0; i < size_.borders.size(); ++i) {
      const std::string name =
          size_.borders.size() == 1 ? "border" : "border " + std::to_string(i + 1);
      center = add_border(b_, checked_, *center, size_.borders[i], name, out_, d_);
      if (!center) return std::nullopt;
    }
    out_.top = *center;
    const Box box = bounds(b_.part(out_.top).outline);
    out_.width = box.width();
    out_.height = box.height();
    if (!sleeve_fits()) return std::nullopt;
    return out_;
  }

 private:
  using Cell = SizeDef::Cell;

  // It lies behind the quilt, an inch from every edge.
  bool sleeve_fits() {
    if (!size_.sleeve) return true;
    const Exact least(2);
    if (out_.width > least && size_.sleeve->depth + least <= out_.height) return true;
    Diagnostic& e = d_.error(
        "D215", size_.sleeve->span,
        "a sleeve " + about_inches(size_.sleeve->depth) + " deep does not fit behind this size");
    e.notes.push_back({size_.span, "it finishes " + about_inches(out_.width) + " wide and " +
                                       about_inches(out_.height) + " high"});
    e.hints.push_back("give it a smaller `depth`, or leave it out");
    return false;
  }

  PartId block_of(const Cell& cell) {
    const PartId id = checked_.block_parts[cell.use];
    if (std::find(out_.blocks.begin(), out_.blocks.end(), id) == out_.blocks.end()) {
      out_.blocks.push_back(id);
    }
    return id;
  }

  // A stack of rows, each row moved down below the one before it.
  struct Stack {
    std::vector<Placed> parts;
    std::vector<Span> spans;
    Exact y = 0;
  };
  void push_row(Stack& stack, PartId row, const Span& span) {
    stack.parts.push_back({row, Transform::moved({Exact(0), stack.y})});
    stack.spans.push_back(span);
    stack.y += bounds(b_.part(row).outline).height();
  }

  std::optional<PartId> make_row(std::vector<Placed> parts, const std::vector<Span>& spans,
                                 const std::string& name, const Span& span) {
    if (parts.size() == 1) {
      return parts.front().part;
    }
    return b_.whole({name, "row", span, std::nullopt, {}, {}}, std::move(parts), spans);
  }

  // -- straight rows ---------------------------------------------------------------------------

  std::optional<PartId> rows() {
    if (!same_heights()) return std::nullopt;
    const auto& sash = size_.sashing;
    const bool around = sash && sash->around;
    Stack stack;
    if (around && !sash_row(stack, true)) return std::nullopt;
    for (std::size_t r = 0; r < size_.cells.size(); ++r) {
      if (r > 0 && sash && !sash_row(stack, false)) return std::nullopt;
      std::vector<Placed> parts;
      std::vector<Span> spans;
      Exact x = 0;
      const Exact height = bounds(b_.part(block_of(size_.cells[r][0])).outline).height();
      const auto add_sash = [&] {
        parts.push_back({b_.patch(rectangle(sash->width, height), sash->fabric, sash->span),
                         Transform::moved({x, Exact(0)})});
        spans.push_back(sash->span);
        x += sash->width;
      };
      if (around) add_sash();
      for (std::size_t c = 0; c < size_.cells[r].size(); ++c) {
        if (c > 0 && sash) add_sash();
        const Cell& cell = size_.cells[r][c];
        const PartId block = block_of(cell);
        const Transform at = Transform::moved({x, Exact(0)});
        parts.push_back({block, at});
        spans.push_back(cell.span);
        out_.places.push_back({cell.use, at.then(Transform::moved({Exact(0), stack.y}))});
        x += bounds(b_.part(block).outline).width();
      }
      if (around) add_sash();
      const auto row =
          make_row(std::move(parts), spans, "row " + std::to_string(r + 1), size_.cells[r][0].span);
      if (!row) return std::nullopt;
      push_row(stack, *row, size_.cells[r][0].span);
    }
    if (around && !sash_row(stack, true)) return std::nullopt;
    if (stack.parts.size() == 1) return stack.parts.front().part;
    return b_.whole({"center", "quilt center", size_.setting_span, std::nullopt, {}, {}},
                    std::move(stack.parts), stack.spans);
  }

  // The grid step with which the block would be as high as it shall be, where a ruler has it.
  void hint_unit(Diagnostic& e, const Cell& cell, const Exact& is, const Exact& shall) const {
    const BlockDef& block = checked_.pattern.blocks[checked_.pattern.uses[cell.use].block];
    const Exact unit = block.unit * shall / is;
    const Fraction eighths = unit.round_nearest(8);
    if (Exact(eighths) != unit || eighths.num <= 0) return;
    e.hints.push_back("with `unit: " + plain_inches(eighths) + "` in blocks/" + block.id +
                      ".yaml it would finish " + about_inches(shall) + " high");
  }

  bool same_heights() {
    bool good = true;
    std::optional<Exact> total;
    std::set<std::size_t> told;  // a block of another height is told once a size
    for (const auto& row : size_.cells) {
      Exact width = 0;
      for (const Cell& cell : row) {
        const PartId id = block_of(cell);
        const Polygon& outline = b_.part(id).outline;
        const Box box = bounds(outline);
        if (outline.size() != 4 || area(outline) != box.width() * box.height()) {
          d_.error("D207", cell.span,
                   "`" + checked_.pattern.uses[cell.use].id +
                       "` is no rectangle, so it cannot be set in straight rows")
              .hints.push_back(
                  "hexagons are set with `setting: hexagon columns` or `hexagon rows`");
          good = false;
          continue;
        }
        const Box first = bounds(b_.part(block_of(row[0])).outline);
        if (box.height() != first.height() && !told.insert(cell.use).second) {
          good = false;
          continue;
        }
        if (box.height() != first.height()) {
          Diagnostic& e = d_.error("D207", cell.span,
                                   "`" + checked_.pattern.uses[cell.use].id + "` finishes " +
                                       about_inches(box.height()) + " high in a row that is " +
                                       about_inches(first.height()) + " high");
          e.notes.push_back({row[0].span, "the row starts with this block"});
          hint_unit(e, cell, box.height(), first.height());
          good = false;
        }
        const std::size_t column = static_cast<std::size_t>(&cell - row.data());
        if (size_.sashing && size_.sashing->cornerstones && column < size_.cells[0].size()) {
          const Cell& above = size_.cells[0][column];
          if (bounds(b_.part(block_of(above)).outline).width() != box.width()) {
            Diagnostic& e = d_.error("D206", cell.span,
                                     "the cornerstones do not line up: this block is " +
                                         about_inches(box.width()) + " wide");
            e.notes.push_back({above.span, "the first row has another width here"});
            good = false;
          }
        }
        width += box.width();
      }
      if (size_.sashing) width += size_.sashing->width * Exact(static_cast<long long>(row.size()));
      if (!total) total = width;
      if (good && width != *total) {
        Diagnostic& e =
            d_.error("D206", row[0].span,
                     "this row finishes " + about_inches(abs(width - *total)) +
                         (width < *total ? " shorter" : " longer") + " than the first row");
        e.notes.push_back({size_.cells[0][0].span, "the first row starts here"});
        const std::size_t here = row.size(), first = size_.cells[0].size();
        if (here != first)
          e.hints.push_back("it has " + std::to_string(here) + (here == 1 ? " block" : " blocks") +
                            ", the first row has " + std::to_string(first));
        good = false;
      }
    }
    return good;
  }

  // A row of sashing below the blocks of the first row, with cornerstones where there are some.
  bool sash_row(Stack& stack, bool) {
    const SashingDef& sash = *size_.sashing;
    std::vector<Placed> parts;
    std::vector<Span> spans;
    Exact x = 0;
    Exact run = 0;
    const auto flush = [&] {
      if (run.is_zero()) return;
      parts.push_back({b_.patch(rectangle(run, sash.width), sash.fabric, sash.span),
                       Transform::moved({x, Exact(0)})});
      spans.push_back(sash.span);
      x += run;
      run = 0;
    };
    const auto crossing = [&] {
      if (!sash.cornerstones) {
        run += sash.width;
        return;
      }
      flush();
      parts.push_back({b_.patch(rectangle(sash.width, sash.width), *sash.cornerstones, sash.span),
                       Transform::moved({x, Exact(0)})});
      spans.push_back(sash.span);
      x += sash.width;
    };
    const auto& row = size_.cells[0];
    if (sash.around) crossing();
    for (std::size_t c = 0; c < row.size(); ++c) {
      if (c > 0) crossing();
      run += bounds(b_.part(block_of(row[c])).outline).width();
    }
    if (sash.around) crossing();
    flush();
    const auto made = make_row(std::move(parts), spans, "sashing row", sash.span);
    if (!made) return false;
    push_row(stack, *made, sash.span);
    return true;
  }

  // -- hexagons in halves ----------------------------------------------------------------------

  struct Halves {
    Placed top, bottom;  // in the block's coordinates
    Exact side, height;  // of the hexagon's side and of one half
  };

  std::optional<Halves> halves(const Cell& cell) {
    const PartId id = block_of(cell);
    const Part& block = b_.part(id);
    const Box box = bounds(block.outline);
    const Exact h = box.height() / Exact(2);
    // Regular and with a flat top: twice as wide as a side, √3 sides high.
    const bool hexagon =
        name_shape(block.outline) == "hexagon" &&
        box.height() * box.height() * Exact(4) == box.width() * box.width() * Exact(3);
    if (!hexagon || block.parts.size() != 2) {
      d_.error("D208", cell.span,
               "`" + checked_.pattern.uses[cell.use].id + "` is not a hexagon made of two halves")
          .hints.push_back(
              "write the block as `stack: [half, half turned]`, each half a half-hexagon");
      return std::nullopt;
    }
    Halves out{block.parts[0], block.parts[1], box.width() / Exact(2), h};
    const Box first = bounds(b_.placed_outline(out.top));
    if (!first.least.y.is_zero()) std::swap(out.top, out.bottom);
    const Box top = bounds(b_.placed_outline(out.top));
    if (top.height() != h || top.width() != box.width()) {
      d_.error("D208", cell.span,
               "`" + checked_.pattern.uses[cell.use].id +
                   "` is not split into halves along its longest line")
          .hints.push_back("write the block as `stack: [half, half turned]`");
      return std::nullopt;
    }
    if (!side_) {
      side_ = out.side;
      side_height_ = out.height;
      first_ = cell.span;
    } else if (*side_ != out.side) {
      Diagnostic& e = d_.error("D207", cell.span,
                               "`" + checked_.pattern.uses[cell.use].id + "` finishes " +
                                   about_inches(out.height * Exact(2)) +
                                   " high; all hexagons of a setting have one size");
      e.notes.push_back({first_, "this one has another size"});
      hint_unit(e, cell, out.height, side_height_);
      return std::nullopt;
    }
    return out;
  }

  struct Row {
    std::vector<Placed> parts;
    std::vector<Span> spans;
  };

  // Half-hexagon of the ground; `up` when its narrow edge is at the top.
  Placed ground_half(bool up, const Exact& s, const Exact& h, const Exact& x) {
    const Exact half = s / Exact(2);
    const Polygon shape{{{half, Exact(0)}, {half + s, Exact(0)}, {s * Exact(2), h}, {Exact(0), h}}};
    const PartId id = b_.patch(shape, *size_.ground, size_.setting_span);
    Placed placed = b_.turned_to_origin(id, up ? 0 : 12);
    placed.where = placed.where.then(Transform::moved({x, Exact(0)}));
    return placed;
  }

  // The right-angled triangle that squares off the end of a row whose last half has its narrow
  // edge at the top (`up`) or at the bottom.
  void square_off(Row& row, bool left, bool up, const Exact& s, const Exact& h, const Exact& x) {
    const Exact half = s / Exact(2);
    const Exact z = 0;
    const Exact wide = up ? z : h;    // y of the triangle's own wide end
    const Exact narrow = up ? h : z;  // y of its point
    const Exact edge = left ? z : half;
    const Exact inner = left ? half : z;
    Polygon shape = triangle({edge, wide}, {inner, wide}, {edge, narrow});
    if (area(shape).sign() < 0) std::reverse(shape.corners.begin(), shape.corners.end());
    const PartId id = b_.patch(shape, *size_.ground, size_.setting_span);
    row.parts.push_back({id, Transform::moved({x, z})});
    row.spans.push_back(size_.setting_span);
  }

  void place_half(Row& row, const Cell& cell, const Placed& half, const Exact& x) {
    const Box box = bounds(b_.placed_outline(half));
    Placed p = half;
    p.where = p.where.then(Transform::moved({x - box.least.x, Exact(0) - box.least.y}));
    row.parts.push_back(p);
    row.spans.push_back(cell.span);
  }

  std::optional<PartId> hexagon_columns() {
    const auto& columns = size_.cells;
    const std::size_t tall = columns[0].size();
    bool good = true;
    for (std::size_t c = 0; c < columns.size(); ++c) {
      const std::size_t want = c % 2 == 0 ? tall : tall - 1;
      if (columns[c].size() == want) continue;
      Diagnostic& e =
          d_.error("D206", columns[c].empty() ? size_.setting_span : columns[c][0].span,
                   "column " + std::to_string(c + 1) + " has " + std::to_string(columns[c].size()) +
                       " hexagons where " + std::to_string(want) + " are needed");
      if (!columns[0].empty())
        e.notes.push_back({columns[0][0].span, "the first column sets the length"});
      e.hints.push_back("every second column is half a hexagon lower at each end, so one shorter");
      good = false;
    }
    if (!good || tall < 2) {
      if (good)
        d_.error("D206", size_.setting_span, "a hexagon setting needs two hexagons a column");
      return std::nullopt;
    }
    std::vector<std::vector<Halves>> made(columns.size());
    for (std::size_t c = 0; c < columns.size(); ++c) {
      for (const Cell& cell : columns[c]) {
        const auto h = halves(cell);
        if (!h) return std::nullopt;
        made[c].push_back(*h);
      }
    }
    const Exact s = *side_;
    const Exact h = made[0][0].height;
    const Exact step = s * Exact::ratio(3, 2);
    for (std::size_t c = 0; c < columns.size(); ++c) {
      for (std::size_t k = 0; k < columns[c].size(); ++k) {
        const Exact y = h * Exact(static_cast<long long>(2 * k + c % 2));
        out_.places.push_back(
            {columns[c][k].use, Transform::moved({step * Exact(static_cast<long long>(c)), y})});
      }
    }
    Stack stack;
    for (std::size_t r = 0; r < 2 * tall; ++r) {
      Row row;
      const auto up_in = [&](std::size_t c) { return (r + c) % 2 == 0; };
      square_off(row, true, up_in(0), s, h, Exact(0));
      for (std::size_t c = 0; c < columns.size(); ++c) {
        const Exact x = step * Exact(static_cast<long long>(c));
        const bool up = up_in(c);
        const bool edge = c % 2 == 1 && (r == 0 || r + 1 == 2 * tall);
        if (edge) {
          row.parts.push_back(ground_half(up, s, h, x));
          row.spans.push_back(size_.setting_span);
          continue;
        }
        const std::size_t k = (r - c % 2) / 2;
        place_half(row, columns[c][k], up ? made[c][k].top : made[c][k].bottom, x);
      }
      const std::size_t last = columns.size() - 1;
      square_off(row, false, up_in(last), s, h,
                 step * Exact(static_cast<long long>(last)) + s * Exact::ratio(3, 2));
      const auto id = make_row(std::move(row.parts), row.spans, "row " + std::to_string(r + 1),
                               size_.setting_span);
      if (!id) return std::nullopt;
      push_row(stack, *id, size_.setting_span);
    }
    return b_.whole({"center", "quilt center", size_.setting_span, std::nullopt, {}, {}},
                    std::move(stack.parts), stack.spans);
  }

  // Rows of hexagons that touch at their points, with triangles of the ground between them.
  std::optional<PartId> hexagon_rows() {
    const auto& rows = size_.cells;
    for (const auto& row : rows) {
      if (row.size() == rows[0].size()) continue;
      Diagnostic& e = d_.error("D206", row[0].span,
                               "this row has " + std::to_string(row.size()) +
                                   (row.size() == 1 ? " hexagon" : " hexagons") +
                                   ", the first has " + std::to_string(rows[0].size()));
      e.notes.push_back({rows[0][0].span, "the first row starts here"});
      return std::nullopt;
    }
    Stack stack;
    for (std::size_t r = 0; r < rows.size(); ++r) {
      std::vector<Halves> made;
      for (const Cell& cell : rows[r]) {
        const auto h = halves(cell);
        if (!h) return std::nullopt;
        made.push_back(*h);
      }
      const Exact s = *side_;
      const Exact h = made[0].height;
      const Exact width = s * Exact(static_cast<long long>(2 * rows[r].size()));
      if (r > 0 && size_.sashing) {
        const PartId sash = b_.patch(rectangle(width, size_.sashing->width), size_.sashing->fabric,
                                     size_.sashing->span);
        push_row(stack, sash, size_.sashing->span);
      }
      for (std::size_t k = 0; k < rows[r].size(); ++k) {
        out_.places.push_back(
            {rows[r][k].use,
             Transform::moved({s * Exact(static_cast<long long>(2 * k)), stack.y})});
      }
      for (const bool up : {true, false}) {
        Row row;
        square_off(row, true, up, s, h, Exact(0));
        for (std::size_t k = 0; k < rows[r].size(); ++k) {
          const Exact x = s * Exact(static_cast<long long>(2 * k));
          if (k > 0) {
            const Exact half = s / Exact(2);
            const Polygon shape{{{half, Exact(0)}, {s, h}, {Exact(0), h}}};
            const PartId id = b_.patch(shape, *size_.ground, size_.setting_span);
            Placed placed = b_.turned_to_origin(id, up ? 12 : 0);
            placed.where = placed.where.then(Transform::moved({x - half, Exact(0)}));
            row.parts.push_back(placed);
            row.spans.push_back(size_.setting_span);
          }
          place_half(row, rows[r][k], up ? made[k].top : made[k].bottom, x);
        }
        square_off(row, false, up, s, h, width - s / Exact(2));
        const auto id = make_row(std::move(row.parts), row.spans,
                                 "row " + std::to_string(2 * r + (up ? 1U : 2U)), rows[r][0].span);
        if (!id) return std::nullopt;
        push_row(stack, *id, rows[r][0].span);
      }
    }
    return b_.whole({"center", "quilt center", size_.setting_span, std::nullopt, {}, {}},
                    std::move(stack.parts), stack.spans);
  }

  PartBuilder& b_;
  const CheckedPattern& checked_;
  const SizeDef& size_;
  Diagnostics& d_;
  CheckedSize out_;
  std::optional<Exact> side_;
  Exact side_height_;  // of a half of it
  Span first_;
};

}  // namespace

std::optional<CheckedSize> build_top(PartBuilder& builder, const CheckedPattern& checked,
                                     std::size_t size, Diagnostics& diagnostics) {
  return TopBuilder(builder, checked, checked.pattern.sizes[size], diagnostics).build(size);
}

}  // namespace dogear
