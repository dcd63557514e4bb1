#pragma once
// What a size's words may be compared with: every computed number, its tag and its source.

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "booklet/proofread_words.h"
#include "drawing/figure.h"

namespace dogear::editing {

// A computed number: what it counts or measures, the tag that prints it ("" for none) and the place
// in the pattern that asks for it.
struct Value {
  Fraction value;
  std::string tag;
  std::string words;  // "11 strips of Night Sky, 4 1/2 in high"
  Span span;
};
using Values = std::vector<Value>;

class Known {
 public:
  Known(const Scene& scene, std::size_t size);

  const Scene& scene() const { return scene_; }
  std::size_t size() const { return size_; }
  const SizeDef& size_def() const { return scene_.checked.pattern.sizes[size_]; }
  const std::map<std::string, std::string>& tags() const { return tags_; }

  // Of these fabrics (of all, when empty); only strips as high as `height` where it is given.
  Values strips(const std::vector<FabricId>& fabrics, std::optional<Fraction> height) const;
  // Strips of all bundles of strips, or squares of those of squares.
  Values bundle_sheets(bool squares) const;
  // Fat quarters or fat eighths that are bought.
  Values sheets(ClothSource::Kind kind, const std::vector<FabricId>& fabrics) const;
  Values binding_strips() const;
  Values strip_sets(const std::vector<FabricId>& fabrics) const;
  // `noun` is a shape ("triangle"), or "piece" for all.
  Values pieces(const std::string& noun, const std::vector<FabricId>& fabrics,
                std::optional<Fraction> measure) const;
  Values all_pieces() const;
  Values blocks(bool in_all) const;
  Values blocks_of(const std::vector<std::size_t>& uses) const;
  // Everything that is made for these blocks, or for all when empty; only units in `units` where
  // those are given.
  Values makes(const std::vector<std::size_t>& uses, const std::vector<std::size_t>& units) const;
  Values made_in_step(const std::string& figure_address) const;  // "figure:step/star/2"
  Values cloth(FabricId fabric) const;
  Values metric(FabricId fabric) const;
  Values backing_cloth() const;
  Values block_measures(const std::vector<std::size_t>& uses, bool finished, bool unfinished) const;
  // Every measure that a fabric is cut to: heights of strips, lengths and readings of pieces.
  Values cut_measures(FabricId fabric) const;
  Value seam_allowance() const;
  Value width() const;
  Value height() const;
  Values top_with_allowances() const;

 private:
  Value value(Fraction number, std::string tag, std::string words, const Span& span) const;
  Value count(long long number, std::string tag, std::string words, const Span& span) const;
  void add_rows(const StripPlan& plan, const Fraction& height, const Fabric& fabric,
                Values& out) const;
  const SizeQuantities& quantities() const { return scene_.quantities.sizes[size_]; }
  const SizeSewing& sewing() const { return scene_.piecing.sizes[size_]; }
  const Pattern& pattern() const { return scene_.checked.pattern; }

  const Scene scene_;
  std::size_t size_;
  std::map<std::string, std::string> tags_;
};

}  // namespace dogear::editing
