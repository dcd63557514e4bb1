#pragma once
// One strip of cloth with all that is cut from it.

#include "drawing/labels.h"
#include "drawing/layouts.h"
#include "drawing/strips.h"

namespace dogear::drawing {

// What a run is, in words for who listens: "16 × A3, 2½ in squares".
std::string run_words(const Scene& scene, std::size_t size, const StripPlan& plan, const Run& run);

class StripArt {
 public:
  StripArt(const Scene& scene, std::size_t size, FabricId fabric, double scale)
      : scene_(scene),
        size_(size),
        fabric_(scene.checked.pattern.fabrics.at(fabric)),
        scale_(scale) {}

  // The strip with its pieces and what is left over; its upper left corner comes to lie where
  // `where` takes the origin. Words stay upright.
  void draw(canvas::DisplayList& list, Labels& labels, const StripPlan& plan,
            const Motion& where) const;
  // The lengths of the runs along one of its long edges. Above, those that have the same place and
  // length below are left out where `both` edges are measured.
  void measure(canvas::DisplayList& list, Labels& labels, const StripPlan& plan, Spot at,
               bool below, bool both) const;
  // Cloth left over, with its measure where there is room.
  void left_over(canvas::DisplayList& list, Labels& labels, const Rect& area, const Exact& height,
                 const Exact& length) const;
  // Names that found no room on their strips, beside the cloth; after all measures.
  void name_rest(Labels& labels) const;
  double points(const Exact& inches) const { return inches.approx() * scale_; }

 private:
  void pieces(canvas::DisplayList& list, Labels& labels, const Run& run, const Ring& area,
              const Motion& there) const;
  void spare(canvas::DisplayList& list, Labels& labels, const Run& run, const PieceCut& cut,
             const Motion& there) const;
  void put_name(Labels& labels, const Ring& area, const std::string& name, LabelStyle style) const;
  Rect area_of(const StripPlan& plan, const Run& run) const;
  std::vector<std::string> measured_words(const Run& run) const;

  const Scene& scene_;
  std::size_t size_;
  const Fabric& fabric_;
  double scale_;  // pt an inch
  mutable std::vector<std::pair<Spot, std::string>> unnamed_;
};

}  // namespace dogear::drawing
