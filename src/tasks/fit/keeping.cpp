#include "tasks/fit/keeping.h"

#include <cmath>

#include "geometry/plane/by_kind.h"
#include "model/limits/ticks.h"
#include "model/regions/region_draft.h"
#include "tasks/fit/fit_problem.h"

namespace leeway {
namespace {

std::optional<Box> smaller(const Box& box, double by) {
  const Box out{box.x0 + by, box.x1 - by, box.y0 + by, box.y1 - by};
  return out.x0 < out.x1 && out.y0 < out.y1 ? std::optional(out) : std::nullopt;
}

// The positions in `shape` that are `by` or more from its edge; of polygons and rounded boxes a
// few thousandths more.
std::optional<Shape> smaller(const Shape& shape, double by) {
  const auto drafted = [&]() -> std::optional<Shape> {
    RegionDraft draft;
    shrink(shape, {by, {}}, draft);
    MultiPolygon left = draft.finish();
    if (left.empty()) return std::nullopt;
    return left;
  };
  return by_kind(
      shape, [](Point) -> std::optional<Shape> { return std::nullopt; },
      [by](const Box& box) -> std::optional<Shape> { return smaller(box, by); },
      [by](const Disc& disc) -> std::optional<Shape> {
        if (disc.radius <= by) return std::nullopt;
        return Disc{disc.center, disc.radius - by};
      },
      [&](const RoundedBox&) { return drafted(); }, [&](const MultiPolygon&) { return drafted(); });
}

}  // namespace

std::optional<Rig> rig_keeping(const Rig& rig, double keep) {
  constexpr double kMost = 1000;
  if (!(keep >= 0 && keep <= kMost)) {
    throw FitRefused("the leeway to keep must be from 0 to 1000 mm");
  }
  Setup setup = rig.setup();
  const std::optional<Shape> travel = smaller(setup.machine.travel, keep);
  if (!travel) return std::nullopt;
  // Margins from the travel are those of the whole one.
  if (setup.request.grid) {
    setup.request.grid->extent = grid_bounds(*setup.request.grid, setup.machine);
  }
  setup.machine.travel = *travel;
  setup.probe.edge_distance += keep;
  for (Obstacle& obstacle : setup.machine.obstacles) obstacle.clearance += keep;
  return rig.with(setup);
}

bool fits_keeping(const Rig& rig, const FitOptions& options) {
  if (!rig_keeping(rig, options.keep)) return false;
  return fits(FitTask(rig, options));
}

std::optional<double> most_kept(const Rig& rig, const FitOptions& options) {
  constexpr double kTenths = 10;
  FitOptions trial = options;
  const auto holds = [&](double tenths) {
    trial.keep = rounded_to_ticks(tenths / kTenths);
    return fits_keeping(rig, trial);
  };
  if (!holds(0)) return std::nullopt;
  double low = 0;
  double high = std::ceil(options.keep * kTenths);
  while (high - low > 1) {
    const double middle = std::floor((low + high) / 2);
    (holds(middle) ? low : high) = middle;
  }
  return rounded_to_ticks(low / kTenths);
}

}  // namespace leeway
