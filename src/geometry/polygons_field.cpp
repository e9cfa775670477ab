// Signed distance to the boundary of polygons that need not be convex.

#include <algorithm>
#include <limits>

#include "geometry/field.h"
#include "geometry/measure.h"
#include "geometry/segment.h"

namespace leeway {
namespace {

constexpr double kInfinity = std::numeric_limits<double>::infinity();

// An edge of the boundary; the allowed side is on its left.
struct Edge {
  Point a;
  Point b;
  Point after;  // the end of the edge that follows
};

class PolygonsField final : public Field {
 public:
  PolygonsField(const MultiPolygon& polygons, bool allowed_inside)
      : sign_(allowed_inside ? 1 : -1) {
    for (const Polygon& polygon : polygons) {
      add(polygon.outer, allowed_inside);
      for (const Ring& hole : polygon.holes) add(hole, !allowed_inside);
    }
  }

  double distance(Point p) const override {
    double squared = kInfinity;
    bool inside = false;
    for (const Edge& edge : edges_) {
      squared = std::min(squared, squared_distance(edge, p));
      inside ^= crosses_ray(edge, p);
    }
    const double away = std::sqrt(squared);
    return inside == (sign_ > 0) ? away : -away;
  }

  Room room(Point p, const Spread& spread) const override {
    const double away = distance(p);
    if (spread.same_all_round()) return {away, spread.most()};
    if (away < Spread::kNoise) return {away, guard_of_nearest(p, spread)};
    return {away, away - least_room_facing(p, spread)};
  }

  double least_along(Point a, Point b) const override;

 private:
  void add(const Ring& given, bool counter_clockwise) {
    Ring ring = normalized(given);
    if (!counter_clockwise) std::reverse(ring.begin(), ring.end());
    for (std::size_t i = 0; i < ring.size(); ++i) {
      edges_.push_back({ring[i], ring[(i + 1) % ring.size()], ring[(i + 2) % ring.size()]});
    }
  }

  static double squared_distance(const Edge& edge, Point p) {
    const Point along = edge.b - edge.a;
    const Point v = p - edge.a;
    const double t = std::clamp(dot(v, along) / dot(along, along), 0.0, 1.0);
    const Point rest = v - t * along;
    return dot(rest, rest);
  }

  // The half-open rule: a vertex on the ray counts for one of its edges only.
  static bool crosses_ray(const Edge& edge, Point p) {
    if ((edge.a.y > p.y) == (edge.b.y > p.y)) return false;
    const double at = edge.a.x + (p.y - edge.a.y) * (edge.b.x - edge.a.x) / (edge.b.y - edge.a.y);
    return p.x < at;
  }

  double guard_of_nearest(Point p, const Spread& spread) const;
  double least_room_facing(Point p, const Spread& spread) const;

  int sign_;
  std::vector<Edge> edges_;
};

// The largest guard among the edges that are nearest: on a corner there are two.
double PolygonsField::guard_of_nearest(Point p, const Spread& spread) const {
  double nearest = kInfinity;
  double guard = 0;
  for (const Edge& edge : edges_) {
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
  for (const Edge& edge : edges_) {
    const Point along = edge.b - edge.a;
    const double t = dot(p - edge.a, along);
    if (t >= 0 && t <= dot(along, along)) {
      const double length = norm(along);
      const double away = cross(along, p - edge.a) / length;
      if (away >= 0) least = std::min(least, away - spread.along(right_of(along), length));
    }
    const Point v = p - edge.b;
    if (dot(v, along) > 0 && dot(v, edge.after - edge.b) < 0) {
      const double away = norm(v);
      least = std::min(least, away - spread.along(v, away));
    }
  }
  return least;
}

double PolygonsField::least_along(Point a, Point b) const {
  // Between two crossings of the boundary the way is wholly inside or wholly outside.
  std::vector<double> stops = {0, 1};
  const Point way = b - a;
  for (const Edge& edge : edges_) {
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
