#pragma once
// How a piece may lie on its strip, and what its mirror image is.

#include "piecing/piecing.h"

namespace dogear {

// A shape turned by `turn` x 15°, its box at (0, 0), and the way there.
struct Pose {
  Polygon shape;
  Transform from_own;
};
Pose posed(const Polygon& shape, int turn);
// The same of a tidy shape, and a tidy shape moved and turned: tidy again, with less to look at.
Pose tidy_posed(const Polygon& shape, int turn);
Polygon tidy_moved(const Transform& t, const Polygon& shape);

// The pose in which a shape is cut. Half a turn keeps a
// piece's grain; rectangles, halves and quarters of a square, and shapes that a quarter turn makes
// their own mirror image, may turn a quarter, too, as both of their threads are straight. Strips of
// a set keep the order in which they are sewn.
Pose cutting_pose(const Polygon& shape, bool in_strip_set = false);

// The pose of the piece cut from cloth that lies wrong side up.
Polygon mirrored_pose(const Polygon& shape);

// Does its mirror image need a cut of its own?
bool is_handed(const Polygon& shape);

// Names the mirror twins among the pieces.
void find_mirror_twins(Piecing& piecing);

// One letter for each shape, in the order in which the steps use them; a mirror image shares the
// letter of the shape used first and is marked as reversed.
void letter_pieces(Piecing& piecing);

}  // namespace dogear
