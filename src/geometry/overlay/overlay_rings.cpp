#include "geometry/overlay/overlay_rings.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <utility>

#include "geometry/overlay/overlay_noding.h"
#include "geometry/plane/assert.h"
#include "geometry/plane/infinity.h"
#include "geometry/plane/micrometres.h"

namespace leeway::overlay {
namespace {

bool precedes(Point a, Point b) { return a.x < b.x || (a.x == b.x && a.y < b.y); }
bool precedes(const Ring& a, const Ring& b) {
  return std::lexicographical_compare(a.begin(), a.end(), b.begin(), b.end(),
                                      [](Point p, Point q) { return precedes(p, q); });
}

// std::round, but not a call into the library for each coordinate.
double whole(double um) {
  return static_cast<double>(static_cast<std::int64_t>(um + (um < 0 ? -0.5 : 0.5)));
}

// The vertices on whole micrometres, without those at which the ring repeats itself, goes straight
// on or turns back on itself. Products of whole micrometres are exact: a corner is straight or not.
Ring tidied(const Ring& ring, double scale) {
  Ring kept;
  kept.reserve(ring.size());
  for (const Point given : ring) {
    const Point p{whole(given.x * scale), whole(given.y * scale)};
    while (kept.size() > 1 && turn(kept[kept.size() - 2], kept.back(), p) == 0) kept.pop_back();
    if (kept.empty() || !(kept.back() == p)) kept.push_back(p);
  }
  // It may still be straight where the end meets the beginning.
  std::size_t first = 0;
  while (kept.size() - first > 2) {
    if (turn(kept[kept.size() - 2], kept.back(), kept[first]) == 0) {
      kept.pop_back();
    } else if (turn(kept.back(), kept[first], kept[first + 1]) == 0) {
      ++first;
    } else {
      kept.erase(kept.begin(), kept.begin() + static_cast<std::ptrdiff_t>(first));
      return kept;
    }
  }
  return {};
}

Ring tidied(const Ring& ring, double scale, bool counter_clockwise) {
  Ring result = tidied(ring, scale);
  const double twice = twice_area(result);
  if (twice == 0) return {};
  if ((twice > 0) != counter_clockwise) std::reverse(result.begin(), result.end());
  // It begins at a vertex that the ring alone decides: equal rings are equal vectors then.
  std::rotate(result.begin(),
              std::min_element(result.begin(), result.end(),
                               [](Point a, Point b) { return precedes(a, b); }),
              result.end());
  return result;
}

MultiPolygon tidied(const MultiPolygon& polygons, double scale) {
  MultiPolygon result;
  result.reserve(polygons.size());
  for (const Polygon& polygon : polygons) {
    Polygon tidy{tidied(polygon.outer, scale, true), {}};
    if (tidy.outer.empty()) continue;
    for (const Ring& hole : polygon.holes) {
      Ring ring = tidied(hole, scale, false);
      if (!ring.empty()) tidy.holes.push_back(std::move(ring));
    }
    result.push_back(std::move(tidy));
  }
  return result;
}

template <typename Test>
bool every_point(const MultiPolygon& polygons, Test test) {
  const auto in_ring = [&](const Ring& ring) {
    return std::all_of(ring.begin(), ring.end(), test);
  };
  return std::all_of(polygons.begin(), polygons.end(), [&](const Polygon& p) {
    return in_ring(p.outer) && std::all_of(p.holes.begin(), p.holes.end(), in_ring);
  });
}

}  // namespace

bool before(const Polygon& a, const Polygon& b) { return precedes(a.outer, b.outer); }

bool finite(const MultiPolygon& polygons) {
  return every_point(polygons, [](Point p) { return std::isfinite(p.x) && std::isfinite(p.y); });
}

bool is_whole(const MultiPolygon& polygons) {
  return every_point(polygons,
                     [](Point p) { return p.x == std::round(p.x) && p.y == std::round(p.y); });
}

bool winds_right(const MultiPolygon& polygons) {
  constexpr double kSliver = 1;
  const auto clockwise = [](const Ring& hole) { return twice_area(hole) < kSliver; };
  return std::all_of(polygons.begin(), polygons.end(), [&](const Polygon& p) {
    return twice_area(p.outer) > -kSliver && std::all_of(p.holes.begin(), p.holes.end(), clockwise);
  });
}

double twice_area(const Ring& ring) {
  double sum = 0;
  for (std::size_t i = 2; i < ring.size(); ++i) sum += turn(ring[0], ring[i - 1], ring[i]);
  return sum;
}

MultiPolygon from_millimetres(const MultiPolygon& polygons) {
  if (!finite(polygons)) throw OverlayFault("overlay: a coordinate is not a number");
  return tidied(polygons, kMicrometresPerMillimetre);
}
MultiPolygon rounded(const MultiPolygon& polygons) { return tidied(polygons, 1); }

MultiPolygon to_millimetres(MultiPolygon polygons) {
  const auto to_mm = [](Ring& ring) {
    for (Point& p : ring) p = {p.x / kMicrometresPerMillimetre, p.y / kMicrometresPerMillimetre};
  };
  for (Polygon& polygon : polygons) {
    to_mm(polygon.outer);
    for (Ring& hole : polygon.holes) to_mm(hole);
    std::sort(polygon.holes.begin(), polygon.holes.end(),
              [](const Ring& a, const Ring& b) { return precedes(a, b); });
  }
  std::sort(polygons.begin(), polygons.end(),
            [](const Polygon& a, const Polygon& b) { return before(a, b); });
  return polygons;
}

Box box_of(const Polygon& polygon) {
  Box box{kInfinity, -kInfinity, kInfinity, -kInfinity};
  for (const Point p : polygon.outer) {
    box = {std::min(box.x0, p.x), std::max(box.x1, p.x), std::min(box.y0, p.y),
           std::max(box.y1, p.y)};
  }
  return box;
}

Box box_of(const MultiPolygon& polygons) {
  Box all{kInfinity, -kInfinity, kInfinity, -kInfinity};
  for (const Polygon& polygon : polygons) {
    const Box box = box_of(polygon);
    all = {std::min(all.x0, box.x0), std::max(all.x1, box.x1), std::min(all.y0, box.y0),
           std::max(all.y1, box.y1)};
  }
  return all;
}

bool touch(const Box& a, const Box& b) {
  return a.x0 <= b.x1 && b.x0 <= a.x1 && a.y0 <= b.y1 && b.y0 <= a.y1;
}

bool surely_inside(const Polygon& inner, const Polygon& outer) {
  if (!outer.holes.empty()) return false;
  // A point that no edge has on its right is one the ring winds round, be the ring convex or not;
  // and such points form a convex set.
  const Ring& ring = outer.outer;
  Point a = ring.back();
  for (const Point b : ring) {
    for (const Point p : inner.outer) {
      if (turn(a, b, p) < 0) return false;
    }
    a = b;
  }
  return true;
}

}  // namespace leeway::overlay
