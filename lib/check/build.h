#pragma once
// Builds parts from definitions; every whole is proved to fit as it is made.

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "check/checked.h"

namespace dogear {

class PartBuilder {
 public:
  PartBuilder(CheckedPattern& checked, Diagnostics& diagnostics)
      : checked_(checked), diagnostics_(diagnostics) {}

  // A patch whose outline is moved to the origin; its grain runs along x.
  PartId patch(const Polygon& outline, FabricId fabric, const Span& span);

  // A strip of a border: along the length of the cloth or across it, with ends on the diagonal or
  // square.
  PartId border_patch(const Polygon& outline, const BorderDef& border, bool along);
  // The borders of this whole meet on the diagonal.
  void mark_mitred(PartId whole) { checked_.parts[whole].mitred = true; }

  // A whole of placed parts; when `must_fill` is given the parts must fill it exactly, otherwise
  // their common outline is found. The result is moved to the origin.
  struct Whole {
    std::string name;
    std::string words;
    Span span;
    std::optional<Polygon> must_fill;
    Span fill_span;
    std::string called;  // in messages, where that is not its name: a file's own title
  };
  std::optional<PartId> whole(const Whole& what, std::vector<Placed> parts,
                              const std::vector<Span>& part_spans);

  // The block of a use with its roles bound.
  std::optional<PartId> block(std::size_t use);

  const Part& part(PartId id) const { return checked_.parts[id]; }
  Polygon placed_outline(const Placed& p) const {
    return p.where.apply(checked_.parts[p.part].outline);
  }
  // How far the box's least corner of a turned part must move to lie at the origin.
  Placed turned_to_origin(PartId id, int turn) const;
  // The part seen in a mirror, left to right: a part of its own with mirrored pieces, so that no
  // later stage meets a mirrored transform. A part that is its own mirror image stays as it is.
  PartId mirrored(PartId id);
  Placed placed_at_origin(PartId id, const PartRef& ref) {
    return turned_to_origin(ref.flipped ? mirrored(id) : id, ref.turn);
  }

 private:
  using Units = std::map<std::string, PartId>;
  std::optional<PartId> make(const UnitDef& unit, const BlockUse& use, const Units& units,
                             const std::string& title);
  PartId plain_patch(const UnitDef& unit, FabricId fabric);
  std::optional<PartId> make_ready_made(const UnitDef& unit, const BlockUse& use,
                                        const std::string& title);
  std::optional<Batch> batch_of(const UnitDef& unit, const BlockUse& use) const;
  bool corners_fit(const UnitDef& unit);
  void warn_of_prints(const UnitDef& unit, const BlockUse& use);
  void wish_press(const UnitDef& unit, const BlockUse& use, PartId id);
  // Marks a whole that is pieced on a foundation. Errors: D333 one patch, D334 a curve, D335
  // something in it that is made otherwise.
  void wish_foundation(const UnitDef& unit, PartId id);
  std::optional<PartId> make_bands(const UnitDef& unit, const BlockUse& use);
  void hint_turns(Diagnostic& d, const std::string& name, PartId part, const Polygon& before,
                  bool row);
  std::optional<std::vector<Placed>> set_side_by_side(const UnitDef& unit, const Units& units);
  // Moves measured corners exactly to what they meet; false when one lies too far from it.
  bool snap(std::vector<Placed>& placed, const std::optional<Polygon>& outline,
            const std::vector<Span>& spans);
  // Says where parts leave a gap, overlap or stick out, how large that is and who lies there.
  void report_misfit(const Whole& what, const std::vector<Placed>& parts,
                     const std::vector<Span>& spans, const std::vector<Polygon>& outlines);

  CheckedPattern& checked_;
  Diagnostics& diagnostics_;
  std::map<PartId, PartId> mirrors_;
};

// The center of a size whose blocks stand on point, in diagonal rows with setting triangles; where
// each block lies is added to `places`. Errors: D206 a row's length, D207 a block's shape or size.
std::optional<PartId> set_on_point(PartBuilder& builder, const CheckedPattern& checked,
                                   const SizeDef& size, std::vector<BlockPlace>& places,
                                   Diagnostics& diagnostics);

// A top with a border round it; blocks that lie in it are added to `places` and `blocks`, and those
// that are there are moved in. Errors: D213 a pieced border's block is no rectangle or its corner
// no square of its depth, D214 its blocks do not fill a side.
std::optional<PartId> add_border(PartBuilder& builder, const CheckedPattern& checked, PartId center,
                                 const BorderDef& border, const std::string& name,
                                 CheckedSize& size, Diagnostics& diagnostics);

// Builds the top of a size: setting, sashing and borders.
std::optional<CheckedSize> build_top(PartBuilder& builder, const CheckedPattern& checked,
                                     std::size_t size, Diagnostics& diagnostics);

}  // namespace dogear
