#pragma once
// Union, intersection and difference of polygons on the lattice of whole micrometres.
//
// Every coordinate that goes in must be a whole number of micrometres (see micrometres.h), and
// every coordinate that comes out is one; in between they are micrometres kept in double, which is
// where Boost.Geometry was measured to be most robust (DEVELOPERS.md). No step is trusted
// unchecked: before it is rounded, a sweep that uses no overlay measures the area where it differs
// from what its operands prescribe, and what it covers twice. That must be no more than doubles
// lose. The area identities |A - B| + |A and B| = |A| and |A or B| + |A and B| = |A| + |B| follow
// from it. A step that fails, or whose rings would cross once rounded, is done again by snap
// rounding with exact decisions.
//
// Where edges cross off the lattice the vertex is rounded to the nearest whole micrometre. So an
// edge that ends there lies up to 0.71 um beside the true one, to either side; whoever must be on
// the safe side leaves that much. Strips thinner than this may vanish. Edges that end at given
// vertices only stay exact, but for one case: where rounding would make rings cross, any edge may
// be bent by up to 0.71 um.
//
// A result has its outer rings counter-clockwise, its holes clockwise, no closing points, no
// straight corners, and an order that does not depend on the order of the operands. Its rings do
// not cross; they may touch each other at vertices, seldom themselves, and the inside of one
// polygon may so fall apart. Rings that go in may touch likewise.
//
// All three throw OverlayFault when no way holds.

#include <vector>

#include "leeway/geometry.h"

namespace leeway {

// The union of polygons that may overlap, touch or coincide.
MultiPolygon unite(const std::vector<Polygon>& parts);

// What of `a` is not inside `b`. REQUIRES: the polygons of `a`, and those of `b`, do not overlap
// among themselves (the result of `unite` will do).
MultiPolygon subtract(const MultiPolygon& a, const MultiPolygon& b);

// REQUIRES: as for subtract.
MultiPolygon intersect(const MultiPolygon& a, const MultiPolygon& b);

}  // namespace leeway
