#pragma once
// The place that is farthest from every edge.

#include <functional>
#include <optional>

#include "leeway/geometry.h"

namespace leeway {

struct Pole {
  Point at;
  double distance = 0;  // to the nearest edge
};

// The pole of inaccessibility of a region, the centre of its largest inscribed circle (Garcia-
// Castellanos and Lombardo, "Poles of inaccessibility", Scottish Geographical Journal 123 (2007)
// 227-233): its distance is within `tolerance` of the greatest there is. Nothing when the region
// is empty. REQUIRES: tolerance > 0.
std::optional<Pole> pole_of_inaccessibility(const MultiPolygon& region, double tolerance = 0.01);

// The same for any function that changes by no more than 1 per mm, over a box, found by halving
// squares (branch and bound). Of equal places the one found first. Where all places of a long
// needle are equal the effort ends first, at a place that is good but perhaps not the best.
Pole greatest_over(const Box& box, const std::function<double(Point)>& distance, double tolerance);

// The place nearest to `from`, among those of the box where `distance` (as above) is at least
// `wanted`: no place is nearer by more than `tolerance`. Nothing when squares of that size hold
// none, or when a bounded effort finds none.
std::optional<Point> nearest_with(const Box& box, const std::function<double(Point)>& distance,
                                  double wanted, Point from, double tolerance);

}  // namespace leeway
