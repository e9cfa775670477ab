#pragma once
// Rings that cross once their vertices are rounded.

#include "leeway/geometry.h"

namespace leeway::overlay {

// Whether rounding left the rings as they were: none of them now crosses itself or another one, or
// touches where it did not before.
bool untangled(const MultiPolygon& before, const MultiPolygon& rounded);

}  // namespace leeway::overlay
