#include "tasks/explain/one_side.h"

#include <algorithm>
#include <cmath>

#include "model/limits/ticks.h"
#include "tasks/check/requested_points.h"

namespace leeway {
namespace {

constexpr double kSideStep = 0.5;  // mm
constexpr double kFarthestIn = 100;
constexpr long kMostGridPointsTried = 900;

// The change that moves a side inward by about so much: to a round number, never outward.
Change moved_in(const Grid& grid, GridSide side, double by) {
  const auto up = [](double v) {
    return rounded_to_ticks(std::ceil(v / kSideStep - 1e-9) * kSideStep);
  };
  const auto down = [](double v) {
    return rounded_to_ticks(std::floor(v / kSideStep + 1e-9) * kSideStep);
  };
  if (const Margins* m = std::get_if<Margins>(&grid.extent)) {
    switch (side) {
      case GridSide::left:
        return GridMargin{side, up(m->left + by)};
      case GridSide::right:
        return GridMargin{side, up(m->right + by)};
      case GridSide::front:
        return GridMargin{side, up(m->front + by)};
      case GridSide::back:
        break;
    }
    return GridMargin{side, up(m->back + by)};
  }
  const Box& b = std::get<Box>(grid.extent);
  switch (side) {
    case GridSide::left:
      return GridAlongX{up(b.x0 + by), b.x1};
    case GridSide::right:
      return GridAlongX{b.x0, down(b.x1 - by)};
    case GridSide::front:
      return GridAlongY{up(b.y0 + by), b.y1};
    case GridSide::back:
      break;
  }
  return GridAlongY{b.y0, down(b.y1 - by)};
}

bool holds(const Rig& rig, const Setup& changed) {
  const Box box = grid_bounds(*changed.request.grid, changed.machine);
  if (!(box.width() > 0) || !(box.depth() > 0)) return false;
  const PointCounts counts = count_points(changed, rig.limits(), true);
  return counts.points > 0 && counts.failing == 0;
}

}  // namespace

std::vector<Remedy> remedies_by_one_side(const Rig& rig, const BeforeTrial& before) {
  Setup only = rig.setup();
  only.request.points.clear();
  only.request.home.reset();
  const Grid& grid = *only.request.grid;
  if (static_cast<long>(grid.columns) * grid.rows > kMostGridPointsTried) return {};
  std::vector<std::pair<double, Remedy>> found;
  for (const GridSide side : {GridSide::left, GridSide::right, GridSide::front, GridSide::back}) {
    for (double by = kSideStep; by <= kFarthestIn; by += kSideStep) {
      before();
      const Changes changes{moved_in(grid, side, by)};
      // No limit depends on the grid.
      if (!holds(rig, applied(changes, only))) continue;
      Remedy remedy;
      remedy.parameter = Remedy::Parameter::one_side;
      remedy.changes = changes;
      const Setup changed = applied(changes, rig.setup());
      remedy.still_failing = count_points(changed, rig.limits()).failing;
      found.emplace_back(by, std::move(remedy));
      break;
    }
  }
  std::stable_sort(found.begin(), found.end(),
                   [](const auto& a, const auto& b) { return a.first < b.first; });
  std::vector<Remedy> remedies;
  for (auto& [by, remedy] : found) remedies.push_back(std::move(remedy));
  if (remedies.size() > 1) remedies.resize(1);
  return remedies;
}

}  // namespace leeway
