#pragma once
// Two little quilts built by hand: a lantern block of half-hexagons and a sawtooth star.

#include "base/files.h"
#include "drawing/figure.h"

namespace sample {

using namespace dogear;

const canvas::FontSet& fonts();

// Parts made by joining smaller ones; units, seams and pieces follow their structure one to one.
class Builder {
 public:
  Builder();
  FabricId fabric(const std::string& id, const std::string& name, const std::string& colour);
  PartId patch(FabricId fabric, const std::vector<Point>& corners);
  PartId whole(const std::string& name, std::vector<Placed> parts, bool strip_set = false);
  std::size_t use(const std::string& id, const std::string& title, PartId block);
  // The unit made from a part; its parts first, so that ids follow the sewing order.
  UnitId unit_of(PartId part);

  // A size whose top is `part`; assembly units are named by their parts.
  void size(const std::string& id, PartId top, const std::vector<std::size_t>& uses,
            const std::vector<std::vector<PartId>>& steps, const std::vector<PartId>& finals,
            const std::vector<PartId>& assembly);
  void place(std::size_t use, const Transform& where);

  CheckedPattern checked;
  Piecing piecing;
  Quantities quantities;
  Scene scene() const { return {checked, piecing, quantities, fonts()}; }

 private:
  PieceId piece_of(PartId patch, bool in_strip_set);
  std::map<PartId, UnitId> units_;
  std::vector<Polygon> shapes_;
};

Placed at(PartId part, int turn, const Point& shift);
Exact in(std::int64_t num, std::int64_t den = 1);

const Builder& lantern();
const Builder& star();

// A pattern of the repository, all the way to its quantities.
struct Real {
  CheckedPattern checked;
  Piecing piecing;
  Quantities quantities;
  Scene scene() const { return {checked, piecing, quantities, fonts()}; }
};
const Real& real(const std::string& folder);

}  // namespace sample
