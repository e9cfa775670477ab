#pragma once
// Which way the sides of limits lie.

#include "leeway/limits.h"

namespace leeway {

inline bool is_straight(LimitSide side) { return side <= LimitSide::back; }

// Whether it ends a range of x.
inline bool along_x(LimitSide side) { return side == LimitSide::left || side == LimitSide::right; }

}  // namespace leeway
