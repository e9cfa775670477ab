#pragma once
// Small changes of shapes that judges and random setups share.

#include "leeway/geometry.h"

namespace leeway::judges {

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
