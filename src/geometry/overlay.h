#pragma once
// Union, intersection and difference of polygons on the lattice of whole micrometres.
//
// Every coordinate that goes in must be a whole number of micrometres (see lattice.h), and every
// coordinate that comes out is one; in between they are micrometres kept in double, which is
// where Boost.Geometry was measured to be most robust (DEVELOPERS.md). No result is trusted
// unchecked: the area identities |A - B| + |A and B| = |A| and |A or B| + |A and B| = |A| + |B|
// must hold, otherwise the work is tried again another way.
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
