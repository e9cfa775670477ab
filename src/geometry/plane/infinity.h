#pragma once
// What no distance or bound has reached yet.

#include <limits>

namespace leeway {

inline constexpr double kInfinity = std::numeric_limits<double>::infinity();

}  // namespace leeway
