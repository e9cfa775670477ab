#pragma once
// Leeways and guards are compared as whole millionths of a millimetre kept in double: sums and
// differences of them are exact, so that equal decimals are equal.

#include "leeway/geometry.h"

namespace leeway {

inline constexpr double kTicksPerMillimetre = 1e6;

// To the nearest whole tick, ties to even. Adding 1.5 * 2^52 makes the unit of the last place one;
// exact up to 2^51 ticks, far beyond the largest length a setup may hold, and it vectorizes.
inline double to_ticks(double mm) {
  constexpr double kWholeNumbers = 6755399441055744.0;
  return (mm * kTicksPerMillimetre + kWholeNumbers) - kWholeNumbers;
}

// The double nearest to the decimal; never minus zero.
inline double to_millimetres(double ticks) { return ticks / kTicksPerMillimetre + 0.0; }

// The nearest whole tick, in mm.
inline double rounded_to_ticks(double mm) { return to_millimetres(to_ticks(mm)); }
inline Point rounded_to_ticks(Point p) { return {rounded_to_ticks(p.x), rounded_to_ticks(p.y)}; }

}  // namespace leeway
