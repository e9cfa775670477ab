#pragma once
// Minkowski sums: a set swept by another. Exact: the non-convex is split into convex pieces at
// its own vertices, pieces are added pairwise, and the sum is their union.
// (de Berg et al., Computational Geometry, ch. 13: the sum of convex P and Q is convex, with at
// most as many edges as P and Q together.)

#include <vector>

#include "leeway/geometry.h"

namespace leeway {

// Convex rings, counter-clockwise, with disjoint interiors, whose union is the input. Every vertex
// of theirs is a vertex of the input. Accepts any winding, holes, holes touching the outer ring or
// each other at a vertex, repeated neighbours and straight corners.
// Throws OverlayFault where rings cross. (Rings that only rounding makes cross, as coordinates
// finer than a picometre may, are cut into trapezoids, whose corners are not all vertices of the
// input.)
std::vector<Ring> convex_pieces(const MultiPolygon& polygons);

// 0.1 + 0.2 is 0.3: the nearest doubles to the decimals, where the sum of decimals is one.
Point decimal_sum(Point a, Point b);

// The sum of two convex counter-clockwise rings, counter-clockwise, no straight corners. A ring of
// one or two points is a point or a segment.
Ring convex_sum(const Ring& a, const Ring& b);

// The sum of every piece of `a` with every piece of `b`; their union is the sum of the unions.
std::vector<Ring> sum_pieces(const std::vector<Ring>& a, const std::vector<Ring>& b);

// The sum as polygons with holes, on the lattice of whole micrometres: exact for vertices that are
// whole micrometres. Throws OverlayFault (see overlay.h).
MultiPolygon minkowski_sum(const MultiPolygon& a, const MultiPolygon& b);

}  // namespace leeway
