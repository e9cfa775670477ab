#include "model/limits/swept.h"

#include <cmath>

#include "geometry/convex/minkowski.h"
#include "geometry/convex/sum.h"
#include "geometry/plane/by_kind.h"
#include "geometry/plane/polygons.h"
#include "leeway/limits.h"

namespace leeway {
namespace {

Box box_moved(const Box& b, Point by) {
  return {b.x0 + by.x, b.x1 + by.x, b.y0 + by.y, b.y1 + by.y};
}

Ring ring_moved(Ring ring, Point by) {
  for (Point& p : ring) p = p + by;
  return ring;
}

std::vector<Ring> rings_moved(std::vector<Ring> rings, Point by) {
  for (Ring& ring : rings) ring = ring_moved(std::move(ring), by);
  return rings;
}

// Of two convex outlines the sum is a ring.
std::optional<Ring> convex_of(const Box& box) { return corners_of(box); }
std::optional<Ring> convex_of(const MultiPolygon& polygons) {
  if (polygons.size() != 1 || !polygons.front().holes.empty()) return std::nullopt;
  if (!is_convex(polygons.front().outer)) return std::nullopt;
  return normalized(polygons.front().outer);
}

// A box without an area is a segment, which goes round nothing.
bool goes_round(const Box& box) { return box.width() > 0 && box.depth() > 0; }
bool goes_round(const MultiPolygon&) { return true; }

MultiPolygon polygons_of(const Box& box) { return {to_polygon(box)}; }
MultiPolygon polygons_of(const MultiPolygon& polygons) { return polygons; }

std::vector<Ring> pieces_of(const Box& box) { return {corners_of(box)}; }
std::vector<Ring> pieces_of(const MultiPolygon& polygons) { return convex_pieces(polygons); }

using SweptCore = decltype(Swept::core);

// Two convex outlines make a ring, at once. Winding numbers need outlines that go round something;
// pieces serve the others. All else goes by the convolution, or is refused.
template <typename A, typename B>
SweptCore checked_sum(const A& a, const B& b, const std::string& what) {
  const std::optional<Ring> ring_a = convex_of(a);
  const std::optional<Ring> ring_b = convex_of(b);
  if (ring_a && ring_b) return convex_sum(*ring_a, *ring_b);
  if (!goes_round(a) || !goes_round(b)) return sum_pieces(pieces_of(a), pieces_of(b));
  if (SharedSum sum = sum_of(polygons_of(a), polygons_of(b))) return sum;
  throw SetupTooDetailed("the outlines of " + what +
                         " are too detailed together: their edges, moved along one another, meet "
                         "too often; use simpler outlines");
}

// Whether a ring lies in another that it does not cross; the two may touch at points.
bool lies_in(const Ring& ring, const Ring& other) {
  // The place farthest from the other ring decides: where the two touch rounding might.
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

// What is not bed: the frame without the outer rings, and the holes. A polygon may lie in a hole
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

Swept swept_obstacle(const Shape& obstacle, const Shape& part, const std::string& obstacle_name,
                     const std::string& part_name) {
  const Core still = core_of(obstacle);
  // A part at p meets the obstacle where p lies in the sum of the obstacle and the mirrored part.
  // Points and boxes sum to points and boxes, in closed form.
  const Core moving = mirrored(core_of(part));
  const auto sum =
      Cases{[](Point a, Point b) -> SweptCore { return a + b; },
            [](Point a, const Box& b) -> SweptCore { return box_moved(b, a); },
            [](const Box& a, Point b) -> SweptCore { return box_moved(a, b); },
            [](const Box& a, const Box& b) -> SweptCore {
              return Box{a.x0 + b.x0, a.x1 + b.x1, a.y0 + b.y0, a.y1 + b.y1};
            },
            [](Point a, const MultiPolygon& b) -> SweptCore { return translated(b, a); },
            [](const MultiPolygon& a, Point b) -> SweptCore { return translated(a, b); },
            [&](const auto& a, const auto& b) -> SweptCore {
              return checked_sum(
                  a, b, "the " + part_name + " and the obstacle \"" + obstacle_name + "\"");
            }};
  return {std::visit(sum, still.of, moving.of), still.radius + moving.radius};
}

Swept swept_surroundings(const MultiPolygon& bed, const Core& spot, const Box& frame) {
  const Core moving = mirrored(spot);
  const MultiPolygon around = surroundings(bed, frame);
  const std::string what = "the bed and the sensing area";
  return {
      by_kind(
          moving.of, [&](Point p) -> SweptCore { return sum_pieces(convex_pieces(around), {{p}}); },
          [&](const auto& extended) { return checked_sum(around, extended, what); }),
      spot.radius};
}

FieldPtr outside(const Swept& swept, const std::optional<Box>& frame) {
  const Box* const within = frame ? &*frame : nullptr;
  return by_kind(
      swept.core,
      [](Point point) {
        return outside_disc({point, 0});
      },
      [](const Box& box) { return outside_box(box); },
      [](const MultiPolygon& polygons) {
        std::optional<Ring> ring = convex_of(polygons);
        return ring ? outside_convex(*std::move(ring)) : outside_polygons(polygons);
      },
      [&](const Ring& ring) {
        // A single ring knows no frame; pieces do.
        return within ? outside_pieces({ring}, within) : outside_convex(ring);
      },
      [&](const SharedSum& sum) { return outside_sum(sum, within); },
      [&](const std::vector<Ring>& pieces) { return outside_pieces(pieces, within); });
}

FieldPtr outside_by_pieces(const Swept& swept) {
  return by_kind(
      swept.core,
      [](const MultiPolygon& polygons) { return outside_pieces(convex_pieces(polygons)); },
      [](Point) { return FieldPtr(); }, [](const Box&) { return FieldPtr(); },
      [](const Ring&) { return FieldPtr(); }, [](const SharedSum&) { return FieldPtr(); },
      [](const std::vector<Ring>&) { return FieldPtr(); });
}

bool is_convex_set(const Shape& shape) {
  return by_kind(
      shape, [](Point) { return true; }, [](const Box&) { return true; },
      [](const Disc&) { return true; }, [](const RoundedBox&) { return true; },
      [](const MultiPolygon& polygons) {
        return polygons.size() == 1 && polygons.front().holes.empty() &&
               is_convex(normalized(polygons.front().outer));
      });
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
  return {
      by_kind(
          swept.core, [by](Point p) -> SweptCore { return p + by; },
          [by](const Box& box) -> SweptCore { return box_moved(box, by); },
          [by](const MultiPolygon& polygons) -> SweptCore { return translated(polygons, by); },
          [by](const Ring& ring) -> SweptCore { return ring_moved(ring, by); },
          [by](const SharedSum& given) -> SweptCore {
            // The polygons only: what else there is of it is not asked for elsewhere.
            auto sum = std::make_shared<Sum>();
            sum->outline = translated(given->outline, by);
            sum->pieces = rings_moved(given->pieces, by);
            return SharedSum(std::move(sum));
          },
          [by](const std::vector<Ring>& pieces) -> SweptCore { return rings_moved(pieces, by); }),
      swept.radius};
}

std::vector<Polygon> grown(const Swept& swept, Growth growth) {
  using Parts = std::vector<Polygon>;
  growth.base += swept.radius;
  return by_kind(
      swept.core, [&](Point point) -> Parts { return {grown_convex({point}, growth)}; },
      [&](const Box& box) -> Parts { return {grown_convex(corners_of(box), growth)}; },
      [&](const MultiPolygon& polygons) -> Parts { return grown(polygons, growth); },
      [&](const Ring& ring) -> Parts { return {grown_convex(ring, growth)}; },
      [&](const SharedSum& sum) {
        Parts parts = grown(sum->outline, growth);
        for (const Ring& piece : sum->pieces) parts.push_back(grown_convex(piece, growth));
        return parts;
      },
      [&](const std::vector<Ring>& pieces) {
        Parts parts;
        for (const Ring& piece : pieces) parts.push_back(grown_convex(piece, growth));
        return parts;
      });
}

}  // namespace leeway
