#pragma once
// What lies on a piece of cloth: the strips of a plan gathered as they are cut and drawn.

#include <vector>

#include "cutting/quantities.h"

namespace dogear {

struct ClothLayout {
  enum class Kind {
    strip,  // across cloth bought by the length, or a sheet that is one strip from edge to edge
    sheet,  // a fat quarter, square, scrap or bundle strip with strips one above the other
    panel   // a length of cloth with strips along it, and strips across what is left beside them
  } kind = Kind::strip;
  struct Part {
    const StripPlan* plan = nullptr;
    long long times = 1;  // in this layout
  };
  std::vector<Part> parts;   // from the top; of a panel those along its length
  std::vector<Part> across;  // panel: beside those
  Exact length, height;      // inches; of a panel the length of cloth, and its usable width
  Exact taken;               // panel: inches of its width that `parts` take
  std::size_t source = 0;    // Fabric::sources
  // Layouts cut exactly like this, and which sheets of their source they are, counted from 1.
  long long times = 1;
  long long first_sheet = 0;
};

// In the order in which the strips are cut.
std::vector<ClothLayout> layouts_of(const Pattern& pattern, const SizeQuantities& quantities,
                                    FabricId fabric);

// What the cloth of a source is called; a square of a bundle is a sheet, its strip is not.
bool is_strip_bundle(const Pattern& pattern, const ClothSource& source);

}  // namespace dogear
