#pragma once
#include "cutting/quantities.h"

namespace dogear {

// Binding strips are joined end to end on the diagonal; 24 in more than the edge (Quick Tips,
// 2011).
Binding plan_binding(const BindingDef& def, const Exact& width, const Exact& height,
                     const Exact& usable_width);

// The cheaper of vertical and horizontal seams, 1/2 in each (Catamount longarm checklist).
Backing plan_backing(const BackingDef& def, const Exact& width, const Exact& height);

// The smallest package that covers the quilt and its extra (package sizes: Honey Be Good, 2012).
Batting plan_batting(const BattingDef& def, const Exact& width, const Exact& height);

Fraction yards_up(const Exact& inches);         // to 1/8 yd
long long centimetres_up(const Exact& inches);  // to 5 cm

}  // namespace dogear
