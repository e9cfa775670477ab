#pragma once
// One step of an overlay, believed only when its area is right.

#include "geometry/overlay/overlay_steps.h"

namespace leeway::overlay {

// What the engine's attempt says, when that is right; otherwise what its last resort says of the
// operands on whole micrometres, which is checked too. Vertices may lie off the lattice, also those
// of the operands. Throws OverlayFault when neither is right.
MultiPolygon checked(Operation operation, const MultiPolygon& a, const MultiPolygon& b,
                     Engine& engine);

// A checked answer on whole micrometres. Where rounding would make its rings cross the last resort
// takes them apart again.
MultiPolygon settled(const MultiPolygon& answer, Engine& engine);

}  // namespace leeway::overlay
