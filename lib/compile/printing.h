#pragma once
// One document as the files to be printed: pages, and sheets where they are asked for.

#include <cstddef>
#include <string>
#include <vector>

#include "compile/compile.h"

namespace dogear {

struct Printed {
  Output output;                    // without bytes where there are reasons
  std::string reasons;              // why it cannot be written, one a line
  std::size_t coloured_photos = 0;  // that stay coloured though grey is asked for
};

// `name` is that of the files without their ending: "harbor-lights-lap" gives
// harbor-lights-lap.pdf, or -grey.pdf, and -imposed.pdf beside it.
std::vector<Printed> print(const canvas::Document& document, const std::string& name,
                           const Options& options, const canvas::FontSet& fonts);

}  // namespace dogear
