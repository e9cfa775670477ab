#pragma once
// Whether rings and polygons given by a person describe a plane area.

#include <cstddef>
#include <optional>
#include <vector>

#include "leeway/geometry.h"

namespace leeway {

struct RingFault {
  enum class Kind { too_few_vertices, no_area, self_crossing } kind;
  std::size_t edge_a = 0;  // edge i runs from vertex i to the next
  std::size_t edge_b = 0;
  Point place;  // where, for self_crossing
};

// Nothing when the ring is simple. A ring may be given in either winding and with or without the
// closing point, and with repeated neighbours; it may not cross or touch itself, nor run back along
// itself. Closer than 1e-9 mm is touching: that is what decimals lose in binary.
// Of several crossings one is told. Edges are counted in the ring as given.
std::optional<RingFault> ring_fault(const Ring& ring);

struct PolygonFault {
  enum class Kind { hole_outside, holes_overlap, polygons_overlap } kind;
  std::size_t a = 0;  // the hole or polygon at fault
  std::size_t b = 0;  // the earlier one that it overlaps, of an overlap
  Point place;        // a point where it shows
};

// The faults of a polygon's holes, at most one of each kind for a hole; and of the polygons of a
// multi-polygon, at most one for a polygon. Holes may touch the outer ring, and each other, at
// points; polygons may touch at points, and one may lie in a hole of another. A shared length of
// boundary counts as overlap (OGC 06-103r4, clause 6.1.11 and 6.1.14; from memory).
// REQUIRES: every ring is simple (see ring_fault).
std::vector<PolygonFault> polygon_faults(const Polygon& polygon);
std::vector<PolygonFault> polygons_faults(const MultiPolygon& polygons);

// The ring without the closing point and without repeated neighbours.
Ring without_repeats(const Ring& ring);

}  // namespace leeway
