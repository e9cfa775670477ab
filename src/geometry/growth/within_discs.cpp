// The intersection of discs as a polygon inside it: its boundary seen from a point deep within.
// Vertices are on the boundary, so that by convexity every chord is inside.

#include "geometry/growth/growth.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

#include "geometry/plane/assert.h"
#include "geometry/plane/micrometres.h"
#include "geometry/plane/vector.h"

namespace leeway {
namespace {

constexpr double kCornerTolerance = 1e-6;  // mm
constexpr double kInward = 0.00075;        // mm; more than the lattice moves a vertex

double beyond_discs(const std::vector<Disc>& discs, Point p) {
  double most = -std::numeric_limits<double>::infinity();
  for (const Disc& disc : discs) most = std::max(most, distance(p, disc.center) - disc.radius);
  return most;
}

// Where a convex function of one variable is least between two values.
template <typename Function>
double lowest(Function f, double low, double high) {
  for (int i = 0; i < 60; ++i) {
    const double third = (high - low) / 3;
    if (f(low + third) <= f(high - third)) {
      high -= third;
    } else {
      low += third;
    }
  }
  return (low + high) / 2;
}

// The deepest point, sought within the smallest disc.
// How far a place is beyond the discs is a convex function, and so is its least over x as a
// function of y: the search by thirds finds both.
Point deepest(const std::vector<Disc>& discs) {
  const Disc small = *std::min_element(
      discs.begin(), discs.end(), [](const Disc& a, const Disc& b) { return a.radius < b.radius; });
  const auto best_x = [&](double y) {
    return lowest(
        [&](double x) {
          return beyond_discs(discs, {x, y});
        },
        small.center.x - small.radius, small.center.x + small.radius);
  };
  const double y = lowest(
      [&](double at) {
        return beyond_discs(discs, {best_x(at), at});
      },
      small.center.y - small.radius, small.center.y + small.radius);
  return {best_x(y), y};
}

class DiscsOutline {
 public:
  DiscsOutline(const std::vector<Disc>& discs, Point middle) : discs_(discs), middle_(middle) {}

  Ring ring() {
    const std::vector<Hit> starts = all_starts();
    for (std::size_t i = 0; i < starts.size(); ++i) {
      Hit to = starts[(i + 1) % starts.size()];
      if (i + 1 == starts.size()) to.angle += 2 * std::numbers::pi;
      append(starts[i], to);
    }
    return std::move(ring_);
  }

 private:
  struct Hit {
    double angle;
    std::size_t disc;  // that ends the way in this direction
    Point at;
  };

  // Directions all round, and those to where the boundary is farthest along an axis.
  std::vector<Hit> all_starts() const {
    std::vector<Hit> starts;
    const int count = enough_chords();
    for (int i = 0; i < count; ++i) starts.push_back(hit(2 * std::numbers::pi * i / count));
    for (std::size_t i = 0; i < discs_.size(); ++i) append_farthest(i, starts);
    std::stable_sort(starts.begin(), starts.end(),
                     [](const Hit& a, const Hit& b) { return a.angle < b.angle; });
    return starts;
  }

  // The ends of a disc's axes, as far as they are on the boundary: exact, so that the bounds are.
  void append_farthest(std::size_t i, std::vector<Hit>& starts) const {
    const Disc& disc = discs_[i];
    for (const Point axis : {Point{1, 0}, Point{0, 1}, Point{-1, 0}, Point{0, -1}}) {
      const Point end = disc.center + disc.radius * axis;
      if (beyond_discs(discs_, end) > 1e-9) continue;
      const auto inward = [](double value, double direction) {
        return direction > 0   ? lattice_floor(value)
               : direction < 0 ? lattice_ceil(value)
                               : to_lattice(value);
      };
      const double angle = std::atan2(end.y - middle_.y, end.x - middle_.x);
      starts.push_back({angle < 0 ? angle + 2 * std::numbers::pi : angle,
                        i,
                        {inward(end.x, axis.x), inward(end.y, axis.y)}});
    }
  }

  // Enough for the largest disc seen from not far off its centre; where it is not, append() splits.
  int enough_chords() const {
    double radius = 0;
    for (const Disc& disc : discs_) radius = std::max(radius, disc.radius);
    const double half = std::acos(std::max(1 - kCircleTolerance / radius, 0.0));
    return std::max(8, static_cast<int>(std::ceil(1.15 * std::numbers::pi / half)));
  }

  Hit hit(double angle) const {
    const Point u{std::cos(angle), std::sin(angle)};
    Hit best{angle, 0, {}};
    double nearest = std::numeric_limits<double>::infinity();
    for (std::size_t i = 0; i < discs_.size(); ++i) {
      // The ray leaves a disc where |v + way u| is its radius. The disc that it leaves first ends
      // it.
      const Point v = middle_ - discs_[i].center;
      const double b = -dot(v, u);
      const double inside = discs_[i].radius * discs_[i].radius - dot(v, v);
      const double way = b + std::sqrt(b * b + inside);
      if (way < nearest) {
        nearest = way;
        best.disc = i;
      }
    }
    best.at = middle_ + std::max(nearest - kInward, 0.0) * u;
    return best;
  }

  // Whether the chord is as close to the boundary as it has to be.
  bool close_enough(const Hit& a, const Hit& b) const {
    // Of discs that nearly coincide now one and now the other is met, by rounding.
    if (a.disc != b.disc) {
      return b.angle - a.angle < 1e-12 || distance(a.at, b.at) < kCornerTolerance;
    }
    const double half = distance(a.at, b.at) / 2;
    const double radius = discs_[a.disc].radius;
    return half < radius && radius - std::sqrt(radius * radius - half * half) <= kCircleTolerance;
  }

  // The vertices from `a` up to, but not including, `b`.
  void append(const Hit& a, const Hit& b) {
    if (close_enough(a, b)) {
      const Point p = to_lattice(a.at);
      if (ring_.empty() || !(ring_.back() == p)) ring_.push_back(p);
      return;
    }
    const Hit between = hit((a.angle + b.angle) / 2);
    append(a, between);
    append(between, b);
  }

  const std::vector<Disc>& discs_;
  Point middle_;
  Ring ring_;
};

}  // namespace

std::optional<Polygon> within_discs(const std::vector<Disc>& discs) {
  LEEWAY_ASSERT(!discs.empty());
  const Point middle = deepest(discs);
  // Nearer to nothing than the lattice can hold is nothing.
  if (beyond_discs(discs, middle) > -2 / kMicrometresPerMillimetre) return std::nullopt;
  Ring ring = DiscsOutline(discs, middle).ring();
  while (ring.size() > 1 && ring.front() == ring.back()) ring.pop_back();
  if (ring.size() < 3) return std::nullopt;
  return Polygon{std::move(ring), {}};
}

}  // namespace leeway
