// Which offsets of a map are of use, and how many points they reach.

#include "leeway/coverage_map.h"

#include <algorithm>
#include <cmath>

#include "leeway/bracket.h"
#include "tasks/bracket/bracket_problem.h"
#include "tasks/bracket/coverage_map_steps.h"
#include "tasks/go_on.h"

namespace leeway {
namespace {

// Fills in what is open: where the leeway is not below 0. As it changes by no more than 1 mm a
// millimetre, what lies nearer than its amount need not be looked at.
template <typename Leeway>
void open_where(CoverageMap& map, const Leeway& leeway, const Progress& progress) {
  const std::size_t columns = static_cast<std::size_t>(map.x.count);
  map.open.assign(columns * static_cast<std::size_t>(map.y.count), 0);
  for (int row = 0; row < map.y.count; ++row) {
    go_on(progress, static_cast<double>(row) / map.y.count);
    for (int column = 0; column < map.x.count;) {
      const double here = leeway(Point{map.x.at(column), map.y.at(row)});
      const double steps = std::min(std::abs(here) / map.x.step(), 1e9);
      const int next =
          column +
          std::max(1, static_cast<int>(std::min(std::floor(steps - 1e-6), 1.0 * map.x.count)));
      for (; column < std::min(next, map.x.count); ++column) {
        map.open[static_cast<std::size_t>(row) * columns + static_cast<std::size_t>(column)] =
            here >= 0;
      }
    }
  }
}

double leeway_of_mounts(const std::vector<OffsetLimits>& limits, Point offset,
                        const Tolerance& tolerance) {
  double least = 1e9;
  for (const OffsetLimits& one : limits) {
    least = std::min(least, one.slack_of_mount(offset, tolerance));
  }
  return least;
}

void open_on_mount(CoverageMap& map, std::span<const Setup> setups, const Tolerance& tolerance,
                   const Progress& progress) {
  std::vector<OffsetLimits> limits;
  for (const Setup& setup : setups) limits.emplace_back(Rig(setup), std::vector<Point>{});
  open_where(
      map, [&](Point offset) { return leeway_of_mounts(limits, offset, tolerance); }, progress);
}

}  // namespace

void open_map(CoverageMap& map, std::span<const Setup> setups, MapOpens opens,
              const Tolerance& tolerance, const Progress& progress) {
  if (opens == MapOpens::on_mount) return open_on_mount(map, setups, tolerance, progress);
  const BracketProblem problem(setups, tolerance);
  open_where(
      map, [&](Point offset) { return problem.leeway(offset); }, progress);
}

CommonMap map_with_window(std::span<const Setup> setups, const BracketWindow* window,
                          const MapSteps& steps, const Tolerance& tolerance,
                          const Progress& progress) {
  CommonMap common = common_coverage_map(setups, steps.x, steps.y, progress);
  if (!common.map) return common;
  const bool in_window = window != nullptr && !window->empty;
  open_map(*common.map, setups, in_window ? MapOpens::in_window : MapOpens::on_mount, tolerance,
           progress);
  return common;
}

MountPlaces places_on_mount(const Setup& setup, const Progress& progress) {
  MountPlaces places;
  if (setup.mount == Mount{}) return places;
  const std::span<const Setup> setups(&setup, 1);
  BracketOptions options;
  options.progress = progress;
  if (asks_for_points(setup.request)) places.window = bracket(setups, options);
  const BracketWindow* window = places.window ? &places.window->window : nullptr;
  const MapSteps steps = map_around(setups, window ? window->bounds : std::nullopt);
  places.map = map_with_window(setups, window, steps, {}, progress).map;
  return places;
}

CoverageMap points_map(std::span<const Setup> setups, const Steps& x, const Steps& y,
                       const Tolerance& tolerance, const Progress& progress) {
  require_map_steps(x, y);
  const BracketProblem problem(setups, tolerance);
  CoverageMap map{x, y, {}, 0, {}, 0};
  for (const BracketSetup& setup : problem.summaries()) map.points += setup.points;
  if (map.points == 0) throw BracketRefused("the request asks for no point to reach");
  map.coverage.reserve(static_cast<std::size_t>(x.count) * static_cast<std::size_t>(y.count));
  for (int row = 0; row < y.count; ++row) {
    go_on(progress, static_cast<double>(row) / y.count);
    for (int column = 0; column < x.count; ++column) {
      const std::size_t reached = problem.reached({x.at(column), y.at(row)});
      map.coverage.push_back(static_cast<double>(reached) / static_cast<double>(map.points));
    }
  }
  open_on_mount(map, setups, tolerance, progress);
  return map;
}

}  // namespace leeway
