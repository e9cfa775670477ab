#pragma once
// Small changes of shapes that judges and random setups share.

#include <variant>
#include <vector>

#include "leeway/geometry.h"

namespace leeway::judges {

template <typename... Case>
struct Kinds : Case... {
  using Case::operator()...;
};
template <typename... Case>
Kinds(Case...) -> Kinds<Case...>;

// A shape as points, boxes and polygons, grown by a disc. A box may have no width or depth.
struct Grown {
  std::variant<Point, Box, MultiPolygon> core;
  double radius = 0;
};
Grown taken_apart(const Shape& shape);

// The convex hull's vertices of what is grown, and perhaps more.
std::vector<Point> vertices(const Grown& of);

// How far a position is outside a box, or minus how deep inside.
double beyond(const Box& box, Point p);

// A box or polygons as polygons. REQUIRES one of the two.
MultiPolygon as_polygons(const Shape& shape);

Shape moved(const Shape& shape, Point by);

// Every vertex of polygons changed by a function from Point to Point.
template <class Change>
MultiPolygon changed(MultiPolygon polygons, const Change& change) {
  for (Polygon& polygon : polygons) {
    for (Point& p : polygon.outer) p = change(p);
    for (Ring& hole : polygon.holes) {
      for (Point& p : hole) p = change(p);
    }
  }
  return polygons;
}

}  // namespace leeway::judges
