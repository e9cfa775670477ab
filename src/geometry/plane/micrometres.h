#pragma once
// The lattice of whole micrometres on which polygons are overlaid.

#include <cmath>

#include "leeway/geometry.h"

namespace leeway {

inline constexpr double kMicrometresPerMillimetre = 1000;

// The nearest whole micrometre, in mm.
inline double to_lattice(double mm) {
  return std::round(mm * kMicrometresPerMillimetre) / kMicrometresPerMillimetre;
}
inline Point to_lattice(Point p) { return {to_lattice(p.x), to_lattice(p.y)}; }

// Whether a coordinate is a whole micrometre up to what a decimal loses in binary.
inline bool on_lattice(double mm) {
  const double um = mm * kMicrometresPerMillimetre;
  return std::abs(um - std::round(um)) < 1e-6;
}
inline bool on_lattice(Point p) { return on_lattice(p.x) && on_lattice(p.y); }

// The whole micrometre at or below, or at or above.
inline double lattice_floor(double mm) {
  return on_lattice(mm) ? to_lattice(mm)
                        : std::floor(mm * kMicrometresPerMillimetre) / kMicrometresPerMillimetre;
}
inline double lattice_ceil(double mm) { return -lattice_floor(-mm); }

}  // namespace leeway
