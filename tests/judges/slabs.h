#pragma once
// Polygons cut at the x of every vertex into trapezoids, by the even-odd rule. GEOS's own
// triangulation fails where holes touch each other or the outer ring.

#include <vector>

#include "leeway/geometry.h"

namespace leeway::judges {

std::vector<Ring> slabs(const std::vector<Ring>& rings);

}  // namespace leeway::judges
