#pragma once
// Pictures of geometric faults as plain data, for messages (diag/picture.h).

#include <memory>

#include "check/checked.h"
#include "diag/picture.h"

namespace dogear {

PicturePoint picture_point(const Point& p);
PictureRing picture_ring(const Polygon& p);

// A whole that straight seams cannot sew: its parts, the corner in which a set-in seam would turn,
// and the seams that end there, all in the whole's coordinates.
std::shared_ptr<const ProblemPicture> set_in_picture(const std::string& name,
                                                     const std::vector<std::string>& part_names,
                                                     const std::vector<Polygon>& outlines,
                                                     const std::vector<Meeting>& meetings,
                                                     const Point& where);

// Two neighbours of a row or stack whose facing edges differ, set a little apart.
std::shared_ptr<const ProblemPicture> neighbours_picture(const std::string& first_name,
                                                         const Polygon& first,
                                                         const std::string& second_name,
                                                         const Polygon& second, bool row);

// Strips across a shape whose widths, from the top, do not add up to its height.
std::shared_ptr<const ProblemPicture> strips_picture(const Polygon& shape, const std::string& name,
                                                     const std::vector<std::string>& names,
                                                     const std::vector<Exact>& widths);

}  // namespace dogear
