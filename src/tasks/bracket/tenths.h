#pragma once
// Moves of the offset are told in tenths of a millimetre.

#include <cmath>

namespace leeway {

// The nearest tenth; never minus zero.
inline double tenths(double mm) { return std::round(mm * 10) / 10 + 0.0; }

}  // namespace leeway
