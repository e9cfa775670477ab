#include "leeway/fit.h"
#include "tasks/fit/trusted_fit.h"

#include <algorithm>
#include <cmath>

#include "model/limits/ticks.h"
#include "tasks/check/coverage.h"
#include "tasks/check/requested_points.h"
#include "tasks/check/trusted_check.h"
#include "tasks/enter/grid_holds.h"
#include "tasks/enter/rounding.h"
#include "tasks/fit/fit_home.h"
#include "tasks/fit/fit_problem.h"
#include "tasks/fit/fit_remedies.h"
#include "tasks/fit/keeping.h"

namespace leeway {
namespace {

// One margin for all sides, rounded up, where the mesh then still works.
std::optional<double> rounded_margin(const FitTask& task, const Rig& fitted) {
  const std::optional<double> margin = uniform_margin(task);
  if (!margin) return std::nullopt;
  const double all = Rounding(task.options.decimals).up(*margin);
  Grid grid = *fitted.setup().request.grid;
  grid.extent = Margins{all, all, all, all, Margins::From::bed};
  return GridHolds(fitted)(grid) ? std::optional(all) : std::nullopt;
}

void describe_request(const Rig& rig, int decimals, FitResult& result) {
  const Setup& setup = rig.setup();
  const Limits& limits = rig.limits();
  if (const std::optional<Grid>& grid = setup.request.grid) {
    result.before = grid_bounds_for_probe(setup, *grid);
    result.columns_before = grid->columns;
    result.rows_before = grid->rows;
    Setup mesh = setup;
    mesh.request = {grid, {}, {}};
    std::size_t skipped = 0;
    for (const CheckedPoint& point : requested_points(mesh, limits, skipped)) {
      ++result.points_before;
      if (limits.evaluate(point.probe).verdict != Verdict::reachable) ++result.failing_before;
    }
    result.coverage_before = coverage_of(rig.regions().get(RegionKind::printable), *result.before);
  }
  // What the mesh cannot mend: the points that are not its own.
  Setup others = setup;
  others.request.grid.reset();
  std::size_t skipped = 0;
  for (const CheckedPoint& point : requested_points(others, limits, skipped)) {
    const Finding finding = limits.evaluate(point.probe);
    if (finding.verdict == Verdict::reachable) continue;
    const Rounding rounding(decimals);
    result.unmet.push_back(
        {point_name(others, point),
         {point.probe, finding},
         {rounding.nearest(point.probe), rounding.nearest(point.probe - setup.probe.offset)}});
  }
}

bool runs_into_something(const CheckResult& checked) {
  return std::any_of(checked.moves.blocked.begin(), checked.moves.blocked.end(),
                     [&](const BlockedMove& move) {
                       return checked.points[move.from].row > 0 && checked.points[move.to].row > 0;
                     });
}

// The numbers are those of meshes whose moves are clear too, where those of this one are.
void take(FitTask& task, const FoundMesh& found, FitResult& result) {
  result.mesh = fit_mesh_of(task, found);
  CheckOptions checking;
  checking.regions = RegionsWanted::none;
  const Request request = with_mesh(task.stated.setup(), *result.mesh).request;
  result.checked = check_trusted(task.stated.asking(request), checking);
  if (!runs_into_something(result.checked)) task.count_moves();
  // Rounded, they still keep what they shall.
  const Rig fitted = task.rig.asking(request);
  result.numbers = mesh_numbers(fitted, task.options.decimals);
  result.uniform_margin = rounded_margin(task, fitted);
}

// Where the moves over the mesh are not clear, the best of those whose moves are.
void mind_moves(FitTask& task, FitResult& result) {
  if (!runs_into_something(result.checked) || result.checked.moves.drags) return;
  task.count_moves();
  const std::optional<FoundMesh> clear = best_for(task);
  result.gave_up_on_moves = task.problem.moves->gives_up();
  if (!clear) return;
  FitHigher higher{*result.mesh};
  const std::optional<double> height = result.checked.moves.safe.least;
  take(task, *clear, result);
  if (!height) return;
  higher.height = *height;
  result.higher = higher;
}

}  // namespace

FitResult fit(const Setup& setup, const FitOptions& options) {
  return fit_trusted(Rig(setup), options);
}

FitResult fit(const Rig& rig, const FitOptions& options) {
  require_valid(rig.setup());
  return fit_trusted(rig, options);
}

FitResult fit_trusted(const Rig& rig, const FitOptions& options) {
  FitResult result;
  result.keep = options.keep;
  FitOptions searched = options;
  if (options.keep > 0 && !fits_keeping(rig, options)) {
    result.most_kept = most_kept(rig, options);
    searched.keep = 0;
  }
  const Setup& setup = rig.setup();
  FitTask task(rig, searched);
  result.setup = setup.name;
  result.offset = setup.probe.offset;
  const FitProblem& problem = task.problem;
  if (problem.columns.always_the_same()) result.columns = problem.columns.over(0);
  if (problem.rows.always_the_same()) result.rows = problem.rows.over(0);
  describe_request(rig, options.decimals, result);
  result.home_wanted = options.home_leeway;
  result.home = home_for(rig, options.home_leeway);
  if (result.most_kept) return result;
  if (const std::optional<FoundMesh> found = best_for(task)) {
    take(task, *found, result);
    mind_moves(task, result);
  } else {
    result.limiting = limiting_for(task);
    if (options.remedies) result.remedies = remedies_for(task);
  }
  return result;
}

bool all_well(const FitResult& result) {
  return result.mesh && result.unmet.empty() && result.checked.moves.clear();
}

Setup with_mesh(Setup setup, const FitMesh& mesh) {
  const bool skip = setup.request.grid && setup.request.grid->skip_outside_bed;
  setup.request.grid = Grid{mesh.columns, mesh.rows, mesh.bounds, Frame::probe, skip};
  return setup;
}

}  // namespace leeway
