// Inside the intersection of discs of one radius: a round bed eroded by a polygonal spot.

#include "geometry/distance/field.h"

#include <algorithm>
#include <numbers>

#include "geometry/plane/infinity.h"
#include "geometry/plane/vector.h"

namespace leeway {
namespace {

// The part of a circle that bounds the intersection: directions middle - half .. middle + half.
struct Arc {
  Point center;
  double middle = 0;
  double half = std::numbers::pi;
};

double angle_between(double a, double b) { return std::remainder(a - b, 2 * std::numbers::pi); }

// Cuts the arc down to what lies inside a disc of the same radius around `other`. The inside part
// of a circle of equal radius is seen within less than a right angle of the direction to `other`.
bool cut_arc(Arc& arc, Point other, double radius) {
  const Point to = other - arc.center;
  const double apart = norm(to);
  if (apart == 0) return true;
  if (apart > 2 * radius) return false;
  const double direction = std::atan2(to.y, to.x);
  // Two circles of one radius cross half way between the centres: this far to either side.
  const double reach = std::acos(apart / (2 * radius));
  if (arc.half == std::numbers::pi) {
    arc.middle = direction;
    arc.half = reach;
    return true;
  }
  const double shift = angle_between(direction, arc.middle);
  const double low = std::max(-arc.half, shift - reach);
  const double high = std::min(arc.half, shift + reach);
  if (low > high) return false;
  arc.middle += (low + high) / 2;
  arc.half = (high - low) / 2;
  return true;
}

class InsideDiscs final : public Field {
 public:
  InsideDiscs(std::vector<Point> centers, double radius, std::vector<Arc> arcs)
      : centers_(std::move(centers)), radius_(radius), arcs_(std::move(arcs)) {}

  double distance(Point p) const override {
    double inside = kInfinity;
    for (Point center : centers_) inside = std::min(inside, radius_ - norm(p - center));
    return inside >= 0 ? inside : -distance_to_arcs(p);
  }

  GuardedDistance guarded_distance(Point p, const Spread& spread) const override {
    double tightest = kInfinity;
    double guard_there = 0;
    double least = kInfinity;
    for (Point center : centers_) {
      const Point v = p - center;
      const double length = norm(v);
      const double guard = spread.within_disc(v);
      if (radius_ - length < tightest) {
        tightest = radius_ - length;
        guard_there = guard;
      }
      least = std::min(least, radius_ - length - guard);
    }
    const double away = distance(p);
    // Outside, the rim that is missed most gives the normal, even where a corner stands nearest.
    return {away, away < 0 ? guard_there : away - least};
  }

  // The set is convex. Along a way the distance to its edge is concave, so least at an end.
  double least_along(Point a, Point b) const override { return std::min(distance(a), distance(b)); }

 private:
  double distance_to_arcs(Point p) const {
    double nearest = kInfinity;
    for (const Arc& arc : arcs_) {
      const Point v = p - arc.center;
      const double off = angle_between(std::atan2(v.y, v.x), arc.middle);
      const double direction = arc.middle + std::clamp(off, -arc.half, arc.half);
      const Point on = arc.center + radius_ * Point{std::cos(direction), std::sin(direction)};
      nearest = std::min(nearest, norm(p - on));
    }
    return nearest;
  }

  std::vector<Point> centers_;
  double radius_;
  std::vector<Arc> arcs_;
};

}  // namespace

FieldPtr inside_discs(const std::vector<Point>& centers, double radius) {
  std::vector<Arc> arcs;
  for (Point center : centers) {
    Arc arc{center};
    const bool bounds = std::all_of(centers.begin(), centers.end(),
                                    [&](Point other) { return cut_arc(arc, other, radius); });
    if (bounds) arcs.push_back(arc);
  }
  // A set with an edge has an arc on it: without any the discs share no point.
  if (arcs.empty()) return nullptr;
  return std::make_unique<InsideDiscs>(centers, radius, std::move(arcs));
}

}  // namespace leeway
