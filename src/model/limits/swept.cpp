#include "model/limits/swept.h"

#include <cmath>

#include "geometry/convex/minkowski.h"
#include "geometry/plane/polygons.h"
#include "leeway/limits.h"

namespace leeway {
namespace {

Box mirrored_box(const Box& box) { return {-box.x1, -box.x0, -box.y1, -box.y0}; }

// The shape, mirrored or not, moved by `by`.
Swept alone(const Shape& shape, bool mirror, Point by, double radius) {
  if (const Box* box = std::get_if<Box>(&shape)) {
    const Box b = mirror ? mirrored_box(*box) : *box;
    return {Box{b.x0 + by.x, b.x1 + by.x, b.y0 + by.y, b.y1 + by.y}, radius};
  }
  const MultiPolygon& polygons = std::get<MultiPolygon>(shape);
  return {translated(mirror ? mirrored(polygons) : polygons, by), radius};
}

[[noreturn]] void too_detailed(const std::string& what) {
  throw SetupTooDetailed("the outlines of " + what + " are too detailed together: more than " +
                         std::to_string(Limits::kMostPieces) +
                         " convex pieces; use simpler outlines");
}

std::vector<Ring> checked_sum(const std::vector<Ring>& a, const std::vector<Ring>& b,
                              const std::string& what) {
  if (a.size() * b.size() > Limits::kMostPieces) too_detailed(what);
  return sum_pieces(a, b);
}

// Whether a ring lies in another that it does not cross; the two may touch at points.
bool lies_in(const Ring& ring, const Ring& other) {
  const FieldPtr inside = inside_polygons({{other, {}}});
  double most = 0;
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const Point a = ring[i];
    const Point b = ring[(i + 1) % ring.size()];
    const double middle = inside->distance(0.5 * (a + b));
    const double corner = inside->distance(a);
    if (std::abs(middle) > std::abs(most)) most = middle;
    if (std::abs(corner) > std::abs(most)) most = corner;
  }
  return most > 0;
}

// What is not plate: the frame without the outer rings, and the holes. A polygon may lie in a hole
// of another, and belongs to the smallest hole around it.
MultiPolygon surroundings(const MultiPolygon& bed, const Box& frame) {
  MultiPolygon empty{to_polygon(frame)};
  for (const Polygon& polygon : bed) {
    for (const Ring& hole : polygon.holes) empty.push_back({hole, {}});
  }
  for (const Polygon& polygon : bed) {
    Polygon* around = &empty.front();
    for (std::size_t i = 1; i < empty.size(); ++i) {
      if (!lies_in(polygon.outer, empty[i].outer)) continue;
      if (std::abs(signed_area(empty[i].outer)) < std::abs(signed_area(around->outer))) {
        around = &empty[i];
      }
    }
    around->holes.push_back(polygon.outer);
  }
  return empty;
}

}  // namespace

double radius_of(const Shape& shape) {
  const Disc* disc = std::get_if<Disc>(&shape);
  return disc ? disc->radius : 0;
}

bool is_point_or_disc(const Shape& shape) {
  return std::holds_alternative<Point>(shape) || std::holds_alternative<Disc>(shape);
}

Point center_of(const Shape& shape) {
  const Disc* disc = std::get_if<Disc>(&shape);
  return disc ? disc->center : std::get<Point>(shape);
}

MultiPolygon polygons_of(const Shape& shape) {
  if (const Box* box = std::get_if<Box>(&shape)) return {to_polygon(*box)};
  return std::get<MultiPolygon>(shape);
}

Swept sweep(const Shape& obstacle, const Shape& part, const std::string& obstacle_name,
            const std::string& part_name) {
  const double radius = radius_of(obstacle) + radius_of(part);
  if (is_point_or_disc(obstacle) && is_point_or_disc(part)) {
    return {center_of(obstacle) - center_of(part), radius};
  }
  if (is_point_or_disc(part)) return alone(obstacle, false, -center_of(part), radius);
  if (is_point_or_disc(obstacle)) return alone(part, true, center_of(obstacle), radius);
  const Box* a = std::get_if<Box>(&obstacle);
  const Box* b = std::get_if<Box>(&part);
  if (a && b) {
    return {Box{a->x0 - b->x1, a->x1 - b->x0, a->y0 - b->y1, a->y1 - b->y0}, 0};
  }
  return {
      checked_sum(convex_pieces(polygons_of(obstacle)), convex_pieces(mirrored(polygons_of(part))),
                  "the " + part_name + " and the obstacle \"" + obstacle_name + "\""),
      0};
}

std::vector<Ring> sweep_surroundings(const MultiPolygon& bed, const Shape& spot, const Box& frame) {
  return checked_sum(convex_pieces(surroundings(bed, frame)),
                     convex_pieces(mirrored(polygons_of(spot))), "the bed and the sensing area");
}

FieldPtr outside(const Swept& swept, const std::optional<Box>& frame) {
  if (const Point* point = std::get_if<Point>(&swept.core)) return outside_disc({*point, 0});
  if (const Box* box = std::get_if<Box>(&swept.core)) return outside_box(*box);
  if (const MultiPolygon* polygons = std::get_if<MultiPolygon>(&swept.core)) {
    if (polygons->size() == 1 && polygons->front().holes.empty() &&
        is_convex(polygons->front().outer)) {
      return outside_convex(normalized(polygons->front().outer));
    }
    return outside_polygons(*polygons);
  }
  return outside_pieces(std::get<std::vector<Ring>>(swept.core), frame ? &*frame : nullptr);
}

FieldPtr outside_by_pieces(const Swept& swept) {
  if (const MultiPolygon* polygons = std::get_if<MultiPolygon>(&swept.core)) {
    return outside_pieces(convex_pieces(*polygons));
  }
  return outside(swept, std::nullopt);
}

Shape moved(const Shape& shape, Point by) {
  if (const Point* point = std::get_if<Point>(&shape)) return *point + by;
  if (const Box* b = std::get_if<Box>(&shape)) {
    return Box{b->x0 + by.x, b->x1 + by.x, b->y0 + by.y, b->y1 + by.y};
  }
  if (const Disc* disc = std::get_if<Disc>(&shape)) return Disc{disc->center + by, disc->radius};
  return translated(std::get<MultiPolygon>(shape), by);
}

Swept moved(const Swept& swept, Point by) {
  if (const auto* pieces = std::get_if<std::vector<Ring>>(&swept.core)) {
    std::vector<Ring> rings = *pieces;
    for (Ring& ring : rings) {
      for (Point& p : ring) p = p + by;
    }
    return {std::move(rings), swept.radius};
  }
  if (const Point* point = std::get_if<Point>(&swept.core)) return {*point + by, swept.radius};
  if (const Box* b = std::get_if<Box>(&swept.core)) {
    return {Box{b->x0 + by.x, b->x1 + by.x, b->y0 + by.y, b->y1 + by.y}, swept.radius};
  }
  return {translated(std::get<MultiPolygon>(swept.core), by), swept.radius};
}

std::vector<Polygon> grown(const Swept& swept, Growth growth) {
  growth.base += swept.radius;
  if (const Point* point = std::get_if<Point>(&swept.core)) {
    return {grown_convex({*point}, growth)};
  }
  if (const Box* box = std::get_if<Box>(&swept.core)) {
    return {grown_convex(to_polygon(*box).outer, growth)};
  }
  if (const MultiPolygon* polygons = std::get_if<MultiPolygon>(&swept.core)) {
    return grown(*polygons, growth);
  }
  std::vector<Polygon> parts;
  for (const Ring& piece : std::get<std::vector<Ring>>(swept.core)) {
    parts.push_back(grown_convex(piece, growth));
  }
  return parts;
}

}  // namespace leeway
