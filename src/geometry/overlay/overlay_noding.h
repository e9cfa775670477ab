#pragma once
// Edges split so that they meet at common end points only, all of them whole micrometres.

#include <array>
#include <vector>

#include "geometry/overlay/overlay_steps.h"

namespace leeway::overlay {

// By y, then by x: the order in which a sweep line that is tilted a little meets points.
inline bool below(Point a, Point b) { return a.y < b.y || (a.y == b.y && a.x < b.x); }

// Positive when a, b, c turn left. Exact for whole and half micrometres that lie within 30 m.
inline double turn(Point a, Point b, Point c) {
  return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
}

struct NodedSegment {
  Point low, high;  // below(low, high)
  // What the winding numbers of a and b change by from its left to its right, seen from low to
  // high.
  std::array<int, 2> steps;
};

struct Noded {
  std::vector<NodedSegment> segments;  // each pair of end points once, by `below`
  double moved = 0;                    // the area passed over, at most, in square micrometres
};

Noded noded(const MultiPolygon& a, const MultiPolygon& b);

}  // namespace leeway::overlay
