#pragma once
// What a mesh covers of the printable region.

#include "leeway/check.h"
#include "leeway/regions.h"

namespace leeway {

// `mesh` is the box of the grid, where the probe shall be.
Coverage coverage_of(const MultiPolygon& printable, const Box& mesh);

}  // namespace leeway
