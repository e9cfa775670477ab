#include "leeway/numbers_to_enter.h"

#include <algorithm>
#include <cmath>

#include "geometry/plane/assert.h"
#include "geometry/plane/vector.h"
#include "tasks/check/coverage.h"
#include "tasks/enter/rounding.h"
#include "tasks/fit/fit_home.h"
#include "tasks/fit/keeping.h"

namespace leeway {
namespace {

bool may_be_entered(const CheckResult& checked) {
  return checked.verdict == Verdict::reachable && checked.moves.clear();
}

bool mesh_is_well(const CheckResult& checked) {
  const auto of_mesh = [&](std::size_t point) { return checked.points[point].row > 0; };
  for (const CheckedPoint& point : checked.points) {
    if (point.row > 0 && point.finding.verdict != Verdict::reachable) return false;
  }
  return !checked.moves.drags &&
         std::none_of(checked.moves.blocked.begin(), checked.moves.blocked.end(),
                      [&](const BlockedMove& m) { return of_mesh(m.from) && of_mesh(m.to); });
}

// Of the rounded places around one, the nearest that is reachable.
std::optional<Point> near_and_reachable(const Rig& rig, Point p, int decimals) {
  const Rounding rounding(decimals);
  const double unit = std::pow(10, -decimals);
  std::optional<Point> best;
  for (int i = -1; i <= 1; ++i) {
    for (int k = -1; k <= 1; ++k) {
      const Point place = rounding.nearest(rounding.nearest(p) + Point{i * unit, k * unit});
      if (best && distance(place, p) >= distance(*best, p)) continue;
      if (rig.limits().evaluate(place).verdict == Verdict::reachable) best = place;
    }
  }
  return best;
}

PointNumbers numbers_of(const Rig& rig, const CheckedPoint& point, int decimals) {
  PointNumbers numbers{place_numbers(rig, point.probe, decimals), {}, {}};
  if (point.has_nearest) numbers.nearest = near_and_reachable(rig, point.nearest, decimals);
  numbers.finding = finding_as_entered(rig, numbers.place, point.finding);
  return numbers;
}

void take_tightest(const Rig& rig, NumbersToEnter& out) {
  for (const CheckedPoint& point : out.of_mesh.points) {
    if (point.row == 0) continue;
    const PlaceNumbers place = place_numbers(rig, point.probe, out.decimals);
    const Finding finding = finding_as_entered(rig, place, point.finding);
    const double left = finding.leeway - finding.guard;
    if (out.tightest && left >= out.tightest->finding.leeway - out.tightest->finding.guard)
      continue;
    out.tightest = {point.probe, finding};
    out.tightest_place = place;
  }
}

void take_home(const Rig& rig, const FitResult* fitted, NumbersToEnter& out) {
  const double wanted = FitOptions{}.home_leeway;
  const Setup& setup = rig.setup();
  if (const std::optional<Home>& home = setup.request.home) {
    const Point probe = probe_position(home->at, home->frame, setup.probe.offset);
    out.home = {probe, rig.limits().least_leeway(probe)};
    out.home_is_stated = true;
  } else {
    out.home = fitted != nullptr ? fitted->home : home_for(rig, wanted);
  }
  if (!out.home) return;
  out.home_place = place_numbers(rig, out.home->probe, out.decimals);
  const Finding exact = rig.limits().evaluate(out.home->probe);
  if (exact.verdict != Verdict::reachable) return;
  const auto take = [&](const std::optional<Point>& at, Point offset) {
    if (at) out.home->leeway = std::min(out.home->leeway, rig.limits().least_leeway(*at + offset));
  };
  take(out.home_place.probe, {});
  take(out.home_place.nozzle, setup.probe.offset);
}

// The coverage of what is entered: rounded inward it is a little less.
void cover_as_entered(const Rig& rig, NumbersToEnter& out) {
  if (!out.of_mesh.coverage || !out.mesh || !out.mesh->spans) return;
  out.of_mesh.coverage = coverage_of(rig.regions().get(RegionKind::printable), *out.mesh->spans);
}

}  // namespace

NumbersToEnter numbers_to_enter(const Rig& rig, const CheckResult& checked, const FitResult* fitted,
                                int decimals) {
  LEEWAY_ASSERT(decimals >= 0 && decimals <= kMostDecimals);
  NumbersToEnter out;
  out.decimals = decimals;
  for (const CheckedPoint& point : checked.points) {
    out.points.push_back(numbers_of(rig, point, decimals));
  }
  out.of_mesh = fitted != nullptr ? fitted->checked : checked;
  if (fitted == nullptr && rig.setup().request.grid) {
    out.mesh = mesh_numbers(rig, decimals);
  } else if (fitted != nullptr && fitted->mesh) {
    const Rig asking = rig.asking(with_mesh(rig.setup(), *fitted->mesh).request);
    // Rounded, they still keep what they shall.
    out.mesh = mesh_numbers(
        fitted->keep > 0 ? rig_keeping(asking, fitted->keep).value_or(asking) : asking, decimals);
  }
  take_tightest(rig, out);
  cover_as_entered(rig, out);
  take_home(rig, fitted, out);
  out.mesh_is_safe = out.mesh && !out.mesh->places.empty() && mesh_is_well(out.of_mesh);
  out.safe = may_be_entered(out.of_mesh);
  return out;
}

}  // namespace leeway
