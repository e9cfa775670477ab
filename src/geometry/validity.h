#pragma once
// Whether rings and polygons given by a person describe a plane area.

#include <cstddef>
#include <optional>

#include "leeway/geometry.h"

namespace leeway {

struct RingFault {
  enum class Kind { too_few_vertices, no_area, self_crossing } kind;
  std::size_t edge_a = 0;  // edge i runs from vertex i to the next
  std::size_t edge_b = 0;
  Point place;  // where, for self_crossing
};

// Nothing when the ring is simple. A ring may be given in either winding and with or without the
// closing point; it may not cross or touch itself, nor run back along itself.
std::optional<RingFault> ring_fault(const Ring& ring);

struct PolygonFault {
  enum class Kind { hole_outside, holes_overlap, polygons_overlap } kind;
  std::size_t a = 0;  // the hole or polygon at fault
  std::size_t b = 0;  // the other one, of an overlap
  Point place;
};

// REQUIRES: every ring is simple (see ring_fault). Holes may touch the outer ring, and each other,
// at points.
std::optional<PolygonFault> polygon_fault(const Polygon& polygon);
std::optional<PolygonFault> polygons_fault(const MultiPolygon& polygons);

}  // namespace leeway
