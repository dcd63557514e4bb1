#pragma once
// In what order the parts of a whole are sewn together: a tree of steps, each joining groups.

#include <cstddef>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "diag/diagnostics.h"
#include "diag/picture.h"
#include "geom/partition.h"
#include "model/sewing.h"
#include "piecing/piecing.h"

namespace dogear {

struct SewingStep {
  std::vector<std::size_t> parts;
  std::vector<SewingStep> groups;  // empty where there is one part
  struct Join {
    std::size_t a = 0, b = 0;  // groups
    std::vector<Point> path;   // from end to end; with corners between for a set-in seam
    SeamKind kind = SeamKind::straight;
    Span span;                   // the line that asks for it, where the order is written
    std::optional<Arc> curve{};  // which the seam follows between its ends
  };
  std::vector<Join> joins;
};

// What the search knows of the parts besides where they meet.
struct PartView {
  std::size_t look = 0;  // equal for parts that are the same piece or unit
  Polygon outline;       // where it lies in the whole
};

struct OrderQuestion {
  const std::vector<Meeting>& meetings;
  const std::vector<PartView>& parts;
  // Does the part's edge along the meeting lie on the bias?
  std::function<bool(std::size_t part, const Meeting&)> bias;
  std::optional<Direction> lead;  // taken first wherever the parts allow it
  bool set_in = false;            // partial and set-in seams may be used where nothing else does
};

struct OrderAnswer {
  std::optional<SewingStep> order;
  std::vector<std::size_t> stuck;  // without an order: parts that no straight seam can join
  std::optional<Point> at;         // and a corner where a set-in seam would have to turn
};

// An order of straight seams wherever one exists (see geom/partition.cpp). Among orders, small
// wholes take the one with the fewest different steps, then the one that leaves the least bias
// edge open while it is sewn; large ones go by rows, then columns.
OrderAnswer find_order(const OrderQuestion& question);

// The order as written, each seam checked. Errors: D321 a seam is not straight and not said to be
// set in, D322 parts left over, D323 no such part, D324 sewn together already, D325 a partial seam
// that nothing finishes, D326 parts that do not meet along one edge.
// `draw` makes the picture of a set-in corner.
using DrawCorner = std::function<std::shared_ptr<const ProblemPicture>(const Point&)>;
std::optional<SewingStep> written_order(const std::vector<Meeting>& meetings,
                                        const std::vector<Span>& parts, const SewingWish& wish,
                                        const std::string& name, const DrawCorner& draw,
                                        Diagnostics& diagnostics);

// Segments as one path from end to end, straight corners left out; nothing when they do not hang
// together in one open line.
std::optional<std::vector<Point>> one_path(const std::vector<Segment>& segments);

}  // namespace dogear
