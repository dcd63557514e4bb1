#include <algorithm>
#include <array>

#include "base/length.h"
#include "base/text.h"
#include "check/build.h"
#include "model/shapes.h"

namespace dogear {

namespace {

class BorderBuilder {
 public:
  BorderBuilder(PartBuilder& builder, const CheckedPattern& checked, const BorderDef& border,
                const std::string& name, CheckedSize& size, Diagnostics& d)
      : b_(builder), checked_(checked), border_(border), name_(name), size_(size), d_(d) {}

  std::optional<PartId> add(PartId center) {
    box_ = bounds(b_.part(center).outline);
    if (border_.use) return pieced(center);
    width_ = border_.width;
    parts_.push_back({center, Transform::moved({width_, width_})});
    border_.mitred ? mitred() : butted();
    const auto id = finish();
    if (id && border_.mitred) b_.mark_mitred(*id);
    return id;
  }

 private:
  std::optional<PartId> finish() {
    const Transform in = Transform::moved({width_, width_});
    for (BlockPlace& place : size_.places) place.where = place.where.then(in);
    size_.places.insert(size_.places.end(), own_.begin(), own_.end());
    std::vector<Span> spans(parts_.size(), border_.span);
    return b_.whole({name_, "bordered top", border_.span, std::nullopt, {}, {}}, std::move(parts_),
                    spans);
  }

  void put(PartId id, int turn, const Exact& x, const Exact& y) {
    Placed p = b_.turned_to_origin(id, turn);
    p.where = p.where.then(Transform::moved({x, y}));
    parts_.push_back(p);
  }

  // Of a print with an up, strips at the sides stand upright where they are cut along the length.
  bool sides_along() const {
    return border_.along.value_or(checked_.pattern.fabrics[border_.fabric].directional);
  }
  bool ends_along() const { return border_.along.value_or(false); }
  Exact far_x() const { return box_.width() + width_; }
  Exact far_y() const { return box_.height() + width_; }

  // The sides first, then top and bottom over the whole width. A strip lies along its grain; those
  // at the sides are turned a quarter.
  void butted() {
    const PartId side = b_.border_patch(rectangle(box_.height(), width_), border_, sides_along());
    const PartId end = b_.border_patch(rectangle(far_x() + width_, width_), border_, ends_along());
    put(side, 6, Exact(0), width_);
    put(side, 6, far_x(), width_);
    put(end, 0, Exact(0), Exact(0));
    put(end, 0, Exact(0), far_y());
  }

  // Long edge outside, ends at 45 degrees.
  Polygon trapezoid(const Exact& inner, bool long_above) const {
    const Exact w = width_;
    const Exact outer = inner + w * Exact(2);
    const Exact zero(0);
    if (long_above) return {{{zero, zero}, {outer, zero}, {outer - w, w}, {w, w}}};
    return {{{w, zero}, {outer - w, zero}, {outer, w}, {zero, w}}};
  }

  // Nothing is turned half way round, so that a print with an up stands upright in all four.
  void mitred() {
    const auto strip = [&](const Exact& inner, bool long_above, bool along) {
      return b_.border_patch(tidy(trapezoid(inner, long_above)), border_, along);
    };
    put(strip(box_.height(), false, sides_along()), 6, Exact(0), Exact(0));
    put(strip(box_.height(), true, sides_along()), 6, far_x(), Exact(0));
    put(strip(box_.width(), true, ends_along()), 0, Exact(0), Exact(0));
    put(strip(box_.width(), false, ends_along()), 0, Exact(0), far_y());
  }

  // -- blocks side by side, their upper edges outside, with a square at each corner --------------

  std::optional<PartId> pieced(PartId center) {
    block_ = part_of(*border_.use);
    const Box block = bounds(b_.part(block_).outline);
    width_ = block.height();
    each_ = block.width();
    if (!good_block() || !fills()) return std::nullopt;
    const auto corner = corner_part();
    if (!corner) return std::nullopt;
    parts_.push_back({center, Transform::moved({width_, width_})});
    const bool prints = !border_.corner_use && checked_.pattern.fabrics[border_.fabric].directional;
    const auto side = row(box_.height(), std::nullopt);
    const auto above = row(box_.width(), Corners{*corner, 0, border_.corner_use ? 6 : 0});
    // The lower row lies on its head; corners of a print with an up do not.
    const auto below = prints ? row(box_.width(), Corners{*corner, 12, 12}) : above;
    if (!side || !above || !below) return std::nullopt;
    put_row(*side, 18, Exact(0), width_, box_.height(), false);
    put_row(*side, 6, far_x(), width_, box_.height(), false);
    put_row(*above, 0, Exact(0), Exact(0), box_.width(), true);
    put_row(*below, 12, Exact(0), far_y(), box_.width(), true);
    return finish();
  }

  PartId part_of(std::size_t use) {
    const PartId id = checked_.block_parts[use];
    if (std::find(size_.blocks.begin(), size_.blocks.end(), id) == size_.blocks.end()) {
      size_.blocks.push_back(id);
    }
    return id;
  }

  bool good_block() {
    if (is_rectangle(b_.part(block_).outline)) return true;
    d_.error("D213", border_.span,
             "`" + checked_.pattern.uses[*border_.use].id +
                 "` is no rectangle, so its blocks cannot lie side by side in a border");
    return false;
  }

  // How much a length lacks of whole blocks.
  Exact lacking(const Exact& length) const {
    return each_ * Exact((length / each_).round_up(1)) - length;
  }

  // The rows of blocks are as long as the sides exactly; else the nearest lengths are named, and
  // the plain border before this one that would bring them about.
  bool fills() {
    constexpr long long most = 1000;
    const std::array<std::pair<const char*, Exact>, 2> sides{
        {{"the sides", box_.height()}, {"the top and bottom", box_.width()}}};
    std::vector<std::string> short_of, nearest;
    for (const auto& [which, length] : sides) {
      if (length > each_ * Exact(most)) {
        d_.error(
            "D210", border_.span,
            "this border would have more than 1,000 blocks on a side, which is beyond any quilt");
        return false;
      }
      if (lacking(length).is_zero()) continue;
      short_of.push_back(std::string(which) + " (" + about_inches(length) + ")");
      const Exact more = length + lacking(length);
      nearest.push_back(std::string(which) + ": " +
                        (more > each_ ? about_inches(more - each_) + " or " : std::string()) +
                        about_inches(more));
    }
    if (short_of.empty()) return true;
    const BlockUse& use = checked_.pattern.uses[*border_.use];
    Diagnostic& e = d_.error("D214", border_.span,
                             "blocks " + about_inches(each_) + " wide do not fill " +
                                 join(short_of, " and ") + " of what the border goes round");
    e.notes.push_back({use.span, "the border is pieced of this block"});
    e.hints.push_back("the nearest lengths: " + join(nearest, "; "));
    const Exact high = lacking(box_.height());
    const Exact wide = lacking(box_.width());
    e.hints.push_back(high == wide ? "a plain border before it, " + about_inches(high / Exact(2)) +
                                         " wide, makes room for whole blocks"
                                   : "no plain border before it, as wide on all sides, makes room "
                                     "for whole blocks: change the top or the block");
    return false;
  }

  std::optional<PartId> corner_part() {
    if (!border_.corner_use)
      return b_.patch(rectangle(width_, width_), border_.fabric, border_.span);
    const PartId id = part_of(*border_.corner_use);
    const Polygon& outline = b_.part(id).outline;
    const Box box = bounds(outline);
    if (is_rectangle(outline) && box.width() == width_ && box.height() == width_) return id;
    Diagnostic& e = d_.error("D213", border_.span,
                             "`" + checked_.pattern.uses[*border_.corner_use].id +
                                 "` cannot be the corner of this border: a square of " +
                                 about_inches(width_) + " is needed");
    e.notes.push_back(
        {checked_.pattern.uses[*border_.use].span, "the border is as deep as this block is high"});
    return std::nullopt;
  }

  struct Corners {
    PartId part = 0;
    int left = 0, right = 0;  // how each is turned in its row
  };

  std::optional<PartId> row(const Exact& length, const std::optional<Corners>& corners) {
    std::vector<Placed> parts;
    Exact x = 0;
    const auto add = [&](PartId id, int turn, const Exact& step) {
      Placed p = b_.turned_to_origin(id, turn);
      p.where = p.where.then(Transform::moved({x, Exact(0)}));
      parts.push_back(p);
      x += step;
    };
    if (corners) add(corners->part, corners->left, width_);
    for (const Exact end = x + length; x < end;) add(block_, 0, each_);
    if (corners) add(corners->part, corners->right, width_);
    if (parts.size() == 1) return parts.front().part;
    const std::vector<Span> spans(parts.size(), border_.span);
    return b_.whole({corners ? "pieced border with corners" : "pieced border",
                     "row",
                     border_.span,
                     std::nullopt,
                     {},
                     {}},
                    std::move(parts), spans);
  }

  // Places a row and tells where each of its blocks lies.
  void put_row(PartId row, int turn, const Exact& x, const Exact& y, const Exact& length,
               bool with_corners) {
    put(row, turn, x, y);
    const Transform where = parts_.back().where;
    Exact at = with_corners ? width_ : Exact(0);
    const auto tell = [&](std::size_t use, int own_turn, const Exact& from) {
      Placed p = b_.turned_to_origin(checked_.block_parts[use], own_turn);
      own_.push_back({use, p.where.then(Transform::moved({from, Exact(0)})).then(where)});
    };
    if (with_corners && border_.corner_use) tell(*border_.corner_use, 0, Exact(0));
    for (const Exact end = at + length; at < end; at += each_) tell(*border_.use, 0, at);
    if (with_corners && border_.corner_use) tell(*border_.corner_use, 6, at);
  }

  PartBuilder& b_;
  const CheckedPattern& checked_;
  const BorderDef& border_;
  const std::string& name_;
  CheckedSize& size_;
  Diagnostics& d_;
  Box box_;      // of what it goes round
  Exact width_;  // finished, of the border
  PartId block_ = 0;
  Exact each_;  // width of a block
  std::vector<Placed> parts_;
  std::vector<BlockPlace> own_;
};

}  // namespace

std::optional<PartId> add_border(PartBuilder& builder, const CheckedPattern& checked, PartId center,
                                 const BorderDef& border, const std::string& name,
                                 CheckedSize& size, Diagnostics& diagnostics) {
  return BorderBuilder(builder, checked, border, name, size, diagnostics).add(center);
}

}  // namespace dogear
