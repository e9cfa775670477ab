#include "geometry/growth/growth.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "geometry/convex/exposed.h"
#include "geometry/plane/micrometres.h"
#include "geometry/plane/polygons.h"
#include "geometry/plane/vector.h"

namespace leeway {
namespace {

// Rounding to the lattice moves a point by at most half the diagonal of a square micrometre; a
// little more makes up for what chords lose when their ends are moved sideways.
constexpr double kLatticeRounding = 0.0009;

// By how much neighbouring parts overlap, several times what rounding can move.
constexpr double kOverlap = 0.003;

Point direction(double angle) { return {std::cos(angle), std::sin(angle)}; }

// The point `by` away from `p` along the unit vector n, on the lattice and not nearer.
Point moved_out(Point p, Point n, double by) {
  if (n.y == 0)
    return {n.x > 0 ? lattice_ceil(p.x + by) : lattice_floor(p.x - by), to_lattice(p.y)};
  if (n.x == 0)
    return {to_lattice(p.x), n.y > 0 ? lattice_ceil(p.y + by) : lattice_floor(p.y - by)};
  return to_lattice(p + (by + kLatticeRounding) * n);
}

// How many chords a circle needs so that they stay within `tolerance` of it:
// sagitta r (1 - cos(pi / n)) inscribed, r (1 / cos(pi / n) - 1) circumscribed.
int chords(double radius, double tolerance) {
  const double half = std::acos(radius / (radius + tolerance));
  return std::clamp(static_cast<int>(std::ceil(std::numbers::pi / half)), 8, 100'000);
}

// The points from direction `from` to direction `to` (counter-clockwise, less than half a turn)
// around a corner, such that the chords between them, and from them to the two ends, stay outside
// the growth. The ends are where the edges on either side of the corner end.
class Fan {
 public:
  Fan(Point corner, const Growth& growth, double from, double to)
      : corner_(corner), growth_(growth), round_(growth.spread.same_all_round()), from_(from) {
    // A growth that varies bends more than a circle: it gets shorter chords, half of the tolerance
    // for raising them, and points at the two ends too.
    const double full = round_ ? chords(growth.most(), 0.8 * kCircleTolerance)
                               : 4.0 * chords(growth.most(), kCircleTolerance / 2);
    const int count =
        std::max(1, static_cast<int>(std::ceil((to - from) / (2 * std::numbers::pi) * full)));
    const double step = (to - from) / count;
    if (round_) {
      count_ = count;
      step_ = step;
      return;
    }
    ends_ = {Polar{from, reach(from)}, Polar{to, reach(to)}};
    points_.push_back(ends_[0]);
    for (int i = 0; i < count; ++i) {
      const double angle = from + (i + 0.5) * step;
      points_.push_back({angle, reach(angle)});
    }
    points_.push_back(ends_[1]);
    raise();
  }

  void append_to(Ring& ring) const {
    if (round_) {
      append_round(ring);
      return;
    }
    for (const Polar& p : points_) {
      const double radius = p.radius + kLatticeRounding * steepness(p.angle);
      ring.push_back(to_lattice(corner_ + radius * direction(p.angle)));
    }
  }

 private:
  struct Polar {
    double angle;
    double radius;
  };

  double reach(double angle) const { return growth_.along(direction(angle)); }

  // Chords that touch the circle, the first and the last where the edges end. Each direction is the
  // one before turned by a step, which loses far less than the lattice.
  void append_round(Ring& ring) const {
    const double by = growth_.most();
    const double radius = by / std::cos(step_ / 2) + kLatticeRounding;
    const Point turn = direction(step_);
    // Such growth reaches farthest along the axes: what rounding puts beyond that is taken back, so
    // that sides parallel to an axis stay exact.
    const Box box{lattice_floor(corner_.x - by), lattice_ceil(corner_.x + by),
                  lattice_floor(corner_.y - by), lattice_ceil(corner_.y + by)};
    Point way = direction(from_ + step_ / 2);
    for (int i = 0; i < count_; ++i) {
      const Point p = to_lattice(corner_ + radius * way);
      ring.push_back({std::clamp(p.x, box.x0, box.x1), std::clamp(p.y, box.y0, box.y1)});
      way = {way.x * turn.x - way.y * turn.y, way.x * turn.y + way.y * turn.x};
    }
  }

  // How much farther along the radius than across the curve, where the curve is oblique to it.
  double steepness(double angle) const {
    constexpr double kStep = 1e-4;
    const double slope = (reach(angle + kStep) - reach(angle - kStep)) / (2 * kStep);
    return std::hypot(1, slope / std::max(reach(angle), 1e-3));
  }

  // Raises the points until no chord cuts into the growth, judged at a few directions each. An end
  // is fixed: there the other point must raise the chord alone.
  void raise() {
    std::vector<double> by(points_.size(), 0.0);
    for (std::size_t i = 0; i + 1 < points_.size(); ++i) {
      const double missing = missing_between(points_[i], points_[i + 1], nullptr);
      by[i] = std::max(by[i], missing);
      by[i + 1] = std::max(by[i + 1], missing);
    }
    by.front() = std::max(by.front(), missing_between(points_.front(), ends_[0], &ends_[0]));
    by.back() = std::max(by.back(), missing_between(points_.back(), ends_[1], &ends_[1]));
    for (std::size_t i = 0; i < points_.size(); ++i) points_[i].radius += 1.2 * by[i];
  }

  // The most that the chord from `a` to `b` lacks; if `b` is the fixed end, what `a` must make up.
  double missing_between(const Polar& a, const Polar& b, const Polar* fixed) const {
    constexpr int kSamples = 8;
    double most = 0;
    if (a.angle == b.angle) return most;
    for (int k = 1; k < kSamples; ++k) {
      const double t = static_cast<double>(k) / kSamples;
      const double lacks = reach(a.angle + t * (b.angle - a.angle)) - chord_radius(a, b, t);
      most = std::max(most, fixed ? lacks / (1 - t) : lacks);
    }
    return most;
  }

  // The radius at which the chord is met at fraction t of its angle.
  static double chord_radius(const Polar& a, const Polar& b, double t) {
    const double angle = b.angle - a.angle;
    return a.radius * b.radius * std::sin(angle) /
           (a.radius * std::sin(t * angle) + b.radius * std::sin((1 - t) * angle));
  }

  Point corner_;
  const Growth& growth_;
  bool round_;
  double from_;
  int count_ = 0;  // of the points of a round one, and the angle between them
  double step_ = 0;
  std::array<Polar, 2> ends_{};
  std::vector<Polar> points_;
};

// Walks around a corner from normal to normal. Directions parallel to an axis are edges of no
// length, so that the extent of a rounded corner is exact.
void append_corner(Ring& ring, Point corner, Point from, Point to, const Growth& growth) {
  double at = std::atan2(from.y, from.x);
  double end = std::atan2(to.y, to.x);
  if (end < at) end += 2 * std::numbers::pi;
  constexpr double kQuarter = std::numbers::pi / 2;
  constexpr double kSame = 1e-9;
  ring.push_back(moved_out(corner, from, growth.along(from)));
  for (double axis = std::floor(at / kQuarter + kSame) * kQuarter + kQuarter; axis < end - kSame;
       axis += kQuarter) {
    Fan(corner, growth, at, axis).append_to(ring);
    const Point exact{std::round(std::cos(axis)), std::round(std::sin(axis))};
    ring.push_back(moved_out(corner, exact, growth.along(exact)));
    at = axis;
  }
  if (end - at > kSame && growth.most() > 0) Fan(corner, growth, at, end).append_to(ring);
  ring.push_back(moved_out(corner, to, growth.along(to)));
}

Point normal_of(Point a, Point b) { return unit(right_of(b - a)); }

void drop_repeats(Ring& ring) {
  ring.erase(std::unique(ring.begin(), ring.end()), ring.end());
  while (ring.size() > 1 && ring.front() == ring.back()) ring.pop_back();
}

// A growth that also makes up for what the lattice may take from the ring itself. Where something
// grows, that is nothing at a corner that the ring closes in on: the edges there are moved out by
// themselves, and cross.
Growth with_lattice_rounding(const Ring& ring, Growth growth) {
  for (std::size_t i = 0; i < ring.size(); ++i) {
    if (on_lattice(ring[i])) continue;
    const Point before = ring[(i + ring.size() - 1) % ring.size()];
    const bool closes_in = cross(before, ring[i], ring[(i + 1) % ring.size()]) < 0;
    if (closes_in && growth.most() > 0) continue;
    growth.base += kLatticeRounding;
    break;
  }
  return growth;
}

Ring lattice_ring(Ring ring) {
  for (Point& p : ring) p = to_lattice(p);
  return ring;
}

bool grows(const Growth& growth) { return growth.most() > 0; }

// The strip along an edge, to the right of it. It reaches a little across the edge and beyond its
// ends: strips, corners and polygon overlap, so that rounding can open no crack between them.
Polygon strip(Point a, Point b, Point n, double by) {
  const Point across = kOverlap * n;
  Ring ring{a - across, moved_out(a, n, by), moved_out(b, n, by), b - across};
  for (Point& p : ring) p = to_lattice(p);
  return {std::move(ring), {}};
}

// How far the strip of an edge goes on beyond an end, where the ring turns by `turn`: into a corner
// that it closes in on, a growth that varies bounds the other side with both lines (see
// inside_polygons in field.h, which does the same).
double going_on(double turn, const Growth& growth) {
  const bool closes_in = turn < 0 && !growth.spread.same_all_round();
  return closes_in ? 2 * growth.spread.most() : kOverlap;
}

// Half way from one unit normal to the next, on the outside of a corner that may turn back.
Point between_normals(Point n, Point next) {
  const Point sum = n + next;
  return norm(sum) > 1e-6 ? unit(sum) : Point{-n.y, n.x};
}

// The strips along a ring and the fans at its corners, to the right of its direction.
void append_strips(const Ring& ring, const Growth& wanted, std::vector<Polygon>& parts) {
  const Growth growth = with_lattice_rounding(ring, wanted);
  if (!grows(growth)) return;
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const Point before = ring[(i + ring.size() - 1) % ring.size()];
    const Point a = ring[i];
    const Point b = ring[(i + 1) % ring.size()];
    const Point c = ring[(i + 2) % ring.size()];
    const Point n = normal_of(a, b);
    const Point along = unit(b - a);
    if (const double by = growth.along(n); by > 0) {
      parts.push_back(strip(a - going_on(cross(a - before, b - a), growth) * along,
                            b + going_on(cross(b - a, c - b), growth) * along, n, by));
    }
    if (cross(b - a, c - b) > 0) {
      const Point next = normal_of(b, c);
      Ring fan{to_lattice(b - kOverlap * between_normals(n, next))};
      append_corner(fan, b, n, next, growth);
      drop_repeats(fan);
      if (fan.size() >= 3) parts.push_back({std::move(fan), {}});
    }
  }
}

// The way round what is within the growth of a ring, to the right of it: moved edges, fans at the
// corners. Where it closes in on a corner the way goes there and back: what strips and fans cover
// it then winds round, and round nothing else.
void append_way(const Ring& ring, const Growth& growth, std::vector<ConvolutionEdge>& edges) {
  Ring out;
  std::vector<bool> inner;  // of the edges that start at the points of `out`
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const Point a = ring[i];
    const Point b = ring[(i + 1) % ring.size()];
    const Point c = ring[(i + 2) % ring.size()];
    if (cross(b - a, c - b) > 0) {
      append_corner(out, b, normal_of(a, b), normal_of(b, c), growth);
      inner.resize(out.size(), false);
    } else {
      const double by = growth.most();
      out.insert(out.end(),
                 {moved_out(b, normal_of(a, b), by), b, moved_out(b, normal_of(b, c), by)});
      inner.insert(inner.end(), {true, true, false});
    }
  }
  for (std::size_t i = 0; i < out.size(); ++i) {
    const Point next = out[(i + 1) % out.size()];
    if (!(out[i] == next)) edges.push_back({out[i], next, !inner[i]});
  }
}

// The rings of polygons with the growing side to their right: outer counter-clockwise, holes
// clockwise, or the other way round to grow inwards.
std::vector<Ring> directed_rings(const MultiPolygon& polygons, bool outwards) {
  std::vector<Ring> rings;
  const auto add = [&](const Ring& given, bool counter_clockwise) {
    Ring ring = normalized(given);
    if (!counter_clockwise) std::reverse(ring.begin(), ring.end());
    rings.push_back(std::move(ring));
  };
  for (const Polygon& polygon : polygons) {
    add(polygon.outer, outwards);
    for (const Ring& hole : polygon.holes) add(hole, !outwards);
  }
  return rings;
}

// One outline for all, where that can be had.
std::vector<Polygon> grown_not_convex(const Polygon& polygon, const Growth& wanted) {
  const std::vector<Ring> rings = directed_rings({polygon}, true);
  // Only a growth that is the same all round makes ways that close. Else strips and fans cover it,
  // and may stay parts that overlap.
  if (wanted.spread.same_all_round()) {
    std::vector<ConvolutionEdge> edges;
    for (const Ring& ring : rings) {
      if (const Growth growth = with_lattice_rounding(ring, wanted); grows(growth)) {
        append_way(ring, growth, edges);
      } else {
        append_ring(lattice_ring(ring), edges);
      }
    }
    if (std::optional<MultiPolygon> outline = outline_of_ways(edges)) return *std::move(outline);
  }
  std::vector<Polygon> parts = snapped({polygon});
  for (const Ring& ring : rings) append_strips(ring, wanted, parts);
  if (std::optional<MultiPolygon> outline = outline_of_union(parts)) return *std::move(outline);
  return parts;
}

// How far from the centre of a disc a position may be in direction d, when every tangent is guarded
// along its own normal (see Spread::within_disc): the greatest r with r + guard(r) <= allowed.
double radius_within(double radius, const Growth& growth, Point d) {
  if (growth.spread.same_all_round()) return radius - growth.most();
  const double allowed = radius - growth.base;
  const auto guard = [&](double r) { return growth.spread.within_disc(r * d); };
  double low = 0;
  double high = radius - growth.along(d);
  // The farther out, the smaller the guard: what the guard at a safe place leaves is a safe place
  // farther out. From the largest guard on, a few steps come as near as bisection would.
  constexpr double kNear = 1e-9;
  double next = allowed - growth.spread.most();
  for (int i = 0; i < 8 && next > low; ++i) {
    const double step = next - low;
    low = next;
    if (step < kNear) return low;
    next = allowed - guard(low);
  }
  for (int i = 0; i < 40 && high - low > kNear; ++i) {
    const double middle = (low + high) / 2;
    (middle + guard(middle) <= allowed ? low : high) = middle;
  }
  return low;
}

}  // namespace

Ring circumscribed(Disc disc, double tolerance) {
  const int n = chords(disc.radius, tolerance);
  const double radius = disc.radius / std::cos(std::numbers::pi / n);
  Ring ring;
  for (int i = 0; i < n; ++i) {
    ring.push_back(disc.center + radius * direction((2 * i + 1) * std::numbers::pi / n));
  }
  return ring;
}

Ring inscribed(Disc disc, double tolerance) {
  const int n = chords(disc.radius, tolerance);
  Ring ring;
  for (int i = 0; i < n; ++i) {
    ring.push_back(disc.center + disc.radius * direction(2 * i * std::numbers::pi / n));
  }
  return ring;
}

Polygon grown_convex(const Ring& ring, const Growth& wanted) {
  const Growth growth = with_lattice_rounding(ring, wanted);
  if (!grows(growth)) return {lattice_ring(ring), {}};
  Ring out;
  // A point has no edges: its circle is walked as two half turns.
  if (ring.size() == 1) {
    append_corner(out, ring[0], {1, 0}, {-1, 0}, growth);
    append_corner(out, ring[0], {-1, 0}, {1, 0}, growth);
  } else {
    for (std::size_t i = 0; i < ring.size(); ++i) {
      const Point a = ring[i];
      const Point b = ring[(i + 1) % ring.size()];
      const Point c = ring[(i + 2) % ring.size()];
      append_corner(out, b, normal_of(a, b), normal_of(b, c), growth);
    }
  }
  drop_repeats(out);
  // Convex when the growth is the same all round, but for rounding.
  if (growth.spread.same_all_round()) out = convex_hull(std::move(out));
  return {std::move(out), {}};
}

std::vector<Polygon> grown(const MultiPolygon& polygons, const Growth& growth) {
  std::vector<Polygon> parts;
  for (const Polygon& polygon : polygons) {
    if (polygon.holes.empty() && is_convex(polygon.outer)) {
      parts.push_back(grown_convex(normalized(polygon.outer), growth));
      continue;
    }
    for (Polygon& part : grown_not_convex(polygon, growth)) parts.push_back(std::move(part));
  }
  return parts;
}

std::vector<Polygon> rim(const MultiPolygon& polygons, const Growth& growth) {
  std::vector<Polygon> parts;
  for (const Ring& ring : directed_rings(polygons, false)) append_strips(ring, growth, parts);
  return parts;
}

MultiPolygon snapped(MultiPolygon polygons) {
  for (Polygon& polygon : polygons) {
    polygon.outer = lattice_ring(std::move(polygon.outer));
    for (Ring& hole : polygon.holes) hole = lattice_ring(std::move(hole));
  }
  return polygons;
}

std::optional<Polygon> shrunk_box(const Box& box, const Growth& growth) {
  const double by_x = growth.along({1, 0});
  const double by_y = growth.along({0, 1});
  const Box left{lattice_ceil(box.x0 + by_x), lattice_floor(box.x1 - by_x),
                 lattice_ceil(box.y0 + by_y), lattice_floor(box.y1 - by_y)};
  if (left.x0 >= left.x1 || left.y0 >= left.y1) return std::nullopt;
  return to_polygon(left);
}

std::optional<Polygon> shrunk_rounded(const Box& core, double radius, double by) {
  const double left = radius - by;
  const Box box{core.x0 + by - radius, core.x1 - by + radius, core.y0 + by - radius,
                core.y1 - by + radius};
  if (left <= 0) return shrunk_box(box, {});
  const Box inner{lattice_ceil(box.x0), lattice_floor(box.x1), lattice_ceil(box.y0),
                  lattice_floor(box.y1)};
  if (inner.x0 >= inner.x1 || inner.y0 >= inner.y1) return std::nullopt;
  Ring ring;
  const int steps = (chords(left, kCircleTolerance) + 3) / 4;
  const Point corners[] = {
      {core.x1, core.y1}, {core.x0, core.y1}, {core.x0, core.y0}, {core.x1, core.y0}};
  for (int quarter = 0; quarter < 4; ++quarter) {
    const Point c = corners[quarter];
    // Where the sides end, on the sides themselves.
    const Point ends[] = {{inner.x1, to_lattice(c.y)},
                          {to_lattice(c.x), inner.y1},
                          {inner.x0, to_lattice(c.y)},
                          {to_lattice(c.x), inner.y0}};
    ring.push_back(ends[quarter]);
    for (int i = 1; i < steps; ++i) {
      const double angle = (quarter + static_cast<double>(i) / steps) * std::numbers::pi / 2;
      ring.push_back(to_lattice(c + std::max(left - kLatticeRounding, 0.0) * direction(angle)));
    }
    ring.push_back(ends[(quarter + 1) % 4]);
  }
  ring = convex_hull(std::move(ring));
  if (ring.size() < 3) return std::nullopt;
  return Polygon{std::move(ring), {}};
}

std::optional<Polygon> shrunk_disc(Disc disc, const Growth& growth) {
  if (growth.most() >= disc.radius) return std::nullopt;
  // A multiple of four, so that the extent along the axes is right.
  const int n = (chords(disc.radius, kCircleTolerance) + 3) / 4 * 4;
  Ring ring;
  for (int i = 0; i < n; ++i) {
    const Point d = direction(2 * i * std::numbers::pi / n);
    const double radius =
        radius_within(disc.radius, growth, d) - (i % (n / 4) ? kLatticeRounding : 0);
    const Point p = disc.center + std::max(radius, 0.0) * d;
    if (i % (n / 2) == 0) {
      ring.push_back({i == 0 ? lattice_floor(p.x) : lattice_ceil(p.x), to_lattice(p.y)});
    } else if (i % (n / 4) == 0) {
      ring.push_back({to_lattice(p.x), i == n / 4 ? lattice_floor(p.y) : lattice_ceil(p.y)});
    } else {
      ring.push_back(to_lattice(p));
    }
  }
  drop_repeats(ring);
  if (ring.size() < 3) return std::nullopt;
  return Polygon{std::move(ring), {}};
}

}  // namespace leeway
