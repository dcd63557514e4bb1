#pragma once
#include "piecing/order.h"

namespace dogear {

// How a top with mitred borders is sewn: its center is the first part. Each border is sewn on from
// allowance to allowance, then the corners.
SewingStep mitred_order(const std::vector<Meeting>& meetings, std::size_t parts);

}  // namespace dogear
