#pragma once
// Points, polygons and the rigid motions of piecing, exact. Inches; x to the right, y down, so a
// positive turn is clockwise as seen on the page.

#include <compare>
#include <cstddef>
#include <vector>

#include "base/exact.h"

namespace dogear {

struct Point {
  Exact x;
  Exact y;
  friend bool operator==(const Point&, const Point&) = default;
  friend auto operator<=>(const Point& a, const Point& b) = default;
  friend Point operator+(const Point& a, const Point& b) { return {a.x + b.x, a.y + b.y}; }
  friend Point operator-(const Point& a, const Point& b) { return {a.x - b.x, a.y - b.y}; }
  friend Point operator*(const Point& a, const Exact& k) { return {a.x * k, a.y * k}; }
};

Exact cross(const Point& a, const Point& b);
Exact dot(const Point& a, const Point& b);

struct Segment {
  Point a;
  Point b;
  friend bool operator==(const Segment&, const Segment&) = default;
};

// A circle that edges follow; its radius squared, so that it stays exact.
struct Arc {
  Point center;
  Exact squared;
  friend bool operator==(const Arc&, const Arc&) = default;
  friend auto operator<=>(const Arc& a, const Arc& b) = default;
};

// A simple polygon; corners run clockwise as seen (positive area with y down), none repeated. Edges
// of 15° between two points of one of its arcs stand for the curve (geom/arcs.h); areas and fit are
// those of the straight edges, which neighbours along the curve share.
struct Polygon {
  std::vector<Point> corners;
  std::vector<Arc> arcs{};  // ascending, none that no edge follows

  std::size_t size() const { return corners.size(); }
  const Point& at(std::size_t i) const { return corners[i % corners.size()]; }
  Segment edge(std::size_t i) const { return {at(i), at(i + 1)}; }
  friend bool operator==(const Polygon&, const Polygon&) = default;
  friend auto operator<=>(const Polygon& a, const Polygon& b) = default;
};

struct Box {
  Point least;
  Point most;
  Exact width() const { return most.x - least.x; }
  Exact height() const { return most.y - least.y; }
};

Exact area(const Polygon& p);         // signed: positive when corners run clockwise as seen
Box bounds(const Polygon& p);         // p must have a corner
Polygon tidy(const Polygon& p);       // clockwise, no straight corners, least corner first
bool is_convex(const Polygon& p);     // p tidy
bool is_simple(const Polygon& p);     // no edges cross or touch but neighbours at their corner
bool is_rectangle(const Polygon& p);  // with level and upright sides; p tidy
// Do they lie on one line and share more than a point?
bool share_a_stretch(const Segment& edge, const Segment& seam);

// Mirror (x to -x) first when `mirrored`, then turn by `turn` x 15° clockwise, then shift.
struct Transform {
  int turn = 0;  // 0..23
  bool mirrored = false;
  Point shift;

  static Transform turned(int fifteenths);
  static Transform moved(const Point& by);
  Point apply(const Point& p) const;
  Point apply_direction(const Point& d) const;
  Polygon apply(const Polygon& p) const;  // keeps the corners clockwise
  Transform then(const Transform& next) const;
  Transform inverse() const;
  friend bool operator==(const Transform&, const Transform&) = default;
};

}  // namespace dogear
