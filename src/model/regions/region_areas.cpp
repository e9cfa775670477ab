#include "leeway/regions.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "geometry/plane/polygons.h"
#include "geometry/plane/position.h"
#include "geometry/plane/vector.h"

namespace leeway {
namespace {

// What lies to one side of an axis-parallel line (Sutherland-Hodgman). Parts that fall apart stay
// joined along the line, which does not change the area.
template <typename Inside, typename Cut>
Ring clipped(const Ring& ring, Inside inside, Cut cut) {
  Ring out;
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const Point a = ring[i];
    const Point b = ring[(i + 1) % ring.size()];
    if (inside(a)) out.push_back(a);
    if (inside(a) != inside(b)) out.push_back(cut(a, b));
  }
  return out;
}

Ring clipped(const Ring& given, const Box& box) {
  const auto at_x = [](double x) {
    return [x](Point a, Point b) { return Point{x, a.y + (b.y - a.y) * (x - a.x) / (b.x - a.x)}; };
  };
  const auto at_y = [](double y) {
    return [y](Point a, Point b) { return Point{a.x + (b.x - a.x) * (y - a.y) / (b.y - a.y), y}; };
  };
  Ring ring = clipped(
      given, [&](Point p) { return p.x >= box.x0; }, at_x(box.x0));
  ring = clipped(
      ring, [&](Point p) { return p.x <= box.x1; }, at_x(box.x1));
  ring = clipped(
      ring, [&](Point p) { return p.y >= box.y0; }, at_y(box.y0));
  return clipped(
      ring, [&](Point p) { return p.y <= box.y1; }, at_y(box.y1));
}

bool contains(const MultiPolygon& region, Point p) {
  bool inside = false;
  const auto count = [&](const Ring& ring) {
    for (std::size_t i = 0; i < ring.size(); ++i) {
      const Point a = ring[i];
      const Point b = ring[(i + 1) % ring.size()];
      if ((a.y > p.y) == (b.y > p.y)) continue;
      if (p.x < a.x + (p.y - a.y) * (b.x - a.x) / (b.y - a.y)) inside = !inside;
    }
  };
  for (const Polygon& polygon : region) {
    count(polygon.outer);
    for (const Ring& hole : polygon.holes) count(hole);
  }
  return inside;
}

}  // namespace

double area(const MultiPolygon& region) {
  double sum = 0;
  for (const Polygon& polygon : region) sum += area(polygon);
  return sum;
}

double area_within(const MultiPolygon& region, const Box& box) {
  double sum = 0;
  for (const Polygon& polygon : region) {
    sum += std::abs(signed_area(clipped(polygon.outer, box)));
    for (const Ring& hole : polygon.holes) sum -= std::abs(signed_area(clipped(hole, box)));
  }
  return sum;
}

std::optional<Box> bounds(const MultiPolygon& region) {
  if (region.empty()) return std::nullopt;
  return bounding_box(Shape(region));
}

std::optional<Point> closest_point(const MultiPolygon& region, Point p) {
  if (region.empty() || !is_position(p)) return std::nullopt;
  if (contains(region, p)) return p;
  double nearest = std::numeric_limits<double>::infinity();
  Point best;
  const auto look = [&](const Ring& ring) {
    for (std::size_t i = 0; i < ring.size(); ++i) {
      const Point a = ring[i];
      const Point b = ring[(i + 1) % ring.size()];
      // Most edges are farther off than the nearest so far by their box alone.
      const double dx = std::max({0.0, std::min(a.x, b.x) - p.x, p.x - std::max(a.x, b.x)});
      const double dy = std::max({0.0, std::min(a.y, b.y) - p.y, p.y - std::max(a.y, b.y)});
      if (dx * dx + dy * dy > nearest) continue;
      const Point on = closest_on_segment(a, b, p);
      const Point v = p - on;
      if (const double squared = dot(v, v); squared < nearest) {
        nearest = squared;
        best = on;
      }
    }
  };
  for (const Polygon& polygon : region) {
    look(polygon.outer);
    for (const Ring& hole : polygon.holes) look(hole);
  }
  return best;
}

}  // namespace leeway
