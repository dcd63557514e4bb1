#pragma once
// Ready-made units and the common ways of making them.

#include <string>
#include <string_view>
#include <vector>

#include "base/exact.h"
#include "diag/diagnostics.h"

namespace dogear {

// How each lies: a half-square triangle unit has its first fabric at the bottom left; flying geese
// point up, the goose's long side at the bottom; a quarter-square triangle unit is told from the
// top clockwise; the center of a square in a square stands on its point.
enum class ReadyMade {
  half_square,       // two triangles: the square halved from top left to bottom right
  quarter_square,    // four triangles that meet in the middle
  flying_geese,      // a goose and two triangles of sky; twice as wide as high
  square_in_square,  // a center and four corners
  cornered           // a rectangle with corners stitched on and flipped
};

enum class Method {
  one_at_a_time,    // triangles are cut, then sewn
  two_at_a_time,    // two squares sewn on both sides of a diagonal, then cut apart
  four_at_a_time,   // one large square and four small ones
  eight_at_a_time,  // two large squares sewn along both diagonals
  stitched_corners  // squares sewn across the corners of a rectangle and trimmed
};

struct StitchedCorner {
  int at = 0;  // 0 top left, then clockwise
  std::string role;
  Exact leg;  // finished, inches: how far it reaches along each side
  Span span;
};

struct ReadyMadeDef {
  ReadyMade kind = ReadyMade::half_square;
  Method method = Method::one_at_a_time;
  std::vector<std::string> roles;       // as listed; cornered: the rectangle's
  std::vector<StitchedCorner> corners;  // cornered
  Exact oversize;                       // inches that squares are cut larger, to trim the unit
};

std::string_view method_words(Method method);  // "two at a time"
std::string_view corner_words(int at);         // "top left"
bool is_trimmed(Method method);  // the unit comes out a little large and is trimmed to size

}  // namespace dogear
