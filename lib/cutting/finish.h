#pragma once
// Binding, backing, batting and hanging sleeve.

#include "cutting/quantities.h"

namespace dogear {

// Binding strips are joined end to end on the diagonal; 24 in more than the edge (Quick Tips,
// 2011). On the bias: from the smallest square of whole inches that gives so much, from two or more
// where that is wider than the cloth.
Binding plan_binding(const BindingDef& def, const Exact& width, const Exact& height,
                     const Exact& usable_width, const Exact& seam_allowance = Exact::ratio(1, 4));

// The side of a square, whole inches, from which a continuous strip of this width and length is
// cut: √(length × width) up to the inch (Mydecozo), and what its two seams take.
long long bias_square(const Exact& length, const Exact& strip, const Exact& seam_allowance);

// The cheaper of vertical and horizontal seams, 1/2 in each (Catamount longarm checklist); beside
// it the same from wide cloth where the pattern names one.
Backing plan_backing(const BackingDef& def, const Exact& width, const Exact& height,
                     const Allowances& rounding = {});

// The smallest package that covers the quilt and its extra (package sizes: Honey Be Good, 2012).
Batting plan_batting(const BattingDef& def, const Exact& width, const Exact& height);

// A tube twice as deep as it finishes, an inch shorter than the quilt is wide before its ends are
// hemmed (common practice).
Sleeve plan_sleeve(const SleeveDef& def, const Exact& width, const Exact& seam_allowance);

// What they come to, by name (facts() of quantities.h).
void finish_facts(const SizeQuantities& quantities, std::map<std::string, std::string>& facts);

// Cloth is always rounded up: to eighths of a yard or other parts, to 5 cm or another step.
Fraction yards_up(const Exact& inches, long long parts = 8);
long long centimetres_up(const Exact& inches, long long step = 5);

}  // namespace dogear
