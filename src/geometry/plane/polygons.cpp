#include "geometry/plane/polygons.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>
#include <utility>
#include <variant>

#include "geometry/plane/micrometres.h"
#include "geometry/plane/orientation.h"

namespace leeway {

// Shoelace about the first vertex, so that a small ring far from the origin keeps its digits.
double signed_area(const Ring& ring) {
  double twice = 0;
  for (std::size_t i = 2; i < ring.size(); ++i) {
    const Point u = ring[i - 1] - ring[0];
    const Point v = ring[i] - ring[0];
    twice += u.x * v.y - u.y * v.x;
  }
  return twice / 2;
}

// Users give rings in either winding, so the signs are not relied on.
double area(const Polygon& polygon) {
  double sum = std::abs(signed_area(polygon.outer));
  for (const Ring& hole : polygon.holes) sum -= std::abs(signed_area(hole));
  return sum;
}

Box bounding_box(std::span<const Point> points) {
  constexpr double kFar = std::numeric_limits<double>::infinity();
  Box box{kFar, -kFar, kFar, -kFar};
  for (const Point p : points) {
    box.x0 = std::min(box.x0, p.x);
    box.x1 = std::max(box.x1, p.x);
    box.y0 = std::min(box.y0, p.y);
    box.y1 = std::max(box.y1, p.y);
  }
  return box;
}

Point closest_on_segment(Point a, Point b, Point p) {
  const Point along = b - a;
  const Point off = p - a;
  const double square = along.x * along.x + along.y * along.y;
  const double reach = off.x * along.x + off.y * along.y;
  // A segment of no length ends here too: nothing is ever divided by 0.
  if (!(reach > 0)) return a;
  if (reach >= square) return b;
  return a + (reach / square) * along;
}

// The turns alone don't tell a ring that goes round twice: it also changes between left to right
// and right to left more than twice.
bool is_convex(const Ring& ring) {
  const std::vector<Point> whole = in_picometres(normalized(ring));
  const std::size_t n = whole.size();
  if (n < 3) return true;
  int reversals = 0;
  for (std::size_t i = 0; i < n; ++i) {
    const Point a = whole[i];
    const Point b = whole[(i + 1) % n];
    const Point c = whole[(i + 2) % n];
    if (orientation(a, b, c) < 0) return false;
    reversals += lexicographic(a, b) != lexicographic(b, c);
  }
  return reversals == 2;
}

namespace {

// Whether the way a, b, c needs b.
bool is_corner(Point a, Point b, Point c) { return !(a == b) && orientation(a, b, c) != 0; }

// The indices of the ring's corners: what stays when repeated neighbours and straight corners go,
// also those that only come to be when others have gone.
// Indices and not points: picometres only judge, the ring keeps the doubles that it was given.
std::vector<std::size_t> corners(const std::vector<Point>& whole) {
  std::vector<std::size_t> kept;
  for (std::size_t i = 0; i < whole.size(); ++i) {
    while (kept.size() >= 2 &&
           !is_corner(whole[kept[kept.size() - 2]], whole[kept.back()], whole[i])) {
      kept.pop_back();
    }
    if (kept.empty() || !(whole[kept.back()] == whole[i])) kept.push_back(i);
  }
  // The same across the seam.
  std::size_t first = 0;
  std::size_t end = kept.size();
  while (end - first >= 3) {
    const Point last = whole[kept[end - 1]];
    const Point start = whole[kept[first]];
    if (last == start || !is_corner(whole[kept[end - 2]], last, start)) {
      --end;
    } else if (!is_corner(last, start, whole[kept[first + 1]])) {
      ++first;
    } else {
      break;
    }
  }
  return {kept.begin() + static_cast<std::ptrdiff_t>(first),
          kept.begin() + static_cast<std::ptrdiff_t>(end)};
}

}  // namespace

Ring normalized(const Ring& ring) {
  Ring result;
  for (const std::size_t i : corners(in_picometres(ring))) result.push_back(ring[i]);
  if (result.size() < 3) return convex_hull(ring);  // no area: a segment, a point or nothing
  if (signed_area(result) < 0) std::reverse(result.begin(), result.end());
  return result;
}

Ring outline_points(const MultiPolygon& polygons) {
  Ring all;
  for (const Polygon& polygon : polygons) {
    all.insert(all.end(), polygon.outer.begin(), polygon.outer.end());
  }
  return all;
}

// Andrew's monotone chain: the lower chain left to right, then the upper one back.
Ring convex_hull(Ring points) {
  std::sort(points.begin(), points.end(), lexicographic);
  const std::vector<Point> whole = in_picometres(points);
  std::vector<std::size_t> hull;
  const auto grow = [&](std::size_t i, std::size_t floor) {
    while (hull.size() > floor &&
           orientation(whole[hull[hull.size() - 2]], whole[hull.back()], whole[i]) <= 0) {
      hull.pop_back();
    }
    if (hull.empty() || !(whole[hull.back()] == whole[i])) hull.push_back(i);
  };
  for (std::size_t i = 0; i < points.size(); ++i) grow(i, 1);
  const std::size_t lower = hull.size();
  for (std::size_t i = points.size(); i-- > 0;) grow(i, lower);
  if (hull.size() > 1 && whole[hull.back()] == whole[hull.front()]) hull.pop_back();
  Ring result;
  for (const std::size_t i : hull) result.push_back(points[i]);
  return result;
}

Polygon to_polygon(const Box& box) {
  return {{{box.x0, box.y0}, {box.x1, box.y0}, {box.x1, box.y1}, {box.x0, box.y1}}, {}};
}

namespace {

template <typename Move>
MultiPolygon moved(MultiPolygon polygons, Move move) {
  for (Polygon& polygon : polygons) {
    for (Point& p : polygon.outer) p = move(p);
    for (Ring& hole : polygon.holes) {
      for (Point& p : hole) p = move(p);
    }
  }
  return polygons;
}

}  // namespace

// Mirrored at a point is turned half round: the windings stay. 0 - 0 is 0, where -0 is not.
MultiPolygon mirrored(const MultiPolygon& polygons) {
  return moved(polygons, [](Point p) { return Point{} - p; });
}

MultiPolygon translated(MultiPolygon polygons, Point by) {
  return moved(std::move(polygons), [by](Point p) { return p + by; });
}

Polygon moved_on_lattice(const Polygon& polygon, Point by) {
  const auto move = [by](Ring ring) {
    for (Point& p : ring) p = to_lattice(p + by);
    return ring;
  };
  Polygon result{move(polygon.outer), {}};
  for (const Ring& hole : polygon.holes) result.holes.push_back(move(hole));
  return result;
}

}  // namespace leeway
