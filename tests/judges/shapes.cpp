#include "judges/shapes.h"

#include <algorithm>
#include <cmath>

namespace leeway::judges {
namespace {

MultiPolygon of_box(const Box& b) {
  return {{{{b.x0, b.y0}, {b.x1, b.y0}, {b.x1, b.y1}, {b.x0, b.y1}}, {}}};
}

// What is left of a rounded box without its radius. Widths that are rounding alone are none.
Grown apart(const RoundedBox& rounded) {
  const Box& b = rounded.box;
  const double r = rounded.radius;
  const Point middle{(b.x0 + b.x1) / 2, (b.y0 + b.y1) / 2};
  const double half_x = b.width() / 2 - r < 1e-10 ? 0 : b.width() / 2 - r;
  const double half_y = b.depth() / 2 - r < 1e-10 ? 0 : b.depth() / 2 - r;
  if (half_x == 0 && half_y == 0) return {middle, r};
  return {Box{half_x > 0 ? b.x0 + r : middle.x, half_x > 0 ? b.x1 - r : middle.x,
              half_y > 0 ? b.y0 + r : middle.y, half_y > 0 ? b.y1 - r : middle.y},
          r};
}

}  // namespace

Grown taken_apart(const Shape& shape) {
  return std::visit(Kinds{[](Point p) -> Grown {
                            return {p, 0};
                          },
                          [](const Box& b) -> Grown {
                            return {b, 0};
                          },
                          [](const Disc& d) -> Grown {
                            return {d.center, d.radius};
                          },
                          [](const RoundedBox& rounded) { return apart(rounded); },
                          [](const MultiPolygon& p) -> Grown {
                            return {p, 0};
                          }},
                    shape);
}

std::vector<Point> vertices(const Grown& of) {
  using Points = std::vector<Point>;
  return std::visit(Kinds{[](Point p) { return Points{p}; },
                          [](const Box& b) -> Points { return of_box(b).front().outer; },
                          [](const MultiPolygon& polygons) {
                            Points all;
                            for (const Polygon& p : polygons) {
                              all.insert(all.end(), p.outer.begin(), p.outer.end());
                            }
                            return all;
                          }},
                    of.core);
}

double beyond(const Box& box, Point p) {
  const double x = std::max(box.x0 - p.x, p.x - box.x1);
  const double y = std::max(box.y0 - p.y, p.y - box.y1);
  if (x > 0 && y > 0) return std::hypot(x, y);
  return std::max(x, y);
}

MultiPolygon as_polygons(const Shape& shape) {
  if (const auto* b = std::get_if<Box>(&shape)) return of_box(*b);
  return std::get<MultiPolygon>(shape);
}

Shape moved(const Shape& shape, Point by) {
  const auto box = [by](const Box& b) {
    return Box{b.x0 + by.x, b.x1 + by.x, b.y0 + by.y, b.y1 + by.y};
  };
  return std::visit(
      Kinds{[&](Point p) -> Shape { return p + by; }, [&](const Box& b) -> Shape { return box(b); },
            [&](const Disc& d) -> Shape {
              return Disc{d.center + by, d.radius};
            },
            [&](const RoundedBox& rounded) -> Shape {
              return RoundedBox{box(rounded.box), rounded.radius};
            },
            [&](const MultiPolygon& p) -> Shape {
              return changed(p, [by](Point q) { return q + by; });
            }},
      shape);
}

}  // namespace leeway::judges
