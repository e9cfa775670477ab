#pragma once
// The offsets that a map may have.

#include "leeway/geometry.h"

namespace leeway {

// Throws BracketRefused as coverage_map.h says.
void require_map_steps(const Steps& x, const Steps& y);

}  // namespace leeway
