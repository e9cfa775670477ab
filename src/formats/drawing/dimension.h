#pragma once
// Where a limit has its end, seen from a position: what a dimension line joins.

#include <cmath>
#include <optional>
#include <vector>

#include "leeway/limits.h"
#include "leeway/setup.h"

namespace leeway {

// Of the way from the origin to a point.
inline double length_of(Point p) { return std::hypot(p.x, p.y); }

// In mm. The line is as long as the leeway; it leads from the part of the head that comes nearest
// to where that part may be at most, or, where the leeway is below 0, must go back to.
struct Dimension {
  std::size_t limit = 0;
  LimitReading reading;
  Point from;
  Point to;
};

// The limits that bind with the probe there: those that are not met, the most missed first; if all
// are met those without their guard; else the one that decides. At most `most`. Limits that no
// position meets have no line and are left out.
std::vector<Dimension> binding_dimensions(const Setup& setup, const Limits& limits, Point probe,
                                          std::size_t most);

}  // namespace leeway
