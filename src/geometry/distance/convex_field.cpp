// Outside one convex ring.

#include "geometry/distance/field.h"

#include "geometry/distance/convex_distance.h"
#include "geometry/distance/pieces_distances.h"
#include "geometry/plane/assert.h"

namespace leeway {
namespace {

PiecesDistances distances_outside(const Ring& ring) {
  const std::vector<Piece> pieces = {make_piece(ring)};
  return {pieces, exposed_edges(pieces), std::nullopt};
}

class OutsideConvex final : public Field {
 public:
  explicit OutsideConvex(Ring ring) : distances_(distances_outside(ring)), ring_(std::move(ring)) {}

  double distance(Point p) const override { return distances_.distance(p); }
  void distances(const double* xs, const double* ys, double* out,
                 std::size_t count) const override {
    distances_.distances(xs, ys, out, count);
  }
  GuardedDistance guarded_distance(Point p, const Spread& spread) const override {
    const ConvexDistance near = convex_distance(ring_, p);
    return {near.distance, spread.along(near.normal, norm(near.normal))};
  }
  // The distance is convex along the way.
  double least_along(Point a, Point b) const override {
    return least_convex([this](Point p) { return convex_distance(ring_, p).distance; }, a, b);
  }

 private:
  // The same way for one position and for many, so that both give the same bits. The ring is for
  // the normals.
  PiecesDistances distances_;
  Ring ring_;
};

}  // namespace

FieldPtr outside_convex(Ring ring) {
  LEEWAY_ASSERT(ring.size() >= 3);
  return std::make_unique<OutsideConvex>(std::move(ring));
}

}  // namespace leeway
