// Outside one convex ring, which may be a point or a segment.

#include "geometry/distance/convex_distance.h"
#include "geometry/distance/measured_field.h"
#include "geometry/distance/near_edges.h"
#include "geometry/distance/pieces_distances.h"

namespace leeway {
namespace {

std::unique_ptr<Distances> distances_outside(const Ring& ring) {
  if (ring.size() >= 3) {
    const std::vector<Piece> pieces = {make_piece(ring)};
    return std::make_unique<PiecesDistances>(pieces, exposed_edges(pieces), std::nullopt);
  }
  EdgeSet edges;
  edges.add(ring.front(), ring.back());
  return std::make_unique<NearEdges>(std::move(edges), 1);
}

class OutsideConvex final : public MeasuredField {
 public:
  explicit OutsideConvex(Ring ring)
      : MeasuredField(distances_outside(ring)), ring_(std::move(ring)) {}

  Room room(Point p, const Spread& spread) const override {
    const ConvexDistance near = convex_distance(ring_, p);
    return {near.distance, spread.along(near.normal, norm(near.normal))};
  }
  // The distance is convex along the way.
  double least_along(Point a, Point b) const override {
    return least_convex([this](Point p) { return convex_distance(ring_, p).distance; }, a, b);
  }

 private:
  Ring ring_;
};

}  // namespace

FieldPtr outside_convex(Ring ring) { return std::make_unique<OutsideConvex>(std::move(ring)); }

}  // namespace leeway
