#include "judges/shapes.h"

namespace leeway::judges {

MultiPolygon as_polygons(const Shape& shape) {
  if (const auto* b = std::get_if<Box>(&shape)) {
    return {{{{b->x0, b->y0}, {b->x1, b->y0}, {b->x1, b->y1}, {b->x0, b->y1}}, {}}};
  }
  return std::get<MultiPolygon>(shape);
}

Shape moved(const Shape& shape, Point by) {
  if (const auto* p = std::get_if<Point>(&shape)) return *p + by;
  if (const auto* b = std::get_if<Box>(&shape)) {
    return Box{b->x0 + by.x, b->x1 + by.x, b->y0 + by.y, b->y1 + by.y};
  }
  if (const auto* d = std::get_if<Disc>(&shape)) return Disc{d->center + by, d->radius};
  return changed(std::get<MultiPolygon>(shape), [by](Point p) { return p + by; });
}

}  // namespace leeway::judges
