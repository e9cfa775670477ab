#include "tasks/check/nearest.h"

#include <cmath>

#include "geometry/plane/micrometres.h"
#include "geometry/plane/vector.h"

namespace leeway {
namespace {

// The nearest to `probe` among the grid points within `steps` of `around` that are reachable.
std::optional<Point> best_around(Point around, int steps, const Limits& limits, Point probe) {
  std::optional<Point> best;
  for (int i = -steps; i <= steps; ++i) {
    for (int k = -steps; k <= steps; ++k) {
      const Point p =
          to_lattice(around + (1 / kMicrometresPerMillimetre) *
                                  Point{static_cast<double>(i), static_cast<double>(k)});
      if (best && distance(p, probe) >= distance(*best, probe)) continue;
      if (limits.evaluate(p).verdict == Verdict::reachable) best = p;
    }
  }
  return best;
}

}  // namespace

std::optional<Point> nearest_reachable(const MultiPolygon& guarded, const Limits& limits,
                                       Point probe) {
  const std::optional<Point> closest = closest_point(guarded, probe);
  if (!closest) return std::nullopt;
  const Point exact = to_lattice(*closest);
  if (on_lattice(*closest) && limits.evaluate(exact).verdict == Verdict::reachable) return exact;
  for (const int steps : {1, 3}) {
    if (std::optional<Point> best = best_around(*closest, steps, limits, probe)) return best;
  }
  return std::nullopt;
}

}  // namespace leeway
