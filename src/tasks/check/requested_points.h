#pragma once
// The requested points of a setup, in the order of the results.

#include <vector>

#include "leeway/check.h"

namespace leeway {

// Grid points row by row from the front left, named points, home; findings are not filled in.
// `skipped` counts the grid points left out because they are off the bed.
std::vector<CheckedPoint> requested_points(const Setup& setup, const Limits& limits,
                                           std::size_t& skipped);

struct PointCounts {
  std::size_t points = 0;
  std::size_t failing = 0;  // not reachable
  std::size_t skipped = 0;
};

// How many of the requested points are not reachable, without keeping them; with `stop_at_first`
// counting ends after the row in which one was found.
PointCounts count_points(const Setup& setup, const Limits& limits, bool stop_at_first = false);

// The indices of the grid points that are not unreachable, in travel order: serpentine, from
// the front left.
std::vector<std::size_t> travel_order(const std::vector<CheckedPoint>& points);

}  // namespace leeway
