#include "geometry/areas/area_sums.h"

#include <algorithm>

#include "geometry/plane/assert.h"
#include "geometry/plane/polygons.h"

namespace leeway {
namespace {

// The integral of min(X, x) dY along a straight way upward from a to b.
double integral(Point a, Point b, double x) {
  const double rise = b.y - a.y;
  if (a.x >= x && b.x >= x) return x * rise;
  if (a.x <= x && b.x <= x) return (a.x + b.x) / 2 * rise;
  const double t = (x - a.x) / (b.x - a.x);
  return a.x < x ? ((a.x + x) / 2 * t + x * (1 - t)) * rise
                 : (x * t + (x + b.x) / 2 * (1 - t)) * rise;
}

}  // namespace

AreaSums::AreaSums(const MultiPolygon& region, std::vector<double> ys) : ys_(std::move(ys)) {
  LEEWAY_ASSERT(std::is_sorted(ys_.begin(), ys_.end()));
  const auto add = [this](const Ring& ring, bool outer) {
    // Windings are put right here: counter-clockwise outside, clockwise inside.
    const double turn = (signed_area(ring) > 0) == outer ? 1 : -1;
    for (std::size_t i = 0; i < ring.size(); ++i) {
      const Point a = ring[i];
      const Point b = ring[(i + 1) % ring.size()];
      // A level edge adds nothing to an integral over y.
      if (a.y == b.y) continue;
      Edge edge = a.y < b.y ? Edge{a, b, turn} : Edge{b, a, -turn};
      edge.from = static_cast<std::size_t>(std::upper_bound(ys_.begin(), ys_.end(), edge.low.y) -
                                           ys_.begin());
      edges_.push_back(edge);
    }
  };
  for (const Polygon& polygon : region) {
    add(polygon.outer, true);
    for (const Ring& hole : polygon.holes) add(hole, false);
  }
}

std::vector<double> AreaSums::left_of(double x) const {
  // What lies between one of ys and the next, then summed up.
  std::vector<double> sums(ys_.size() + 1, 0.0);
  for (const Edge& edge : edges_) {
    const double slope = (edge.high.x - edge.low.x) / (edge.high.y - edge.low.y);
    Point from = edge.low;
    for (std::size_t k = edge.from; from.y < edge.high.y; ++k) {
      Point to = edge.high;
      if (k < ys_.size() && ys_[k] < edge.high.y) {
        to = {edge.low.x + slope * (ys_[k] - edge.low.y), ys_[k]};
      }
      sums[k] += edge.sign * integral(from, to, x);
      from = to;
      if (k >= ys_.size()) break;
    }
  }
  for (std::size_t k = 1; k < sums.size(); ++k) sums[k] += sums[k - 1];
  // Rectangles end at a value of ys: what lies beyond the last is asked by none.
  sums.pop_back();
  return sums;
}

}  // namespace leeway
