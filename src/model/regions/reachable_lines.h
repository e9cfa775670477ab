#pragma once
// Where positions are reachable though no region shows it: on lines along an axis.

#include <vector>

#include "geometry/areas/slices.h"
#include "geometry/distance/field.h"
#include "leeway/rig.h"

namespace leeway {

// A passage of no width, such as between a clip whose clearance ends where the edge distance does.
struct ReachableLine {
  Axis along = Axis::x;
  double at = 0;  // the other coordinate: whole hundredths
  Interval over;  // never too short
};

// Those next to straight sides of the reachable region, along x or y. Nothing for regions of more
// corners than would be worth the time.
std::vector<ReachableLine> reachable_lines(const Rig& rig);

}  // namespace leeway
