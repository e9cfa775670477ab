#include "geometry/distance/convex_distance.h"

#include <limits>

#include "geometry/plane/assert.h"
#include "geometry/plane/segment.h"

namespace leeway {
namespace {

// The least depth below any edge, negated: exact inside, where it is the distance to the boundary.
ConvexDistance beyond_edges(const Ring& ring, Point p) {
  ConvexDistance best{-std::numeric_limits<double>::infinity(), {}};
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const Point along = ring[(i + 1) % ring.size()] - ring[i];
    const double beyond = cross(p - ring[i], along) / norm(along);
    if (beyond > best.distance) best = {beyond, right_of(along)};
  }
  return best;
}

}  // namespace

ConvexDistance convex_distance(const Ring& ring, Point p) {
  LEEWAY_ASSERT(!ring.empty());
  if (ring.size() >= 3) {
    const ConvexDistance inside = beyond_edges(ring, p);
    if (inside.distance < 0) return inside;
  }
  // Outside a line may come nearer than its edge does, so the edges themselves are asked.
  ConvexDistance best{std::numeric_limits<double>::infinity(), {}};
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const SegmentNearness near = nearest_on_segment(ring[i], ring[(i + 1) % ring.size()], p);
    if (near.distance < best.distance) best = {near.distance, near.normal};
  }
  return best;
}

}  // namespace leeway
