#pragma once
// The names of facts() taken apart again, for those who read a ledger without its pattern.

#include <string>
#include <string_view>
#include <vector>

#include "base/exact.h"

namespace dogear {

enum class FactKind {
  title,          // size.title
  finished_size,  // size.width, ...
  cloth,          // fabric.ink.cloth, backing.cloth: to buy by the length
  sheets,         // fabric.ink.fat-quarters, .fat-eighths, .scraps
  bundle,         // bundle.harbor.strips-used, .squares-used, .bought
  bundle_strips,  // fabric.ink.bundle-strips
  backing,        // panels, width, height
  batting,        // width, height
  package,        // batting.package
  ruler,          // ruler.sixty
  binding,        // strips, width, length
  sleeve,         // strip, length
  block_count,
  block_size,
  piece,
  strip,
  strip_set,
  batch,
  make,
  measure,     // measure.star.ray.width: with seam allowances
  seam,        // seam-allowance
  foundation,  // foundation.lantern.ray: papers to print
  step,        // steps.lantern.ray.pressing: of a comparison, in no ledger
  count,       // pieces.count, blocks.count
  leftover,    // fabric.ink.left-over
  of_fabric,   // fabric.ink.cut-length and others that are no purchase
  pressing,    // press.crossings.count
  month,       // month.1.title, .assembly, .lantern.count: all of a month are one group
  other
};

struct FactName {
  FactKind kind = FactKind::other;
  std::string subject;  // a fabric's, block's or bundle's id, where the fact is of one
  std::string unit;     // slug of the unit's name or the piece's shape, without measures
  std::string part;  // "metric", "finished-width": what of the subject; empty for the thing itself
  std::vector<Fraction> measures;  // of the name: strip, then reading or length; inches
  bool reading = false;            // the last measure is a line of the ruler
  std::string group;               // facts of one group are told together: cloth in yd and in cm
  std::string likeness;            // the group, but for its measures
};

// `name` without the size before it. Names that are not known are `other`, a group of their own.
FactName read_fact_name(std::string_view name);

// "lap fabric.ink.cloth" -> "lap", "fabric.ink.cloth"; the size is empty where there is none.
struct SizedName {
  std::string size, name;
};
SizedName split_size(std::string_view fact);

// "60-triangle" -> "60° triangle", "half-square-triangle" -> "half-square triangle".
std::string shape_of_slug(std::string_view slug);

}  // namespace dogear
