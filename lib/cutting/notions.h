#pragma once
// What a size asks for besides cloth, rulers and what every quilt needs.

#include "cutting/quantities.h"

namespace dogear {

struct Notions {
  bool marking_pencil = false;  // for lines to sew on or to cut at
  bool hand_needle = false;     // for the binding or the sleeve
  bool basting = false;         // of the layers
};
Notions notions_of(const SizeQuantities& quantities);

}  // namespace dogear
