#pragma once
// The head at one place: what that is worth, and how far it is to the limits that bind there.

#include <cstddef>
#include <vector>

#include "leeway/limits.h"
#include "leeway/rig.h"
#include "leeway/setup.h"

namespace leeway {

// Where a limit has its end, seen from a position: what a dimension line joins. In mm. The line is
// as long as the leeway; it leads from the part of the head that comes nearest to where that part
// may be at most, or, where the leeway is below 0, must go back to.
struct Dimension {
  std::size_t limit = 0;
  LimitReading reading;
  Point from;
  Point to;
};

// What a picture of the head at one place shows.
struct HeadPlace {
  Point probe;
  Finding finding;
  // Of the limits that bind: those that are not met, the most missed first; if all are met those
  // without their guard; else the one that decides. Limits that no position meets have no line and
  // are left out.
  std::vector<Dimension> dimensions;

  static constexpr std::size_t kMostDimensions = 4;
};

// The head with the probe at `probe`. `limits` are those of the setup. What is no position
// (limits.h) is unreachable.
HeadPlace place_head(const Rig& rig, Point probe);

}  // namespace leeway
