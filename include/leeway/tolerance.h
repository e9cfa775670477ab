#pragma once
// How far a bracket may be off once it is printed and fitted.

#include "leeway/geometry.h"

namespace leeway {

// The offset that is built lies within `round` of the one that was meant, in any direction, or
// within `box.x` along x and `box.y` along y at the same time, or within the sum of both. In mm,
// none below 0.
struct Tolerance {
  double round = 0;
  Point box;

  bool none() const { return round == 0 && box == Point{}; }
  Point most() const { return {round + box.x, round + box.y}; }
};

}  // namespace leeway
