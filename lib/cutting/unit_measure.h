#pragma once
// What a sewn unit measures, as a ruler is laid on it before it is sewn on.

#include <map>
#include <optional>
#include <string>

#include "cutting/quantities.h"
#include "piecing/unit_names.h"

namespace dogear {

// Inches, with seam allowances; exact where the slants are multiples of 15°.
struct UnitMeasure {
  enum class Kind {
    none,  // no two sides that a ruler could be laid along
    rectangle,
    level,      // sides at top and foot
    trapezoid,  // the same, of unequal lengths
    tip         // a 60° triangle sewn from pieces cut with a blunt ruler: from base to blunt tip
  } kind = Kind::none;
  Exact width;   // of rectangles
  Exact height;  // of all but none
  Exact long_edge, short_edge;
};

UnitMeasure unit_measure(const Pattern& pattern, const SizeQuantities& quantities, Setting setting,
                         const SewnUnit& unit);

// The length of the level edge at the top or the foot, 0 where there is none.
Exact level_edge(const Polygon& p, bool top);

// A strip sewn along a side of the top: how the top is measured for it, and by how much.
struct BorderMeasure {
  bool upright = false;  // top to bottom
  Exact length;          // inches, with seam allowances
};
BorderMeasure border_measure(const Pattern& pattern, const Piecing& piecing, const Input& strip);

// Whole strips that are joined end to end for a border of this fabric; 0 where there is nothing to
// join.
long long joined_strips(const SizeQuantities& quantities, FabricId fabric, const PieceCut& border);

// What is said of a unit in its step, by the names of the ledger: "measure.star.ray.height",
// "make.star.ray.together". The names hold no measures, so that they stay when those change.
// `owner` is the block that makes the unit, or "assembly". Where two units of one name differ in a
// fact, neither has it.
class UnitFacts {
 public:
  UnitFacts(const Pattern& pattern, const Piecing& piecing, const SizeQuantities& quantities,
            const SizeSewing& sewing, Setting setting);
  void add(const std::string& owner, UnitId unit);
  void add_to(std::map<std::string, std::string>& facts) const;

 private:
  void add(const std::string& name, std::string value);
  void add(const std::string& name, const Exact& measure);
  void add_border(const std::string& name, const SewnUnit& unit);
  void add_strip_set(const std::string& owner, UnitId unit);

  const Pattern& pattern_;
  const Piecing& piecing_;
  const SizeQuantities& quantities_;
  const SizeSewing& sewing_;
  Setting setting_;
  std::map<std::string, std::optional<std::string>> found_;  // none: the units differ
};

// "star.ray", "assembly.center-with-side-borders-2": a unit by its owner and name; the assembly may
// make several of one name, as with two borders, and numbers them from the second on.
std::string owned_name(const Piecing& piecing, const SizeSewing& sewing, const std::string& owner,
                       UnitId unit);

}  // namespace dogear
