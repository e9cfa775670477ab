#include "geometry/convex/convolution.h"

#include <algorithm>
#include <cstddef>

#include "geometry/convex/minkowski.h"
#include "geometry/plane/orientation.h"
#include "geometry/plane/polygons.h"

namespace leeway {
namespace {

// A ring with the inside on its left: the outer one counter-clockwise, holes clockwise.
struct Loop {
  Ring points;
  std::vector<Point> whole;       // the same in whole picometres
  std::vector<Point> directions;  // of the edges that start at the points, in picometres
};

Loop loop_of(const Ring& given, bool counter_clockwise) {
  Loop loop{normalized(given), {}, {}};
  if (!counter_clockwise) std::reverse(loop.points.begin(), loop.points.end());
  loop.whole = in_picometres(loop.points);
  const std::size_t n = loop.points.size();
  for (std::size_t i = 0; n > 1 && i < n; ++i) {
    loop.directions.push_back(loop.whole[(i + 1) % n] - loop.whole[i]);
  }
  return loop;
}

// Whether something as large as `moving` has more than no place in the hole.
bool has_place(const Box& moving, const Ring& hole) {
  constexpr double kNone = 1e-8;  // what is narrower than that is closed (exposed.h)
  const Box box = bounding_box(hole);
  return moving.width() < box.width() - kNone && moving.depth() < box.depth() - kNone;
}

std::vector<Loop> loops_of(const Polygon& polygon, const Box& other) {
  std::vector<Loop> loops{loop_of(polygon.outer, true)};
  for (const Ring& hole : polygon.holes) {
    if (has_place(other, hole)) loops.push_back(loop_of(hole, false));
  }
  return loops;
}

// Directions that are the same count as if those of the first outline came a little later, turning
// left: then each pair is taken once.
enum class Same { first_later, first_earlier };

// Whether a corner that turns left from `from` to `to`, by half a turn at most, passes `way`.
bool passes(Point from, Point to, Point way, Same same) {
  const int after = cross_sign(from, way);
  const int before = cross_sign(way, to);
  if (after > 0 && before > 0) return true;
  const auto along = [&](Point u) { return u.x * way.x + u.y * way.y > 0; };
  if (after == 0 && along(from)) return same == Same::first_earlier;
  return before == 0 && along(to) && same == Same::first_later;
}

void append_edge(Point corner, Point a, Point b, bool left, std::vector<ConvolutionEdge>& edges) {
  const Point from = decimal_sum(corner, a);
  const Point to = decimal_sum(corner, b);
  if (from == to) return;
  // A corner that turns right passes its directions backwards. Its edges are taken so, else the
  // ways would not close.
  edges.push_back(left ? ConvolutionEdge{from, to, true} : ConvolutionEdge{to, from, false});
}

// The edges of `moved` at the corners of `corners`.
void append_edges(const Loop& corners, const Loop& moved, Same same,
                  std::vector<ConvolutionEdge>& edges) {
  const std::size_t n = corners.points.size();
  const std::size_t count = moved.points.size();
  for (std::size_t i = 0; i < n; ++i) {
    const bool all = n == 1;  // a point turns through everything
    const Point from = all ? Point{} : corners.directions[(i + n - 1) % n];
    const Point to = all ? Point{} : corners.directions[i];
    const bool left = all || cross_sign(from, to) >= 0;
    for (std::size_t k = 0; k < moved.directions.size(); ++k) {
      const Point way = moved.directions[k];
      // Turning right from `from` to `to` is turning left from `to` to `from`.
      if (!all && !(left ? passes(from, to, way, same) : passes(to, from, way, same))) continue;
      append_edge(corners.points[i], moved.points[k], moved.points[(k + 1) % count], left, edges);
    }
  }
}

}  // namespace

std::vector<ConvolutionEdge> convolution(const MultiPolygon& a, const MultiPolygon& b) {
  std::vector<ConvolutionEdge> edges;
  for (const Polygon& p : a) {
    for (const Polygon& q : b) {
      if (p.outer.empty() || q.outer.empty()) continue;
      const std::vector<Loop> first = loops_of(p, bounding_box(q.outer));
      const std::vector<Loop> second = loops_of(q, bounding_box(p.outer));
      for (const Loop& u : first) {
        for (const Loop& v : second) {
          append_edges(u, v, Same::first_later, edges);
          append_edges(v, u, Same::first_earlier, edges);
        }
      }
    }
  }
  return edges;
}

}  // namespace leeway
