// Inside a box with rounded corners, and inside all of several such boxes of one size: a bed with
// rounded corners, eroded by a spot that is no disc.

#include "geometry/distance/field.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "geometry/plane/assert.h"
#include "geometry/plane/infinity.h"
#include "geometry/plane/segment.h"
#include "geometry/plane/vector.h"

namespace leeway {
namespace {

// Nearer than this is on the line.
constexpr double kOnLine = 1e-9;
// Narrower than a rounding of leeways can tell from empty is not empty.
constexpr double kNoWidth = 5e-7;

struct Quarter {
  double x;
  double y;
};
constexpr Quarter kQuarters[] = {{-1, -1}, {1, -1}, {1, 1}, {-1, 1}};

Point corner_of(const Box& box, Quarter q) {
  return {q.x < 0 ? box.x0 : box.x1, q.y < 0 ? box.y0 : box.y1};
}

// Seen from a corner: how far outwards along both axes.
Point outwards(Point from_corner, Quarter q) { return {q.x * from_corner.x, q.y * from_corner.y}; }

// How far beyond the corner the farthest of the tangents whose outward normals m lie between the
// two axes reaches, guarded along its own: max (v . m + along(m)). `v` is as outwards() says.
double farthest_tangent(Point v, const Spread& spread) {
  // A normal outside the quarter of v is worse than its mirror image, so that all may be looked at.
  if (v.x >= 0 && v.y >= 0) return norm(v) + spread.within_disc(v);
  const auto reach = [&](double angle) {
    const Point m{std::cos(angle), std::sin(angle)};
    return dot(v, m) + spread.along(m);
  };
  // There may be more than one peak, as where both ends are higher than all between. So the search
  // by thirds begins at the best of many samples.
  constexpr int kSteps = 64;
  constexpr double kStep = std::numbers::pi / 2 / kSteps;
  int best = 0;
  for (int i = 1; i <= kSteps; ++i) {
    if (reach(i * kStep) > reach(best * kStep)) best = i;
  }
  double low = std::max(best - 1, 0) * kStep;
  double high = std::min(best + 1, kSteps) * kStep;
  for (int i = 0; i < 40; ++i) {
    const double third = (high - low) / 3;
    if (reach(low + third) >= reach(high - third)) {
      high -= third;
    } else {
      low += third;
    }
  }
  return std::max(reach(best * kStep), reach((low + high) / 2));
}

// What the sides and corners of one box leave a position.
struct Facing {
  double tightest = kInfinity;
  double guard_there = 0;
  double least = kInfinity;  // distance less guard

  void take(double distance, double guard) {
    if (distance < tightest) {
      tightest = distance;
      guard_there = guard;
    }
    least = std::min(least, distance - guard);
  }
};

class InsideRounded final : public Field {
 public:
  InsideRounded(const Box& core, double radius)
      : core_(core), radius_(radius), outside_core_(outside_box(core)) {}

  double distance(Point p) const override { return radius_ - outside_core_->distance(p); }
  void distances(const double* xs, const double* ys, double* out,
                 std::size_t count) const override {
    outside_core_->distances(xs, ys, out, count);
    for (std::size_t i = 0; i < count; ++i) out[i] = radius_ - out[i];
  }

  GuardedDistance guarded_distance(Point p, const Spread& spread) const override {
    Facing facing;
    look(p, spread, facing);
    const double away = distance(p);
    return {away, away < 0 ? facing.guard_there : away - facing.least};
  }

  double least_along(Point a, Point b) const override { return std::min(distance(a), distance(b)); }

  void look(Point p, const Spread& spread, Facing& facing) const {
    const double along_x = spread.along({1, 0});
    const double along_y = spread.along({0, 1});
    facing.take(p.x - core_.x0 + radius_, along_x);
    facing.take(core_.x1 + radius_ - p.x, along_x);
    facing.take(p.y - core_.y0 + radius_, along_y);
    facing.take(core_.y1 + radius_ - p.y, along_y);
    for (const Quarter q : kQuarters) {
      const Point v = outwards(p - corner_of(core_, q), q);
      const Point beyond{std::max(v.x, 0.0), std::max(v.y, 0.0)};
      const double length = norm(beyond);
      if (v.x > 0 && v.y > 0) {
        facing.take(radius_ - length, spread.within_disc(v));
      } else if (!spread.same_all_round() && radius_ - length - spread.most() < facing.least) {
        facing.least = std::min(facing.least, radius_ - farthest_tangent(v, spread));
      }
    }
  }

 private:
  Box core_;
  double radius_;
  FieldPtr outside_core_;
};

// A quarter of a circle that bounds the intersection, and from where to where it does.
struct QuarterArc {
  Point center;
  Quarter quarter;
  std::vector<Point> ends;
};

// A side of the box around the intersection, likewise.
struct Straight {
  Axis axis;
  double at;
  std::vector<Point> ends;
};

// The outline of the intersection: where arcs and sides meet in it.
class RoundedOutline {
 public:
  RoundedOutline(const Box& core, double radius, const std::vector<Point>& shifts)
      : radius_(radius) {
    for (const Point by : shifts) {
      all_.x0 = std::max(all_.x0, core.x0 - by.x - radius);
      all_.x1 = std::min(all_.x1, core.x1 - by.x + radius);
      all_.y0 = std::max(all_.y0, core.y0 - by.y - radius);
      all_.y1 = std::min(all_.y1, core.y1 - by.y + radius);
      for (const Quarter q : kQuarters) add_arc(corner_of(core, q) - by, q);
    }
    sides_ = {{Axis::x, all_.x0, {}},
              {Axis::x, all_.x1, {}},
              {Axis::y, all_.y0, {}},
              {Axis::y, all_.y1, {}}};
    if (all_.width() < -kNoWidth || all_.depth() < -kNoWidth) return;
    find_corners();
    if (corners_.empty()) {  // but for a rounding?
      tolerance_ = kNoWidth;
      find_corners();
    }
    keep_extremes();
  }

  bool empty() const { return corners_.empty(); }

  // From a position outside.
  double distance(Point p) const {
    double nearest = kInfinity;
    for (const Straight& side : sides_) {
      if (side.ends.empty()) continue;
      nearest =
          std::min(nearest, nearest_on_segment(side.ends.front(), side.ends.back(), p).distance);
    }
    for (const QuarterArc& arc : arcs_) nearest = std::min(nearest, distance_to(arc, p));
    return nearest;
  }

 private:
  // Where two of the sides and arcs meet there may be a corner. It is one if no copy of the box
  // leaves it out.
  void find_corners() {
    for (const Quarter q : kQuarters) take(corner_of(all_, q));
    for (std::size_t i = 0; i < arcs_.size(); ++i) meet_sides(arcs_[i]);
    for (std::size_t i = 0; i < arcs_.size(); ++i) {
      for (std::size_t j = 0; j < i; ++j) meet(arcs_[i], arcs_[j]);
    }
  }

  void add_arc(Point center, Quarter q) {
    // One that lies farther out in both directions bounds nothing.
    const auto beyond = [q](Point a, Point b) {
      const Point v = outwards(a - b, q);
      return v.x >= 0 && v.y >= 0;
    };
    const auto same_quarter = [q](const QuarterArc& arc) {
      return arc.quarter.x == q.x && arc.quarter.y == q.y;
    };
    for (const QuarterArc& arc : arcs_) {
      if (same_quarter(arc) && beyond(center, arc.center)) return;
    }
    arcs_.erase(std::remove_if(arcs_.begin(), arcs_.end(),
                               [&](const QuarterArc& arc) {
                                 return same_quarter(arc) && beyond(arc.center, center);
                               }),
                arcs_.end());
    arcs_.push_back({center, q, {}});
  }

  bool on_arc(const QuarterArc& arc, Point p) const {
    const Point v = outwards(p - arc.center, arc.quarter);
    return v.x >= -tolerance_ && v.y >= -tolerance_ && std::abs(norm(v) - radius_) <= tolerance_;
  }

  bool holds(Point p) const {
    if (p.x < all_.x0 - tolerance_ || p.x > all_.x1 + tolerance_ || p.y < all_.y0 - tolerance_ ||
        p.y > all_.y1 + tolerance_) {
      return false;
    }
    return std::all_of(arcs_.begin(), arcs_.end(), [&](const QuarterArc& arc) {
      const Point v = outwards(p - arc.center, arc.quarter);
      return v.x <= 0 || v.y <= 0 || norm(v) <= radius_ + tolerance_;
    });
  }

  void take(Point p) {
    if (holds(p)) corners_.push_back(p);
  }

  void meet_sides(const QuarterArc& arc) {
    const Point c = arc.center;
    take({c.x + arc.quarter.x * radius_, c.y});
    take({c.x, c.y + arc.quarter.y * radius_});
    for (const Straight& side : sides_) {
      const double off = side.at - (side.axis == Axis::x ? c.x : c.y);
      const double square = radius_ * radius_ - off * off;
      if (square < 0) continue;
      const double way = std::sqrt(square);
      const Point p = side.axis == Axis::x ? Point{side.at, c.y + arc.quarter.y * way}
                                           : Point{c.x + arc.quarter.x * way, side.at};
      if (on_arc(arc, p)) take(p);
    }
  }

  void meet(const QuarterArc& a, const QuarterArc& b) {
    const Point to = b.center - a.center;
    const double half = norm(to) / 2;
    if (half == 0 || half > radius_ + tolerance_) return;
    const double way = std::sqrt(std::max(radius_ * radius_ - half * half, 0.0));
    const Point middle = a.center + 0.5 * to;
    const Point across = (way / (2 * half)) * Point{-to.y, to.x};
    for (const Point p : {middle + across, middle - across}) {
      if (on_arc(a, p) && on_arc(b, p)) take(p);
    }
  }

  // Of an arc or a side the outline has one stretch: it is convex.
  void keep_extremes() {
    const auto stretch = [this](std::vector<Point>& ends, auto on, auto along) {
      for (const Point p : corners_) {
        if (!on(p)) continue;
        if (ends.empty()) ends = {p, p};
        if (along(p) < along(ends.front())) ends.front() = p;
        if (along(p) > along(ends.back())) ends.back() = p;
      }
    };
    for (Straight& side : sides_) {
      const bool upright = side.axis == Axis::x;
      stretch(
          side.ends, [&](Point p) { return std::abs((upright ? p.x : p.y) - side.at) <= kOnLine; },
          [&](Point p) { return upright ? p.y : p.x; });
    }
    for (QuarterArc& arc : arcs_) {
      stretch(
          arc.ends, [&](Point p) { return on_arc(arc, p); },
          [&](Point p) { return outwards(p - arc.center, arc.quarter).y; });
    }
  }

  double distance_to(const QuarterArc& arc, Point p) const {
    if (arc.ends.empty()) return kInfinity;
    const auto seen = [&](Point q) { return outwards(q - arc.center, arc.quarter); };
    const Point v = seen(p);
    const bool between =
        cross(seen(arc.ends.front()), v) >= 0 && cross(v, seen(arc.ends.back())) >= 0;
    if (between && v.x >= 0 && v.y >= 0) return std::abs(norm(v) - radius_);
    return std::min(norm(p - arc.ends.front()), norm(p - arc.ends.back()));
  }

  double radius_;
  double tolerance_ = kOnLine;  // how far beyond the outline is still on it
  Box all_{-kInfinity, kInfinity, -kInfinity, kInfinity};  // around the intersection
  std::vector<QuarterArc> arcs_;
  std::vector<Straight> sides_;
  std::vector<Point> corners_;
};

class InsideRoundeds final : public Field {
 public:
  InsideRoundeds(const Box& core, double radius, std::vector<Point> shifts, RoundedOutline outline)
      : one_(core, radius), shifts_(std::move(shifts)), outline_(std::move(outline)) {}

  double distance(Point p) const override {
    double inside = kInfinity;
    for (const Point by : shifts_) inside = std::min(inside, one_.distance(p + by));
    return inside >= 0 ? inside : -outline_.distance(p);
  }

  GuardedDistance guarded_distance(Point p, const Spread& spread) const override {
    Facing facing;
    for (const Point by : shifts_) one_.look(p + by, spread, facing);
    const double away = distance(p);
    return {away, away < 0 ? facing.guard_there : away - facing.least};
  }

  double least_along(Point a, Point b) const override { return std::min(distance(a), distance(b)); }

 private:
  InsideRounded one_;
  std::vector<Point> shifts_;
  RoundedOutline outline_;
};

}  // namespace

FieldPtr inside_rounded(const Box& core, double radius, const std::vector<Point>& shifts) {
  LEEWAY_ASSERT(!shifts.empty() && core.x0 <= core.x1 && core.y0 <= core.y1);
  if (shifts.size() == 1) {
    const Point by = shifts.front();
    return std::make_unique<InsideRounded>(
        Box{core.x0 - by.x, core.x1 - by.x, core.y0 - by.y, core.y1 - by.y}, radius);
  }
  RoundedOutline outline(core, radius, shifts);
  if (outline.empty()) return nullptr;
  return std::make_unique<InsideRoundeds>(core, radius, shifts, std::move(outline));
}

}  // namespace leeway
