#pragma once
// Positions at which a setup is most likely to be judged wrongly.

#include <cstdint>
#include <functional>
#include <vector>

#include "judges/random.h"
#include "leeway/setup.h"

namespace leeway::judges {

// Positions of the probe in and around the bed: anywhere, on a decimal lattice, and exactly on
// limits (sides flush, vertices meeting, clearances exactly kept, discs touched at lattice points).
std::vector<Point> random_points(const Setup& setup, Random& random, std::size_t count);

// Positions a little to either side of where `inside` changes its mind, found by halving the way
// between points where it differs. Fewer than `count` when it never differs.
std::vector<Point> points_near_change(const std::vector<Point>& points,
                                      const std::function<bool(Point)>& inside, Random& random,
                                      std::size_t count);

}  // namespace leeway::judges
