#include "tasks/fit/fit_home.h"

#include <algorithm>
#include <cmath>

#include "geometry/areas/pole.h"
#include "geometry/plane/vector.h"
#include "model/limits/limit_list.h"
#include "model/limits/ticks.h"
#include "tasks/enter/rounding.h"

namespace leeway {
namespace {

constexpr double kTolerance = 0.01;

double most_guard(const Setup& setup) {
  return std::max({spread_at_probe(setup).most(), spread_of_travel(setup).most(),
                   spread_of_head(setup).most()});
}

bool is_reachable(const Limits& limits, Point p) {
  return limits.evaluate(p).verdict == Verdict::reachable;
}

// Around `p` on the lattice of hundredths, or else of thousandths, the place that `is_better`
// prefers among those that `will_do`: what is printed has no more decimals.
template <typename WillDo, typename IsBetter>
Point rounded_place(Point p, const WillDo& will_do, const IsBetter& is_better) {
  for (const int decimals : {2, 3}) {
    const Rounding rounding(decimals);
    const double step = std::pow(10, -decimals);
    std::optional<Point> best;
    for (int i = -2; i <= 2; ++i) {
      for (int k = -2; k <= 2; ++k) {
        const Point near = rounding.nearest(p + Point{step * i, step * k});
        if (will_do(near) && (!best || is_better(near, *best))) best = near;
      }
    }
    if (best) return *best;
  }
  return Rounding(3).nearest(p);
}

}  // namespace

std::optional<FitHome> home_for(const Rig& rig, double wanted) {
  const std::optional<Box> around = bounds(rig.regions().get(RegionKind::reachable));
  if (!around) return std::nullopt;
  const Box bed = bounding_box(rig.setup().machine.bed);
  const Point centre{(bed.x0 + bed.x1) / 2, (bed.y0 + bed.y1) / 2};
  const auto leeway_at = [&](Point p) { return rig.limits().least_leeway(p); };
  const auto home_at = [&](Point p) -> std::optional<FitHome> {
    if (!is_reachable(rig.limits(), p)) return std::nullopt;
    return FitHome{p, leeway_at(p)};
  };

  const double least = std::max(wanted, most_guard(rig.setup()));
  if (const auto nearest = nearest_with(*around, leeway_at, least, centre, kTolerance)) {
    const Point place = rounded_place(
        *nearest, [&](Point p) { return leeway_at(p) >= least && is_reachable(rig.limits(), p); },
        [&](Point a, Point b) { return distance(a, centre) < distance(b, centre); });
    if (std::optional<FitHome> home = home_at(place)) return home;
  }
  const Pole pole = greatest_over(*around, leeway_at, kTolerance / 2);
  const Point place = rounded_place(
      pole.at, [&](Point p) { return is_reachable(rig.limits(), p); },
      [&](Point a, Point b) { return leeway_at(a) > leeway_at(b); });
  if (leeway_at(place) >= pole.distance - kTolerance / 2) {
    if (std::optional<FitHome> home = home_at(place)) return home;
  }
  return home_at(Rounding(3).nearest(pole.at));
}

}  // namespace leeway
