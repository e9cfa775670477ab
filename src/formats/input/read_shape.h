#pragma once
// Shapes: rectangle, disc, polygon, well-known text.

#include "formats/input/fields.h"
#include "leeway/geometry.h"

namespace leeway {

// What of it can be read; a point where nothing can. What is amiss with its JSON is noted, whether
// it makes an area is for validate() to say. Polygons come without closing points and repeated
// neighbours.
Shape read_shape(JsonValue value, const Slot& slot);

// Bounds [low, high] along an axis (SetupDetail::x or y) of a rectangle or a grid. What could not
// be read is kUnread.
void read_interval(JsonValue value, SetupDetail axis, const Slot& slot, Box& into);

}  // namespace leeway
