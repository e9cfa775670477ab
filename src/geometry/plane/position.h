#pragma once
// What can be a position at all.

#include <cmath>

#include "leeway/geometry.h"

namespace leeway {

// In mm. A thousand times what a setup may hold: nothing is farther away, and up to there leeways
// are exact to the millionth.
inline constexpr double kFarthest = 1e9;

// False for NaN, for infinity and for what is farther away than anything of a setup.
inline bool is_position(Point p) {
  return std::abs(p.x) <= kFarthest && std::abs(p.y) <= kFarthest;
}

}  // namespace leeway
