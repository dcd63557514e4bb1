#include "check/picture.h"

#include <algorithm>

namespace dogear {

namespace {

ProblemPicture::Box picture_box(const Polygon& p) {
  const Box b = bounds(p);
  return {b.least.x.approx(), b.least.y.approx(), b.most.x.approx(), b.most.y.approx()};
}

PictureRing rectangle(double left, double top, double right, double bottom) {
  return {{left, top}, {right, top}, {right, bottom}, {left, bottom}};
}

PictureRing moved(PictureRing ring, double dx, double dy) {
  for (PicturePoint& p : ring) p = {p.x + dx, p.y + dy};
  return ring;
}

}  // namespace

PicturePoint picture_point(const Point& p) { return {p.x.approx(), p.y.approx()}; }

PictureRing picture_ring(const Polygon& p) {
  PictureRing ring;
  for (const Point& c : p.corners) ring.push_back(picture_point(c));
  return ring;
}

std::shared_ptr<const ProblemPicture> set_in_picture(const std::string& name,
                                                     const std::vector<std::string>& part_names,
                                                     const std::vector<Polygon>& outlines,
                                                     const std::vector<Meeting>& meetings,
                                                     const Point& where) {
  ProblemPicture picture;
  picture.what = (name.empty() ? "the top" : name) + " would need a set-in seam";
  for (std::size_t i = 0; i < outlines.size(); ++i) {
    picture.parts.push_back({part_names[i], picture_ring(outlines[i])});
  }
  for (const Meeting& m : meetings) {
    if (m.where.a != where && m.where.b != where) continue;
    picture.lines.push_back({{picture_point(m.where.a), picture_point(m.where.b)}});
  }
  picture.marks.push_back({picture_point(where), "set-in seam"});
  return std::make_shared<const ProblemPicture>(std::move(picture));
}

std::shared_ptr<const ProblemPicture> neighbours_picture(const std::string& first_name,
                                                         const Polygon& first,
                                                         const std::string& second_name,
                                                         const Polygon& second, bool row) {
  const ProblemPicture::Box a = picture_box(first);
  const ProblemPicture::Box b = picture_box(second);
  const double apart = 0.12 * std::max({a.width(), a.height(), b.width(), b.height()});
  ProblemPicture picture;
  picture.what = first_name + " and " + second_name + " do not meet along a whole edge";
  picture.parts.push_back({first_name, picture_ring(first)});
  const double dx = row ? a.right + apart - b.left : a.left - b.left;
  const double dy = row ? a.top - b.top : a.bottom + apart - b.top;
  picture.parts.push_back({second_name, moved(picture_ring(second), dx, dy)});
  return std::make_shared<const ProblemPicture>(std::move(picture));
}

std::shared_ptr<const ProblemPicture> strips_picture(const Polygon& shape, const std::string& name,
                                                     const std::vector<std::string>& names,
                                                     const std::vector<Exact>& widths) {
  const ProblemPicture::Box box = picture_box(shape);
  ProblemPicture picture;
  picture.what = "the strips of " + name + " do not add up to its height";
  picture.promised = picture_ring(shape);
  double y = box.top;
  for (std::size_t i = 0; i < widths.size(); ++i) {
    const double next = y + widths[i].approx();
    picture.parts.push_back({names[i], rectangle(box.left, y, box.right, next)});
    y = next;
  }
  using Kind = PictureRegion::Kind;
  const bool short_of = y < box.bottom;
  const double from = std::min(y, box.bottom);
  const double to = std::max(y, box.bottom);
  picture.regions.push_back(
      {short_of ? Kind::gap : Kind::overhang, {rectangle(box.left, from, box.right, to)}});
  return std::make_shared<const ProblemPicture>(std::move(picture));
}

}  // namespace dogear
