#include "model/limits/swept.h"

#include <cmath>

#include "geometry/convex/minkowski.h"
#include "geometry/plane/by_kind.h"
#include "geometry/plane/polygons.h"
#include "leeway/limits.h"

namespace leeway {
namespace {

Box box_moved(const Box& b, Point by) {
  return {b.x0 + by.x, b.x1 + by.x, b.y0 + by.y, b.y1 + by.y};
}

std::vector<Ring> rings_moved(std::vector<Ring> rings, Point by) {
  for (Ring& ring : rings) {
    for (Point& p : ring) p = p + by;
  }
  return rings;
}

std::vector<Ring> pieces_of(const Box& box) {
  if (box.width() > 0 && box.depth() > 0) return convex_pieces({to_polygon(box)});
  return {corners_of(box)};
}
std::vector<Ring> pieces_of(const MultiPolygon& polygons) { return convex_pieces(polygons); }

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

Swept sweep(const Shape& obstacle, const Shape& part, const std::string& obstacle_name,
            const std::string& part_name) {
  using Sum = decltype(Swept::core);
  const Core still = core_of(obstacle);
  const Core moving = mirrored(core_of(part));
  const auto sum = Cases{[](Point a, Point b) -> Sum { return a + b; },
                         [](Point a, const Box& b) -> Sum { return box_moved(b, a); },
                         [](const Box& a, Point b) -> Sum { return box_moved(a, b); },
                         [](const Box& a, const Box& b) -> Sum {
                           return Box{a.x0 + b.x0, a.x1 + b.x1, a.y0 + b.y0, a.y1 + b.y1};
                         },
                         [](Point a, const MultiPolygon& b) -> Sum { return translated(b, a); },
                         [](const MultiPolygon& a, Point b) -> Sum { return translated(a, b); },
                         [&](const auto& a, const auto& b) -> Sum {
                           return checked_sum(
                               pieces_of(a), pieces_of(b),
                               "the " + part_name + " and the obstacle \"" + obstacle_name + "\"");
                         }};
  return {std::visit(sum, still.of, moving.of), still.radius + moving.radius};
}

Swept sweep_surroundings(const MultiPolygon& bed, const Core& spot, const Box& frame) {
  const Core moving = mirrored(spot);
  const std::vector<Ring> pieces = by_kind(
      moving.of, [](Point p) { return std::vector<Ring>{{p}}; },
      [](const auto& extended) { return pieces_of(extended); });
  return {
      checked_sum(convex_pieces(surroundings(bed, frame)), pieces, "the bed and the sensing area"),
      spot.radius};
}

FieldPtr outside(const Swept& swept, const std::optional<Box>& frame) {
  return by_kind(
      swept.core,
      [](Point point) {
        return outside_disc({point, 0});
      },
      [](const Box& box) { return outside_box(box); },
      [](const MultiPolygon& polygons) {
        const bool convex = polygons.size() == 1 && polygons.front().holes.empty() &&
                            is_convex(polygons.front().outer);
        return convex ? outside_convex(normalized(polygons.front().outer))
                      : outside_polygons(polygons);
      },
      [&](const std::vector<Ring>& pieces) {
        return outside_pieces(pieces, frame ? &*frame : nullptr);
      });
}

FieldPtr outside_by_pieces(const Swept& swept) {
  return by_kind(
      swept.core,
      [](const MultiPolygon& polygons) { return outside_pieces(convex_pieces(polygons)); },
      [](Point) { return FieldPtr(); }, [](const Box&) { return FieldPtr(); },
      [](const std::vector<Ring>&) { return FieldPtr(); });
}

Shape moved(const Shape& shape, Point by) {
  return by_kind(
      shape, [by](Point p) -> Shape { return p + by; },
      [by](const Box& box) -> Shape { return box_moved(box, by); },
      [by](const Disc& disc) -> Shape {
        return Disc{disc.center + by, disc.radius};
      },
      [by](const RoundedBox& rounded) -> Shape {
        return RoundedBox{box_moved(rounded.box, by), rounded.radius};
      },
      [by](const MultiPolygon& polygons) -> Shape { return translated(polygons, by); });
}

Swept moved(const Swept& swept, Point by) {
  using Sum = decltype(Swept::core);
  return {by_kind(
              swept.core, [by](Point p) -> Sum { return p + by; },
              [by](const Box& box) -> Sum { return box_moved(box, by); },
              [by](const MultiPolygon& polygons) -> Sum { return translated(polygons, by); },
              [by](const std::vector<Ring>& pieces) -> Sum { return rings_moved(pieces, by); }),
          swept.radius};
}

std::vector<Polygon> grown(const Swept& swept, Growth growth) {
  using Parts = std::vector<Polygon>;
  growth.base += swept.radius;
  return by_kind(
      swept.core, [&](Point point) -> Parts { return {grown_convex({point}, growth)}; },
      [&](const Box& box) -> Parts { return {grown_convex(corners_of(box), growth)}; },
      [&](const MultiPolygon& polygons) -> Parts { return grown(polygons, growth); },
      [&](const std::vector<Ring>& pieces) {
        Parts parts;
        for (const Ring& piece : pieces) parts.push_back(grown_convex(piece, growth));
        return parts;
      });
}

}  // namespace leeway
