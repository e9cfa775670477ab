#include "geometry/convex/minkowski.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <utility>

#include "geometry/overlay/overlay.h"
#include "geometry/plane/micrometres.h"
#include "geometry/plane/orientation.h"
#include "geometry/plane/polygons.h"

namespace leeway {
namespace {

// The edges of a convex ring from its lowest vertex (the leftmost of these) on, counter-clockwise:
// sorted by direction from due right.
class EdgeWalk {
 public:
  explicit EdgeWalk(const Ring& ring) : ring_(ring), whole_(in_picometres(ring)) {
    for (std::size_t i = 1; i < whole_.size(); ++i) {
      const Point p = whole_[i];
      const Point lowest = whole_[start_];
      if (p.y < lowest.y || (p.y == lowest.y && p.x < lowest.x)) start_ = i;
    }
  }

  bool done() const { return steps_ == ring_.size() || ring_.size() < 2; }
  Point vertex() const { return ring_[index(steps_)]; }
  Point edge() const { return whole_[index(steps_ + 1)] - whole_[index(steps_)]; }
  void step() { ++steps_; }

 private:
  std::size_t index(std::size_t steps) const { return (start_ + steps) % ring_.size(); }

  const Ring& ring_;
  std::vector<Point> whole_;
  std::size_t start_ = 0;
  std::size_t steps_ = 0;
};

// -1 when direction `u` comes before `v`, going round from due right.
int compare_directions(Point u, Point v) {
  const auto is_lower = [](Point p) { return p.y < 0 || (p.y == 0 && p.x < 0); };
  if (is_lower(u) != is_lower(v)) return is_lower(u) ? 1 : -1;
  return -cross_sign(u, v);
}

// Takes away what binary makes of decimals, and no more: a sum that is finer stays as it is. Else
// the last bit would decide whether something fits exactly.
double decimal_sum(double a, double b) {
  const double sum = a + b;
  const double decimal = std::round(sum * kPicometresPerMillimetre) / kPicometresPerMillimetre;
  const double binary_noise = 4e-16 * (std::abs(a) + std::abs(b));
  return std::abs(sum - decimal) <= binary_noise ? decimal : sum;
}

Ring on_the_lattice(Ring ring) {
  for (Point& p : ring) p = to_lattice(p);
  return normalized(ring);
}

}  // namespace

Point decimal_sum(Point a, Point b) { return {decimal_sum(a.x, b.x), decimal_sum(a.y, b.y)}; }

// The edges of the sum are those of both rings, in order of direction. Each ring has its own in
// that order, so it is a merge (de Berg et al., Computational Geometry, ch. 13).
Ring convex_sum(const Ring& a, const Ring& b) {
  if (a.empty() || b.empty()) return {};
  EdgeWalk walk_a(a);
  EdgeWalk walk_b(b);
  Ring sum;
  sum.reserve(a.size() + b.size());
  do {
    const Point p = walk_a.vertex();
    const Point q = walk_b.vertex();
    sum.push_back(decimal_sum(p, q));
    int order = walk_a.done() ? 1 : -1;
    if (!walk_a.done() && !walk_b.done()) order = compare_directions(walk_a.edge(), walk_b.edge());
    if (order <= 0 && !walk_a.done()) walk_a.step();
    if (order >= 0 && !walk_b.done()) walk_b.step();
  } while (!walk_a.done() || !walk_b.done());
  return normalized(sum);
}

std::vector<Ring> sum_pieces(const std::vector<Ring>& a, const std::vector<Ring>& b) {
  std::vector<Ring> sums;
  sums.reserve(a.size() * b.size());
  for (const Ring& p : a) {
    for (const Ring& q : b) sums.push_back(convex_sum(p, q));
  }
  return sums;
}

MultiPolygon minkowski_sum(const MultiPolygon& a, const MultiPolygon& b) {
  std::vector<Polygon> parts;
  for (Ring& sum : sum_pieces(convex_pieces(a), convex_pieces(b))) {
    Ring ring = on_the_lattice(std::move(sum));
    if (ring.size() >= 3) parts.push_back({std::move(ring), {}});
  }
  return parts.size() < 2 ? parts : unite(parts);
}

}  // namespace leeway
