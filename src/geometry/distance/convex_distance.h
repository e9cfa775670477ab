#pragma once
// Distance to a single convex ring.

#include <algorithm>

#include "geometry/plane/vector.h"

namespace leeway {

struct ConvexDistance {
  double distance = 0;  // positive outside, negative inside
  Point normal;         // along the nearest approach, any length; zero exactly on a corner
};

// REQUIRES: a convex counter-clockwise ring of one (a point), two (a segment) or more vertices.
ConvexDistance convex_distance(const Ring& ring, Point p);

// The minimum of a convex function over the segment from `a` to `b`, to about 1e-9 of its length.
template <typename Function>
double least_convex(Function f, Point a, Point b) {
  double low = 0;
  double high = 1;
  for (int i = 0; i < 52; ++i) {
    const double third = (high - low) / 3;
    if (f(a + (low + third) * (b - a)) <= f(a + (high - third) * (b - a))) {
      high -= third;
    } else {
      low += third;
    }
  }
  return std::min({f(a), f(b), f(a + ((low + high) / 2) * (b - a))});
}

}  // namespace leeway
