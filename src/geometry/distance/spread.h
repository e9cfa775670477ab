#pragma once
// How far a position may be off, by direction.

#include <algorithm>
#include <cmath>

#include "leeway/geometry.h"

namespace leeway {

// Along the unit normal n the standard uncertainty is
//   u = sqrt((n_x x)^2 + (n_y y)^2 + all^2)      (law of propagation, JCGM 100:2008, 5.1.2)
// and the guard is factor * u (expanded uncertainty, JCGM 100:2008, 6.2.1). All in mm.
struct Spread {
  double factor = 0;
  double x = 0;
  double y = 0;
  double all = 0;

  double along(Point n) const {
    const double u_x = n.x * x;
    const double u_y = n.y * y;
    return factor * std::sqrt(u_x * u_x + u_y * u_y + all * all);
  }
  // `length` is the length of `v`, which need not be a unit vector. A length of nothing but
  // rounding noise has no direction: then the largest.
  double along(Point v, double length) const {
    return length > kNoise ? along((1 / length) * v) : most();
  }
  static constexpr double kNoise = 1e-9;
  // The guard of a position at `v` from the centre of a disc that it must stay in: how far beyond v
  // the farthest tangent reaches when each is guarded along its own normal,
  //   max over unit m of (v . m + along(m)) - |v|.
  // It is along(v) when the spread is the same all round, and more otherwise: on a rim the tangent
  // that is nearest need not be the one that decides.
  double within_disc(Point v) const;

  bool same_all_round() const { return x == y; }
  double most() const { return factor * std::hypot(std::max(x, y), all); }
  double least() const { return factor * std::hypot(std::min(x, y), all); }
};

}  // namespace leeway
