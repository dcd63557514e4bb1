// That parts do not fit is decided exactly; where they do not is then drawn with Boost.Geometry in
// doubles, since a message names places to the nearest 1/16 in.

#include <algorithm>
#include <boost/geometry.hpp>
#include <boost/geometry/geometries/multi_polygon.hpp>
#include <boost/geometry/geometries/point_xy.hpp>
#include <boost/geometry/geometries/polygon.hpp>
#include <cmath>

#include "base/length.h"
#include "check/build.h"

namespace dogear {

namespace {

namespace bg = boost::geometry;
using Spot = bg::model::d2::point_xy<double>;
using Region = bg::model::polygon<Spot>;
using Regions = bg::model::multi_polygon<Region>;

constexpr double speck = 1e-6;  // square inches: below this a region is rounding, not cloth

Region region(const Polygon& p) {
  Region out;
  for (const Point& c : p.corners) bg::append(out.outer(), Spot(c.x.approx(), c.y.approx()));
  bg::correct(out);
  return out;
}

std::string inches(double v) {
  const Fraction f = Fraction::of(std::llround(v * 16), 16);
  return (std::abs(f.approx() - v) < 1e-9 ? "" : "about ") + plain_inches(f);
}

}  // namespace

void PartBuilder::report_misfit(const Whole& what, const std::vector<Placed>& parts,
                                const std::vector<Span>& spans,
                                const std::vector<Polygon>& outlines) {
  const std::string name = what.name.empty() ? "the block" : "`" + what.name + "`";
  const Span& at = what.fill_span.line > 0 ? what.fill_span : what.span;
  std::vector<Region> regions;
  Regions all;
  for (const Polygon& p : outlines) {
    regions.push_back(region(p));
    Regions sum;
    bg::union_(all, regions.back(), sum);
    all = std::move(sum);
  }
  bg::model::box<Spot> frame;
  if (what.must_fill) {
    bg::envelope(region(*what.must_fill), frame);
  } else {
    bg::envelope(all, frame);
  }
  bool said = false;
  const auto say = [&](const std::string& code, const std::string& does, const Region& where,
                       const std::vector<std::size_t>& who) {
    if (bg::area(where) < speck) return;
    said = true;
    bg::model::box<Spot> box;
    bg::envelope(where, box);
    const double x = box.min_corner().x();
    const double y = box.min_corner().y();
    Diagnostic& d = diagnostics_.error(
        code, at,
        "the parts of " + name + " " + does + ": " + inches(box.max_corner().x() - x) + " by " +
            inches(box.max_corner().y() - y) + ", which starts " +
            inches(x - frame.min_corner().x()) + " from its left and " +
            inches(y - frame.min_corner().y()) + " from its top");
    for (const std::size_t i : who) {
      if (d.notes.size() >= 3 || i >= spans.size() || spans[i].line == 0) continue;
      const std::string& part = checked_.parts[parts[i].part].name;
      Note note;
      note.span = spans[i];
      note.message = (part.empty() ? std::string("this part") : "`" + part + "`") +
                     (does == "leave a gap" ? " lies beside it" : " lies there");
      d.notes.push_back(std::move(note));
    }
  };

  Regions gaps;
  if (what.must_fill) {
    bg::difference(region(*what.must_fill), all, gaps);
  } else {
    for (const Region& r : all) {
      for (const auto& hole : r.inners()) {
        Region gap;
        gap.outer().assign(hole.begin(), hole.end());
        bg::correct(gap);
        gaps.push_back(std::move(gap));
      }
    }
  }
  for (const Region& gap : gaps) {
    std::vector<std::size_t> beside;
    for (std::size_t i = 0; i < regions.size(); ++i) {
      if (bg::distance(gap, regions[i]) < speck) beside.push_back(i);
    }
    say("D201", "leave a gap", gap, beside);
  }
  for (std::size_t i = 0; i < regions.size(); ++i) {
    for (std::size_t j = i + 1; j < regions.size(); ++j) {
      Regions both;
      bg::intersection(regions[i], regions[j], both);
      for (const Region& r : both) say("D202", "overlap", r, {i, j});
    }
    if (!what.must_fill) continue;
    Regions outside;
    bg::difference(regions[i], region(*what.must_fill), outside);
    for (const Region& r : outside) say("D202", "stick out", r, {i});
  }
  if (said) return;
  diagnostics_.error("D202", what.span, "the parts of " + name + " do not meet along whole edges")
      .hints.push_back(
          "parts that touch at a corner alone cannot be sewn; check how each is turned");
}

}  // namespace dogear
