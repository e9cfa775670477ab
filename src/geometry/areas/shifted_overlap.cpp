#include "geometry/areas/shifted_overlap.h"

#include <algorithm>
#include <cmath>

#include "geometry/plane/assert.h"
#include "geometry/plane/polygons.h"
#include "geometry/plane/vector.h"

namespace leeway {

std::vector<ShiftedOverlap::Edge> ShiftedOverlap::edges_of(const MultiPolygon& region) {
  std::vector<Edge> edges;
  const auto add = [&edges](const Ring& ring, bool outer) {
    // Windings are put right here: counter-clockwise outside, clockwise inside.
    const double turn = (signed_area(ring) > 0) == outer ? 1 : -1;
    for (std::size_t i = 0; i < ring.size(); ++i) {
      const Point a = ring[i];
      const Point b = ring[(i + 1) % ring.size()];
      // Nothing lies below a level edge: it adds nothing to an integral over y.
      if (a.y == b.y) continue;
      const double slope = (b.x - a.x) / (b.y - a.y);
      edges.push_back(a.y < b.y ? Edge{a, b, slope, turn} : Edge{b, a, slope, -turn});
    }
  };
  for (const Polygon& polygon : region) {
    add(polygon.outer, true);
    for (const Ring& hole : polygon.holes) add(hole, false);
  }
  std::sort(edges.begin(), edges.end(),
            [](const Edge& a, const Edge& b) { return a.low.y < b.low.y; });
  return edges;
}

ShiftedOverlap::ShiftedOverlap(const MultiPolygon& fixed, const MultiPolygon& moved)
    : fixed_(edges_of(fixed)), moved_(edges_of(moved)) {}

// One row of shifts in the making.
class ShiftedOverlap::Row {
 public:
  Row(const Steps& xs, double y, std::span<double> areas)
      : xs_(xs),
        y_(y),
        areas_(areas),
        per_step_(1 / xs.step()),
        slopes_(areas.size() + 1, 0.0),
        constants_(areas.size() + 1, 0.0) {
    std::fill(areas_.begin(), areas_.end(), 0.0);
  }

  void take(const Edge& fixed, const Edge& moved) {
    // The heights that both edges span.
    const double low = std::max(fixed.low.y, moved.low.y + y_);
    const double high = std::min(fixed.high.y, moved.high.y + y_);
    if (low >= high) return;
    const double d0 = fixed.x_at(low) - moved.x_at(low - y_);
    const double d1 = fixed.x_at(high) - moved.x_at(high - y_);
    const double least = std::min(d0, d1);
    if (least >= xs_.to) return;
    const double most = std::max(d0, d1);
    const double weight = -fixed.sign * moved.sign * (high - low);
    const std::size_t straight = first_at_or_after(most);
    // The parabola, at the shifts that lie on it.
    const double curve = weight / (2 * (most - least));
    for (std::size_t i = first_at_or_after(least); i < straight; ++i) {
      const double beyond = xs_.at(static_cast<int>(i)) - least;
      areas_[i] += curve * beyond * beyond;
    }
    // The straight rest is put down where it begins, and summed up by finish(): a pair costs its
    // parabola, not every shift beyond it.
    slopes_[straight] += weight;
    constants_[straight] -= weight * (least + most) / 2;
  }

  // A running sum turns the lines that begin at each shift into those that hold there. What
  // rounding leaves below 0 is no area.
  void finish() {
    double slope = 0;
    double constant = 0;
    for (std::size_t i = 0; i < areas_.size(); ++i) {
      slope += slopes_[i];
      constant += constants_[i];
      areas_[i] = std::max(0.0, areas_[i] + slope * xs_.at(static_cast<int>(i)) + constant);
    }
  }

 private:
  // At the shift itself parabola and line agree, so that rounding here does no harm.
  std::size_t first_at_or_after(double x) const {
    const double steps = std::ceil((x - xs_.from) * per_step_);
    if (steps <= 0) return 0;
    return std::min(areas_.size(), static_cast<std::size_t>(std::min(steps, 1e9)));
  }

  const Steps& xs_;
  double y_;
  std::span<double> areas_;
  double per_step_;
  std::vector<double> slopes_;  // the lines that begin at a shift
  std::vector<double> constants_;
};

void ShiftedOverlap::row(const Steps& xs, double y, std::span<double> areas) const {
  LEEWAY_ASSERT(xs.count >= 1 && areas.size() == static_cast<std::size_t>(xs.count));
  Row row(xs, y, areas);
  // Upward; an edge meets those that are open when it begins.
  std::vector<const Edge*> open_fixed;
  std::vector<const Edge*> open_moved;
  const auto meet = [](std::vector<const Edge*>& open, double begins, double shift,
                       const auto& take) {
    std::size_t kept = 0;
    for (const Edge* edge : open) {
      if (edge->high.y + shift <= begins) continue;
      open[kept++] = edge;
      take(*edge);
    }
    open.resize(kept);
  };
  std::size_t f = 0;
  std::size_t m = 0;
  while (f < fixed_.size() || m < moved_.size()) {
    const bool fixed_next =
        m == moved_.size() || (f < fixed_.size() && fixed_[f].low.y <= moved_[m].low.y + y);
    if (fixed_next) {
      const Edge& edge = fixed_[f++];
      meet(open_moved, edge.low.y, y, [&](const Edge& other) { row.take(edge, other); });
      open_fixed.push_back(&edge);
    } else {
      const Edge& edge = moved_[m++];
      meet(open_fixed, edge.low.y + y, 0, [&](const Edge& other) { row.take(other, edge); });
      open_moved.push_back(&edge);
    }
  }
  row.finish();
}

namespace {

// Twice the area, with sign, of the triangle (0, a, b) within the disc of this radius around 0.
// What of the edge is outside the disc is replaced by the arc that one sees behind it from the
// centre: a sector. (Green's theorem along the boundary of what is left.)
double edge_part(Point a, Point b, double radius) {
  const double squared = radius * radius;
  const bool a_in = dot(a, a) <= squared;
  const bool b_in = dot(b, b) <= squared;
  // A disc is convex: between two points inside all is inside.
  if (a_in && b_in) return cross(a, b);
  const auto sector = [squared](Point u, Point v) {
    return squared * std::atan2(cross(u, v), dot(u, v));
  };
  // Where the line a + t (b - a) meets the circle.
  const Point along = b - a;
  const double length2 = dot(along, along);
  if (length2 == 0) return 0;
  const double middle = -dot(a, along) / length2;
  const Point foot = a + middle * along;
  const double below = squared - dot(foot, foot);
  if (below <= 0) return sector(a, b);
  const double half = std::sqrt(below / length2);
  const double enter = middle - half;
  const double leave = middle + half;
  // The line meets the disc, but before or behind the edge.
  if (!a_in && !b_in && (enter >= 1 || leave <= 0)) return sector(a, b);
  const Point in = a + enter * along;
  const Point out = a + leave * along;
  if (a_in) return cross(a, out) + sector(out, b);
  if (b_in) return sector(a, in) + cross(in, b);
  return sector(a, in) + cross(in, out) + sector(out, b);
}

double nearest_squared(const Box& box, Point p) {
  const double dx = std::max({0.0, box.x0 - p.x, p.x - box.x1});
  const double dy = std::max({0.0, box.y0 - p.y, p.y - box.y1});
  return dx * dx + dy * dy;
}

double farthest_squared(const Box& box, Point p) {
  const double dx = std::max(p.x - box.x0, box.x1 - p.x);
  const double dy = std::max(p.y - box.y0, box.y1 - p.y);
  return dx * dx + dy * dy;
}

}  // namespace

DiscOverlap::DiscOverlap(const MultiPolygon& region, double radius) : radius_(radius) {
  LEEWAY_ASSERT(radius > 0);
  const auto add = [this](const Ring& ring, bool outer) {
    if (ring.size() < 3) return;
    rings_.push_back(build(ring, 0, ring.size(), (signed_area(ring) > 0) != outer));
  };
  for (const Polygon& polygon : region) {
    add(polygon.outer, true);
    for (const Ring& hole : polygon.holes) add(hole, false);
  }
}

// A tree over each ring: whole stretches of it lie inside the disc, or outside, and are counted as
// one.
int DiscOverlap::build(const Ring& ring, std::size_t from, std::size_t to, bool reversed) {
  Stretch stretch;
  if (to - from == 1) {
    const std::size_t n = ring.size();
    const Point a = reversed ? ring[n - 1 - from] : ring[from];
    const Point b = reversed ? ring[(2 * n - 2 - from) % n] : ring[(from + 1) % n];
    stretch = {bounding_box(Ring{a, b}), a, b, cross(a, b), -1, -1};
  } else {
    const std::size_t middle = (from + to) / 2;
    const int left = build(ring, from, middle, reversed);
    const int right = build(ring, middle, to, reversed);
    const Stretch& l = stretches_[static_cast<std::size_t>(left)];
    const Stretch& r = stretches_[static_cast<std::size_t>(right)];
    const Box box{std::min(l.box.x0, r.box.x0), std::max(l.box.x1, r.box.x1),
                  std::min(l.box.y0, r.box.y0), std::max(l.box.y1, r.box.y1)};
    stretch = {box, l.first, r.last, l.crosses + r.crosses, left, right};
  }
  stretches_.push_back(stretch);
  return static_cast<int>(stretches_.size()) - 1;
}

double DiscOverlap::part(int index, Point center) const {
  const Stretch& stretch = stretches_[static_cast<std::size_t>(index)];
  const double squared = radius_ * radius_;
  if (farthest_squared(stretch.box, center) <= squared) {
    // The sum of cross products about another centre differs by what the ends alone say.
    return stretch.crosses - cross(center, stretch.last - stretch.first);
  }
  if (nearest_squared(stretch.box, center) >= squared) {
    // A box that leaves the centre out is seen under less than half a turn.
    const Point u = stretch.first - center;
    const Point v = stretch.last - center;
    return squared * std::atan2(cross(u, v), dot(u, v));
  }
  if (stretch.left < 0) {
    return edge_part(stretch.first - center, stretch.last - center, radius_);
  }
  return part(stretch.left, center) + part(stretch.right, center);
}

double DiscOverlap::area(Point center) const {
  double twice = 0;
  for (const int ring : rings_) twice += part(ring, center);
  return std::max(0.0, twice / 2);
}

}  // namespace leeway
