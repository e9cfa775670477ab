// Signed distance to the boundary of polygons that need not be convex.

#include <algorithm>

#include "geometry/edge_set.h"
#include "geometry/field.h"
#include "geometry/infinity.h"
#include "geometry/measure.h"
#include "geometry/segment.h"
#include "geometry/wide.h"

namespace leeway {
namespace {

// An edge of the boundary; the allowed side is on its left.
struct BoundaryEdge {
  Point a;
  Point b;
  Point before;  // the start of the edge that leads here
  Point after;   // the end of the edge that follows
  double x_per_y = 0;
};

BoundaryEdge make_edge(Point before, Point a, Point b, Point after) {
  return {a, b, before, after, (b.x - a.x) / (b.y - a.y)};
}

// Whether an edge has a say at `p`, which has it at its left. Beyond an end where the allowed set
// has a convex corner its line still bounds that set: close by (twice the largest guard, farther
// out the neighbour asks for at least as much) it counts too.
bool faces(const BoundaryEdge& edge, Point p, double largest_guard) {
  const Point along = edge.b - edge.a;
  const double length = norm(along);
  const double at = dot(p - edge.a, along) / length;
  const double close = 2 * largest_guard;
  if (at < 0) return cross(edge.a - edge.before, along) > 0 && at >= -close;
  if (at > length) return cross(along, edge.after - edge.b) > 0 && at <= length + close;
  return true;
}

// -1 when a ray to the right crosses the edge, else 1. The half-open rule: a vertex on the ray
// counts for one of its edges only. Written without branches for the loops below.
inline double crossing(const BoundaryEdge& edge, double x, double y) {
  const double beyond_a = edge.a.y > y ? 1.0 : 0.0;
  const double beyond_b = edge.b.y > y ? 1.0 : 0.0;
  const double between = (beyond_a - beyond_b) * (beyond_a - beyond_b);
  const double left = x < edge.a.x + (y - edge.a.y) * edge.x_per_y ? 1.0 : 0.0;
  return 1.0 - 2.0 * between * left;
}

// Takes one edge into the signs.
LEEWAY_WIDE void take_crossing(BoundaryEdge edge, const double* __restrict xs,
                               const double* __restrict ys, double* __restrict signs,
                               std::size_t count) {
  for (std::size_t i = 0; i < count; ++i) signs[i] *= crossing(edge, xs[i], ys[i]);
}

LEEWAY_WIDE void multiply(const double* __restrict signs, double* __restrict values,
                          std::size_t count) {
  for (std::size_t i = 0; i < count; ++i) values[i] *= signs[i];
}

class PolygonsField final : public Field {
 public:
  PolygonsField(const MultiPolygon& polygons, bool allowed_inside)
      : sign_(allowed_inside ? 1.0 : -1.0) {
    for (const Polygon& polygon : polygons) {
      add(polygon.outer, allowed_inside);
      for (const Ring& hole : polygon.holes) add(hole, !allowed_inside);
    }
  }

  double distance(Point p) const override { return sign_at(p) * boundary_.distance(p); }

  void distances(const double* xs, const double* ys, double* out,
                 std::size_t count) const override {
    for (std::size_t at = 0; at < count; at += Block::kMost) {
      const std::size_t size = std::min(Block::kMost, count - at);
      block_distances(make_block(xs + at, ys + at, size), out + at);
    }
  }

  Room room(Point p, const Spread& spread) const override {
    const double away = distance(p);
    if (spread.same_all_round()) return {away, spread.most()};
    if (away < -Spread::kNoise) return {away, guard_of_nearest(p, spread)};
    const double guard = away - least_room_facing(p, spread);
    // On the boundary itself rounding decides which edges face the position.
    return {away, away > Spread::kNoise ? guard : std::max(guard, guard_of_nearest(p, spread))};
  }

  double least_along(Point a, Point b) const override;

 private:
  void add(const Ring& given, bool counter_clockwise) {
    Ring ring = normalized(given);
    if (!counter_clockwise) std::reverse(ring.begin(), ring.end());
    for (std::size_t i = 0; i < ring.size(); ++i) {
      edges_.push_back(make_edge(ring[(i + ring.size() - 1) % ring.size()], ring[i],
                                 ring[(i + 1) % ring.size()], ring[(i + 2) % ring.size()]));
      boundary_.add(edges_.back().a, edges_.back().b);
    }
  }

  // 1 where it is allowed, -1 elsewhere.
  double sign_at(Point p) const {
    double sign = -sign_;
    for (const BoundaryEdge& edge : edges_) sign *= crossing(edge, p.x, p.y);
    return sign;
  }

  void block_distances(const Block& block, double* out) const;
  double guard_of_nearest(Point p, const Spread& spread) const;
  double least_room_facing(Point p, const Spread& spread) const;

  double sign_;
  std::vector<BoundaryEdge> edges_;
  EdgeSet boundary_;
};

// Where the boundary is too far to be crossed the sign is the same for all positions of a block.
void PolygonsField::block_distances(const Block& block, double* out) const {
  const double from_middle = boundary_.distance(block.middle);
  boundary_.distances(block, from_middle, out);
  double signs[Block::kMost];
  const bool crossed = from_middle <= block.reach + EdgeSet::kDoubt;
  std::fill_n(signs, block.count, crossed ? -sign_ : sign_at(block.middle));
  if (crossed) {
    for (const BoundaryEdge& edge : edges_) {
      take_crossing(edge, block.xs, block.ys, signs, block.count);
    }
  }
  multiply(signs, out, block.count);
}

// The largest guard among the edges that are nearest: on a corner there are two.
double PolygonsField::guard_of_nearest(Point p, const Spread& spread) const {
  double nearest = kInfinity;
  double guard = 0;
  for (const BoundaryEdge& edge : edges_) {
    const SegmentNearness near = nearest_on_segment(edge.a, edge.b, p);
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

// The least of distance minus guard over the edges with `p` before them and the corners that stick
// out towards it.
double PolygonsField::least_room_facing(Point p, const Spread& spread) const {
  double least = kInfinity;
  for (const BoundaryEdge& edge : edges_) {
    const Point along = edge.b - edge.a;
    const double length = norm(along);
    const double away = cross(along, p - edge.a) / length;
    if (away >= 0 && faces(edge, p, spread.most())) {
      least = std::min(least, away - spread.along(right_of(along), length));
    }
    const Point v = p - edge.b;
    if (dot(v, along) > 0 && dot(v, edge.after - edge.b) < 0) {
      const double from_corner = norm(v);
      least = std::min(least, from_corner - spread.along(v, from_corner));
    }
  }
  return least;
}

double PolygonsField::least_along(Point a, Point b) const {
  // Between two crossings of the boundary the way is wholly inside or wholly outside.
  std::vector<double> stops = {0, 1};
  const Point way = b - a;
  for (const BoundaryEdge& edge : edges_) {
    const Point along = edge.b - edge.a;
    const double turn = cross(way, along);
    if (turn != 0) {
      stops.push_back(cross(edge.a - a, along) / turn);
    } else if (const double squared = dot(way, way); squared > 0) {
      stops.push_back(dot(edge.a - a, way) / squared);
      stops.push_back(dot(edge.b - a, way) / squared);
    }
  }
  std::sort(stops.begin(), stops.end());
  constexpr int kSamples = 8;
  double least = std::min(distance(a), distance(b));
  for (std::size_t i = 0; i + 1 < stops.size(); ++i) {
    const double from = std::max(stops[i], 0.0);
    const double to = std::min(stops[i + 1], 1.0);
    if (from >= to) continue;
    for (int k = 1; k < kSamples; ++k) {
      least = std::min(least, distance(a + (from + (to - from) * k / kSamples) * way));
    }
  }
  return least;
}

}  // namespace

FieldPtr inside_polygons(const MultiPolygon& polygons) {
  return std::make_unique<PolygonsField>(polygons, true);
}
FieldPtr outside_polygons(const MultiPolygon& polygons) {
  return std::make_unique<PolygonsField>(polygons, false);
}

}  // namespace leeway
