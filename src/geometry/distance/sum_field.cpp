// Outside a Minkowski sum, by its convolution.
//
// Whether a position is covered, its winding number says. Outside, the distance is the least to any
// edge that may bound the sum: all of them belong to it. Inside, it is that to the exposed parts.
// So a mistake about what is exposed could make nothing reachable.

#include "geometry/distance/field.h"

#include <algorithm>

#include "geometry/convex/sum.h"
#include "geometry/distance/edge_set.h"
#include "geometry/plane/infinity.h"
#include "geometry/plane/segment.h"

namespace leeway {
namespace {

class OutsideSum final : public Field {
 public:
  OutsideSum(SharedSum sum, std::vector<Segment> exposed, const Box* frame)
      : sum_(std::move(sum)), exposed_(std::move(exposed)) {
    if (frame) frame_ = *frame;
    for (const ConvolutionEdge& e : sum_->edges) {
      if (e.of_left_turn) edges_.add(e.a, e.b);
    }
    for (const Segment& s : exposed_) boundary_.add(s.a, s.b);
    outline_ = sum_->outline.empty() ? outside_pieces(sum_->pieces, frame)
                                     : outside_polygons(sum_->outline);
  }

  double distance(Point p) const override {
    return covered(p) ? -boundary_.distance(p) : beside(edges_.distance(p), p);
  }
  void distances(const double* xs, const double* ys, double* out,
                 std::size_t count) const override {
    for (std::size_t at = 0; at < count; at += Block::kMost) {
      const std::size_t size = std::min(Block::kMost, count - at);
      block_distances(make_block(xs + at, ys + at, size), out + at);
    }
  }

  GuardedDistance guarded_distance(Point p, const Spread& spread) const override {
    const double away = distance(p);
    if (spread.same_all_round() || !outline_) return {away, spread.most()};
    return {away, outline_->guarded_distance(p, spread).guard};
  }

  double least_along(Point a, Point b) const override;

 private:
  bool covered(Point p) const {
    return (frame_ && outside_frame(*frame_, p)) || sum_->windings.at(p) > 0;
  }
  // Of a position round which nothing winds. In a closed slit it is covered all the same.
  double beside(double distance, Point p) const {
    return distance > kSeam ? distance : -boundary_.distance(p);
  }
  void block_distances(const Block& block, double* out) const;

  SharedSum sum_;
  std::vector<Segment> exposed_;
  std::optional<Box> frame_;
  EdgeSet boundary_;  // what is exposed
  EdgeSet edges_;     // all that may be
  FieldPtr outline_;  // which knows which way it faces; of pieces where no outline was to be had
};

void OutsideSum::block_distances(const Block& block, double* out) const {
  const bool inside = covered(block.middle);
  const EdgeSet& there = inside ? boundary_ : edges_;
  const double from_middle = there.distance(block.middle);
  if (from_middle > block.reach + EdgeSet::kDoubt) {
    there.distances(block, from_middle, out);
    for (std::size_t i = 0; inside && i < block.count; ++i) out[i] = -out[i];
    return;
  }
  for (std::size_t i = 0; i < block.count; ++i) out[i] = distance({block.xs[i], block.ys[i]});
}

double OutsideSum::least_along(Point a, Point b) const {
  // Between two places where it meets edges the way is wholly covered or not at all.
  std::vector<double> stops = {0, 1};
  const Point way = b - a;
  const double squared = dot(way, way);
  double beside = kInfinity;
  const auto look_at = [&](const Segment& edge) {
    const double away = distance_between(edge.a, edge.b, a, b);
    beside = std::min(beside, away);
    if (away > kSeam || squared == 0) return;
    const double turn = cross(way, edge.b - edge.a);
    if (turn != 0) stops.push_back(cross(edge.a - a, edge.b - edge.a) / turn);
    stops.push_back(dot(edge.a - a, way) / squared);
    stops.push_back(dot(edge.b - a, way) / squared);
  };
  for (const ConvolutionEdge& e : sum_->edges) {
    if (e.of_left_turn) look_at({e.a, e.b});
  }
  std::sort(stops.begin(), stops.end());
  double least = std::min(distance(a), distance(b));
  for (std::size_t i = 0; i + 1 < stops.size(); ++i) {
    const double from = std::max(stops[i], 0.0);
    const double to = std::min(stops[i + 1], 1.0);
    if (from < to) least = std::min(least, distance(a + ((from + to) / 2) * way));
  }
  return least < -kSeam ? least : std::min(least, beside);
}

}  // namespace

FieldPtr outside_sum(SharedSum sum, const Box* frame) {
  std::vector<Segment> exposed = sum->exposed;
  if (frame) drop_beyond(*frame, exposed);
  if (exposed.empty()) return frame ? nullptr : nowhere();
  return std::make_unique<OutsideSum>(std::move(sum), std::move(exposed), frame);
}

}  // namespace leeway
