#pragma once
// Random shapes that a setup may hold, on a lattice of whole units so that edges, corners and
// slants of different shapes can meet exactly.
//
// Every coordinate is a whole number of units, kept in double; `in_mm` divides by the units per
// millimetre, which gives the very doubles a reader gets from decimals such as 12.34.

#include "judges/random.h"
#include "leeway/geometry.h"

namespace leeway::judges {

enum class Outline {
  rectangle,
  chamfered,    // 45 degree corners
  rectilinear,  // L, U, T, cross: not convex
  slanted,      // triangles and quadrilaterals
  star,         // not convex, edges in all directions
  round         // 16 to 64 vertices on a circle, convex
};

// A simple ring inside a box, in either winding. REQUIRES: the box is at least 8 units either way.
Ring random_ring(Random& random, Outline outline, const Box& within);

enum class Touching : bool { no, yes };

// The same with up to three holes. Holes lie inside; with Touching::yes one may touch the outer
// ring, or its neighbour, at a single vertex, so that the interior stays connected.
Polygon random_polygon(Random& random, Outline outline, const Box& within,
                       Touching holes = Touching::yes);

// Two polygons: side by side, corner to corner, or one inside a hole of the other.
MultiPolygon random_multi_polygon(Random& random, Outline outline, const Box& within);

// A convex ring of `sides` vertices near a circle, in units.
Ring round_ring(Point center, double radius, int sides);

// Whether no two edges meet other than neighbours at their common vertex. By trying all pairs.
bool is_simple(const Ring& ring);

Shape in_mm(const Shape& shape, double units_per_mm);

}  // namespace leeway::judges
