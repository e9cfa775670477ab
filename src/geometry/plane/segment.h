#pragma once
// Distance to a straight segment.

#include <algorithm>

#include "geometry/plane/vector.h"

namespace leeway {

struct SegmentNearness {
  double distance = 0;
  Point normal;         // from the nearest point to `p`, any length, either sense
  bool at_end = false;  // the nearest point is an end of the segment
};

// A segment of no length is its point. On the segment itself, short of its ends, the normal is the
// segment's own: the difference to the nearest point would be rounding noise.
inline SegmentNearness nearest_on_segment(Point a, Point b, Point p) {
  const Point along = b - a;
  const double squared = dot(along, along);
  const double t = squared > 0 ? dot(p - a, along) / squared : 0;
  if (t <= 0) return {norm(p - a), p - a, true};
  if (t >= 1) return {norm(p - b), p - b, true};
  const double length = std::sqrt(squared);
  return {std::abs(cross(along, p - a)) / length, right_of(along), false};
}

// The least distance between the segments from `a` to `b` and from `c` to `d`; 0 where they cross.
inline double distance_between(Point a, Point b, Point c, Point d) {
  const auto on_both_sides = [](Point p, Point q, Point u, Point v) {
    return (cross(p, q, u) < 0) != (cross(p, q, v) < 0);
  };
  if (on_both_sides(c, d, a, b) && on_both_sides(a, b, c, d)) return 0;
  return std::min({nearest_on_segment(a, b, c).distance, nearest_on_segment(a, b, d).distance,
                   nearest_on_segment(c, d, a).distance, nearest_on_segment(c, d, b).distance});
}

}  // namespace leeway
