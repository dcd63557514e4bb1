#pragma once
// Hatches stored once: the marks of a stretch of hatch, which every patch of that fabric draws
// through its own outline.

#include <cstddef>
#include <map>
#include <optional>
#include <tuple>

#include "canvas/display.h"

namespace dogear::pdf {

// A stretch of hatch that covers an area, whose upper left corner lies on a repeat of the hatch.
struct Swatch {
  canvas::Hatch hatch;
  double width = 0, height = 0;  // of the stretch, which begins at the origin
  canvas::Point at;              // where to put its origin

  canvas::Rect area() const { return canvas::Rect::of(0, 0, width, height); }
  using Key = std::tuple<int, double, double, double, double, double, double, double>;
  Key key() const;
};

// The swatch for a patch with these bounds; sides are powers of two, so that few serve for all.
// Nothing where the hatch would be too dense to be stored so.
std::optional<Swatch> swatch_for(const canvas::Hatch& hatch, const canvas::Rect& bounds);

// How often each swatch is wanted, and the form it became.
class Swatches {
 public:
  struct Entry {
    int uses = 0;
    std::optional<std::size_t> form;
  };
  Entry& operator[](const Swatch& swatch) { return entries_[swatch.key()]; }

 private:
  std::map<Swatch::Key, Entry> entries_;
};
inline constexpr int uses_worth_storing = 3;

}  // namespace dogear::pdf
