#pragma once
// Bringing polygons onto the lattice, in micrometres, and back; their boxes.

#include <vector>

#include "leeway/geometry.h"

namespace leeway::overlay {

// Whole micrometres; outer ring counter-clockwise, holes clockwise, each from its leftmost (then
// lowest) vertex on, no closing point, no repeated neighbours, no straight corners, no spikes.
// What has no area is left out. Throws OverlayFault when a coordinate is not a number.
MultiPolygon from_millimetres(const MultiPolygon& polygons);

// The same for coordinates that are micrometres already.
MultiPolygon rounded(const MultiPolygon& polygons);

// In mm and sorted, so that the order depends on the set of rings only.
MultiPolygon to_millimetres(MultiPolygon polygons);

// By first vertex, then the next.
bool before(const Polygon& a, const Polygon& b);

// Whether no coordinate is infinite or not a number.
bool finite(const MultiPolygon& polygons);

// What the steps of the overlay take for granted; for assertions.
bool is_whole(const MultiPolygon& polygons);
// Outer rings to the left, holes to the right. Slivers below 1 um2 may wind either way: Boost
// leaves such where crossings lie off the lattice.
bool winds_right(const MultiPolygon& polygons);

// Twice the signed area. Exact for whole micrometres.
double twice_area(const Ring& ring);

Box box_of(const Polygon& polygon);
Box box_of(const MultiPolygon& polygons);

// Closed boxes: a shared edge or corner counts.
bool touch(const Box& a, const Box& b);

// Whether `inner` lies in `outer`: says so only when it is certain and cheap to find out.
bool surely_inside(const Polygon& inner, const Polygon& outer);

}  // namespace leeway::overlay
