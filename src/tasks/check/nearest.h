#pragma once
// The nearest position that works.

#include "leeway/limits.h"
#include "leeway/regions.h"

namespace leeway {

// The position of the reachable region nearest to `probe`, in whole micrometres and itself verified
// as reachable by the limits; nothing when the region is empty. The region is a polygon on the
// safe side: in the few thousandths of a millimetre between it and the true one a nearer position
// may exist.
std::optional<Point> nearest_reachable(const MultiPolygon& guarded, const Limits& limits,
                                       Point probe);

}  // namespace leeway
