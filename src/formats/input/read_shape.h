#pragma once
// Shapes: rectangle, disc, polygon, well-known text.

#include <optional>

#include "formats/json/json_file.h"
#include "leeway/geometry.h"

namespace leeway {

// Nothing where a fault was noted. Polygons come without closing points and repeated neighbours,
// and describe a plane area (validity.h).
std::optional<Shape> read_shape(JsonValue value);

// Bounds [low, high] of a rectangle or a grid, low before high; equal ones are allowed on request.
struct CoordinateBounds {
  double low = 0;
  double high = 0;
};
std::optional<CoordinateBounds> read_interval(JsonValue value, bool equal_allowed = false);

}  // namespace leeway
