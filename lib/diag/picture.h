#pragma once
// What an error about geometry looks like, as plain data for a drawing: inches, x to the right,
// y down, anywhere on the plane.

#include <string>
#include <vector>

namespace dogear {

struct PicturePoint {
  double x = 0, y = 0;
};
using PictureRing = std::vector<PicturePoint>;  // an outline, its first corner not repeated

struct PicturePart {
  std::string name;  // "" when it has none
  PictureRing outline;
};

struct PictureRegion {
  enum class Kind { gap, overlap, overhang };
  Kind kind = Kind::gap;
  std::vector<PictureRing> rings;  // its outline, and those of holes in it
};

// Edges or seams that matter: the two that should meet, or those that end in a set-in point.
struct PictureLine {
  std::vector<PicturePoint> points;
};

struct PictureMark {
  PicturePoint at;
  std::string words;  // "set-in seam"
};

struct ProblemPicture {
  struct Box {
    double left = 0, top = 0, right = 0, bottom = 0;
    double width() const { return right - left; }
    double height() const { return bottom - top; }
  };
  std::string what;  // "goose leaves a gap", a sentence without its stop
  std::vector<PicturePart> parts;
  PictureRing promised;  // the outline that the parts should fill; empty when there is none
  std::vector<PictureRegion> regions;
  std::vector<PictureLine> lines;
  std::vector<PictureMark> marks;
};

}  // namespace dogear
