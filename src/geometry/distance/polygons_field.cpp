// Signed distance to the boundary of polygons that need not be convex.

#include "geometry/distance/field.h"

#include <algorithm>

#include "geometry/distance/polygons_distances.h"
#include "geometry/plane/infinity.h"
#include "geometry/plane/polygons.h"
#include "geometry/plane/segment.h"

namespace leeway {
namespace {

// An edge of the boundary; the allowed side is on its left.
struct BoundaryEdge {
  Point a;
  Point b;
  Point before;  // the start of the edge that leads here
  Point after;   // the end of the edge that follows
};

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

void append_edges(const Ring& given, bool counter_clockwise, std::vector<BoundaryEdge>& edges) {
  Ring ring = normalized(given);
  if (!counter_clockwise) std::reverse(ring.begin(), ring.end());
  for (std::size_t i = 0; i < ring.size(); ++i) {
    edges.push_back({ring[i], ring[(i + 1) % ring.size()],
                     ring[(i + ring.size() - 1) % ring.size()], ring[(i + 2) % ring.size()]});
  }
}

std::vector<BoundaryEdge> edges_of(const MultiPolygon& polygons, bool allowed_inside) {
  std::vector<BoundaryEdge> edges;
  for (const Polygon& polygon : polygons) {
    append_edges(polygon.outer, allowed_inside, edges);
    for (const Ring& hole : polygon.holes) append_edges(hole, !allowed_inside, edges);
  }
  return edges;
}

class PolygonsField final : public Field {
 public:
  PolygonsField(std::vector<BoundaryEdge> edges, double sign)
      : distances_(sign), edges_(std::move(edges)) {
    for (const BoundaryEdge& edge : edges_) distances_.add(edge.a, edge.b);
  }

  double distance(Point p) const override { return distances_.distance(p); }
  void distances(const double* xs, const double* ys, double* out,
                 std::size_t count) const override {
    distances_.distances(xs, ys, out, count);
  }
  GuardedDistance guarded_distance(Point p, const Spread& spread) const override {
    const double away = distance(p);
    if (spread.same_all_round()) return {away, spread.most()};
    if (away < -Spread::kNoise) return {away, guard_of_nearest(p, spread)};
    const double guard = away - least_after_guard_facing(p, spread);
    // On the boundary itself rounding decides which edges face the position.
    return {away, away > Spread::kNoise ? guard : std::max(guard, guard_of_nearest(p, spread))};
  }

  double least_along(Point a, Point b) const override;

 private:
  double guard_of_nearest(Point p, const Spread& spread) const;
  double least_after_guard_facing(Point p, const Spread& spread) const;

  PolygonsDistances distances_;
  std::vector<BoundaryEdge> edges_;
};

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
double PolygonsField::least_after_guard_facing(Point p, const Spread& spread) const {
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
  double beside = kInfinity;
  for (const BoundaryEdge& edge : edges_) {
    beside = std::min(beside, distance_between(edge.a, edge.b, a, b));
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
  // One look a stretch would do for the sign. The others are for the depth, which is sampled.
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
  // Past a corner that sticks out between two looks only the edges themselves tell.
  return least < 0 ? least : std::min(least, beside);
}

}  // namespace

FieldPtr inside_polygons(const MultiPolygon& polygons) {
  return std::make_unique<PolygonsField>(edges_of(polygons, true), -1);
}
FieldPtr outside_polygons(const MultiPolygon& polygons) {
  return std::make_unique<PolygonsField>(edges_of(polygons, false), 1);
}

}  // namespace leeway
