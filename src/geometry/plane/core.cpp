#include "geometry/plane/core.h"

#include "geometry/plane/by_kind.h"
#include "geometry/plane/polygons.h"

namespace leeway {
namespace {

// Thinner than this a core is a segment or a point: it is rounding, far below that of leeways.
constexpr double kThin = 1e-9;

// A radius may be half a side and 1e-9 mm more (validate_shape.cpp). So a width just below 0 is no
// width either.
void flatten(double& low, double& high) {
  if (high - low < kThin) low = high = low + (high - low) / 2;
}

Core core_of_rounded(const RoundedBox& rounded) {
  const double r = rounded.radius;
  const Box& b = rounded.box;
  Box core{b.x0 + r, b.x1 - r, b.y0 + r, b.y1 - r};
  flatten(core.x0, core.x1);
  flatten(core.y0, core.y1);
  if (core.x0 == core.x1 && core.y0 == core.y1) return {Point{core.x0, core.y0}, r};
  return {core, r};
}

}  // namespace

Core core_of(const Shape& shape) {
  return by_kind(
      shape,
      [](Point p) -> Core {
        return {p, 0};
      },
      [](const Box& box) -> Core {
        return {box, 0};
      },
      [](const Disc& disc) -> Core {
        return {disc.center, disc.radius};
      },
      [](const RoundedBox& rounded) { return core_of_rounded(rounded); },
      [](const MultiPolygon& polygons) -> Core {
        return {polygons, 0};
      });
}

Core mirrored(Core core) {
  by_kind(
      core.of, [](Point& p) { p = -p; },
      [](Box& b) {
        b = {-b.x1, -b.x0, -b.y1, -b.y0};
      },
      [](MultiPolygon& polygons) { polygons = mirrored(polygons); });
  return core;
}

const Point* point_of(const Core& core) { return std::get_if<Point>(&core.of); }

Ring hull_of(const Core& core) {
  return by_kind(
      core.of, [](Point p) { return Ring{p}; },
      // A core without width or depth has corners that coincide. The hull keeps one of each.
      [](const Box& box) { return convex_hull(to_polygon(box).outer); },
      [](const MultiPolygon& polygons) { return convex_hull(outline_points(polygons)); });
}

Box box_of(const Core& core) {
  return by_kind(
      core.of,
      [](Point p) {
        return Box{p.x, p.x, p.y, p.y};
      },
      [](const Box& box) { return box; },
      [](const MultiPolygon& polygons) {
        const Ring points = outline_points(polygons);
        return points.empty() ? Box{1, 0, 1, 0} : bounding_box(points);
      });
}

const Box* as_box(const Shape& shape) {
  using None = const Box*;
  return by_kind(
      shape, [](Point) { return None(); }, [](const Box& box) { return &box; },
      [](const Disc&) { return None(); }, [](const RoundedBox&) { return None(); },
      [](const MultiPolygon&) { return None(); });
}

Ring corners_of(const Box& box) {
  const Ring corners = to_polygon(box).outer;
  return box.width() > 0 && box.depth() > 0 ? corners : convex_hull(corners);
}

}  // namespace leeway
