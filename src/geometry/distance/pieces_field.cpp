// Outside a union of convex pieces, with all that a limit is asked for.

#include "geometry/distance/field.h"

#include <algorithm>

#include "geometry/distance/convex_distance.h"
#include "geometry/distance/pieces_distances.h"
#include "geometry/plane/assert.h"
#include "geometry/plane/infinity.h"
#include "geometry/plane/segment.h"

namespace leeway {
namespace {

class OutsidePieces final : public Field {
 public:
  OutsidePieces(std::vector<Piece> pieces, std::vector<Segment> exposed, const Box* frame)
      : distances_(pieces, exposed, frame ? std::optional<Box>(*frame) : std::nullopt),
        pieces_(std::move(pieces)),
        exposed_(std::move(exposed)) {}

  double distance(Point p) const override { return distances_.distance(p); }
  void distances(const double* xs, const double* ys, double* out,
                 std::size_t count) const override {
    distances_.distances(xs, ys, out, count);
  }
  GuardedDistance guarded_distance(Point p, const Spread& spread) const override {
    const double away = distance(p);
    if (spread.same_all_round()) return {away, spread.most()};
    if (away < -kSeam) return {away, guard_of_exposed(p, spread)};
    // Guards differ by no more than most less least. A piece that is farther off than the nearest
    // by more than that cannot decide.
    const double reach = away + spread.most() - spread.least() + EdgeSet::kDoubt;
    double least = kInfinity;
    for (const Piece& piece : pieces_) {
      if (box_distance(piece.box, p) > reach) continue;
      const ConvexDistance near = convex_distance(piece.ring, p);
      least = std::min(least, near.distance - spread.along(near.normal, norm(near.normal)));
    }
    // On the boundary itself rounding decides which side of a piece is the nearest.
    const double guard = away - least;
    return {away, away > kSeam ? guard : std::max(guard, guard_of_exposed(p, spread))};
  }

  double least_along(Point a, Point b) const override {
    double least = std::min(distance(a), distance(b));
    for (const Piece& piece : pieces_) {
      if (box_distance(piece.box, a) - leeway::distance(a, b) > std::max(least, kSeam)) continue;
      least = std::min(
          least,
          least_convex([&](Point p) { return convex_distance(piece.ring, p).distance; }, a, b));
    }
    return least > kSeam || least < -kSeam ? least : least_touching(a, b, least);
  }

 private:
  // The largest guard among the exposed edges that are nearest.
  double guard_of_exposed(Point p, const Spread& spread) const {
    double nearest = kInfinity;
    double guard = spread.most();
    for (const Segment& s : exposed_) {
      const SegmentNearness near = nearest_on_segment(s.a, s.b, p);
      const double here = spread.along(near.normal, norm(near.normal));
      if (near.distance < nearest - Spread::kNoise) {
        guard = here;
        nearest = near.distance;
      } else if (near.distance < nearest + Spread::kNoise) {
        guard = std::max(guard, here);
      }
    }
    return guard;
  }

  // The way touches pieces without entering any. Where it runs in the seam between two of them the
  // union covers it all the same: look between the places where it meets edges.
  double least_touching(Point a, Point b, double least) const {
    const Point way = b - a;
    std::vector<double> stops = {0, 1};
    for (const Piece& piece : pieces_) {
      for (Point vertex : piece.ring) {
        if (const double squared = dot(way, way); squared > 0) {
          const double t = dot(vertex - a, way) / squared;
          if (t > 0 && t < 1) stops.push_back(t);
        }
      }
    }
    std::sort(stops.begin(), stops.end());
    for (std::size_t i = 0; i + 1 < stops.size(); ++i) {
      least = std::min(least, distance(a + ((stops[i] + stops[i + 1]) / 2) * way));
    }
    return least;
  }

  PiecesDistances distances_;
  std::vector<Piece> pieces_;
  std::vector<Segment> exposed_;
};

}  // namespace

FieldPtr outside_pieces(std::vector<Ring> rings, const Box* frame) {
  LEEWAY_ASSERT(!rings.empty());
  if (rings.size() == 1 && !frame) return outside_convex(std::move(rings.front()));
  std::vector<Piece> pieces;
  pieces.reserve(rings.size());
  for (Ring& ring : rings) pieces.push_back(make_piece(std::move(ring)));
  std::vector<Segment> exposed = exposed_edges(pieces);
  if (frame) drop_beyond(*frame, exposed);
  if (frame && exposed.empty()) return nullptr;
  return std::make_unique<OutsidePieces>(std::move(pieces), std::move(exposed), frame);
}

}  // namespace leeway
