#include "tasks/enter/grid_holds.h"

#include <algorithm>

#include "tasks/check/requested_points.h"

namespace leeway {

GridHolds::GridHolds(const Rig& rig) : rig_(rig) {
  const std::vector<CheckedPoint> own = points_of(*rig.setup().request.grid);
  points_count_ = all_reachable(own);
  if (!rig.setup().probe.travel_height) return;
  moves_.emplace(rig.move_limits());
  if (!way_is_clear(own)) moves_.reset();
}

bool GridHolds::operator()(const Grid& grid) const {
  const Box bounds = grid_bounds(grid, rig_.setup().machine);
  // Rounded to few decimals, lines may fall together.
  if (bounds.empty() || (grid.columns > 1 && bounds.width() <= 0)) return false;
  if (grid.rows > 1 && bounds.depth() <= 0) return false;
  const std::vector<CheckedPoint> points = points_of(grid);
  return (!points_count_ || all_reachable(points)) && way_is_clear(points);
}

bool GridHolds::all_reachable(const std::vector<CheckedPoint>& points) const {
  return !points.empty() && std::all_of(points.begin(), points.end(), [&](const CheckedPoint& p) {
    return rig_.limits().evaluate(p.probe).verdict == Verdict::reachable;
  });
}

bool GridHolds::way_is_clear(const std::vector<CheckedPoint>& points) const {
  if (!moves_) return true;
  const std::vector<std::size_t> order = travel_order(points);
  MoveStop stop;
  for (std::size_t i = 1; i < order.size(); ++i) {
    if (moves_->blocked(points[order[i - 1]].probe, points[order[i]].probe, stop)) return false;
  }
  return true;
}

std::vector<CheckedPoint> GridHolds::points_of(const Grid& grid) const {
  Setup only = rig_.setup();
  only.request = {grid, {}, {}};
  std::size_t skipped = 0;
  std::vector<CheckedPoint> points = requested_points(only, rig_.limits(), skipped);
  // The order of travel leaves out what is known to be out of reach: that is asked for elsewhere.
  for (CheckedPoint& point : points) point.finding.verdict = Verdict::reachable;
  return points;
}

}  // namespace leeway
