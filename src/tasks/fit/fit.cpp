#include "leeway/fit.h"
#include "tasks/fit/trusted_fit.h"

#include <algorithm>
#include <cmath>

#include "model/limits/ticks.h"
#include "tasks/check/coverage.h"
#include "tasks/check/requested_points.h"
#include "tasks/check/trusted_check.h"
#include "tasks/fit/fit_home.h"
#include "tasks/fit/fit_problem.h"
#include "tasks/fit/fit_remedies.h"

namespace leeway {
namespace {

// Whether all points of a grid are reachable and, where the task minds them, its moves are clear.
bool grid_works(const FitTask& task, const Grid& grid) {
  if (grid_bounds(grid, task.setup.machine).empty()) return false;
  Setup only = task.setup;
  only.request = {grid, {}, {}};
  std::size_t skipped = 0;
  std::vector<CheckedPoint> points = requested_points(only, task.limits, skipped);
  for (CheckedPoint& point : points) {
    point.finding = task.limits.evaluate(point.probe);
    if (point.finding.verdict != Verdict::reachable) return false;
  }
  if (points.empty() || task.problem.moves == nullptr) return !points.empty();
  std::vector<Point> way;
  for (const std::size_t i : travel_order(points)) way.push_back(points[i].probe);
  return task.problem.moves->clear(way);
}

// Rounds to a number of decimals, not minding what a decimal loses in binary.
class Rounding {
 public:
  explicit Rounding(int decimals) : units_(std::pow(10, decimals)) {}

  double up(double mm) const { return -down(-mm) + 0.0; }
  double down(double mm) const {
    const double units = mm * units_;
    const double whole = std::round(units);
    return (std::abs(units - whole) < 1e-6 ? whole : std::floor(units)) / units_ + 0.0;
  }
  Box inward(const Box& box) const { return {up(box.x0), down(box.x1), up(box.y0), down(box.y1)}; }
  Margins margins(const Box& around, const Box& box, Margins::From from) const {
    return {up(box.x0 - around.x0), up(around.x1 - box.x1), up(box.y0 - around.y0),
            up(around.y1 - box.y1), from};
  }

 private:
  double units_;
};

FitNumbers numbers_of(const FitTask& task, const FitMesh& mesh) {
  const Setup& setup = task.setup;
  const Point offset = setup.probe.offset;
  const Box& b = mesh.bounds;
  const Box nozzle{b.x0 - offset.x, b.x1 - offset.x, b.y0 - offset.y, b.y1 - offset.y};
  const Machine& machine = setup.machine;
  const Rounding rounding(task.options.decimals);
  Grid grid{mesh.columns, mesh.rows, rounding.inward(b), Frame::probe,
            task.problem.skip_outside_bed};
  // Rounding inward may push a point to where it fails. So each way of writing the mesh is asked
  // again as it would be entered.
  const auto holds = [&] { return grid_works(task, grid); };
  FitNumbers numbers;
  if (holds()) numbers.probe = std::get<Box>(grid.extent);
  grid.extent = rounding.margins(bounding_box(machine.bed), b, Margins::From::bed);
  if (holds()) numbers.from_bed = std::get<Margins>(grid.extent);
  grid.frame = Frame::nozzle;
  grid.extent = rounding.inward(nozzle);
  if (holds()) numbers.nozzle = std::get<Box>(grid.extent);
  grid.extent = rounding.margins(bounding_box(machine.travel), nozzle, Margins::From::travel);
  if (holds()) numbers.from_travel = std::get<Margins>(grid.extent);
  grid.frame = Frame::probe;
  if (const std::optional<double> uniform = uniform_margin(task)) {
    const double all = rounding.up(*uniform);
    grid.extent = Margins{all, all, all, all, Margins::From::bed};
    if (holds()) numbers.uniform = all;
  }
  return numbers;
}

void describe_request(const FitTask& task, FitResult& result) {
  const Setup& setup = task.setup;
  if (const std::optional<Grid>& grid = setup.request.grid) {
    result.before = grid_bounds_for_probe(setup, *grid);
    result.columns_before = grid->columns;
    result.rows_before = grid->rows;
    Setup mesh = setup;
    mesh.request = {grid, {}, {}};
    std::size_t skipped = 0;
    for (const CheckedPoint& point : requested_points(mesh, task.limits, skipped)) {
      ++result.points_before;
      if (task.limits.evaluate(point.probe).verdict != Verdict::reachable) ++result.failing_before;
    }
    result.coverage_before = coverage_of(task.regions.get(RegionKind::printable), *result.before);
  }
  // What the mesh cannot mend: the points that are not its own.
  Setup others = setup;
  others.request.grid.reset();
  std::size_t skipped = 0;
  for (const CheckedPoint& point : requested_points(others, task.limits, skipped)) {
    const Finding finding = task.limits.evaluate(point.probe);
    if (finding.verdict == Verdict::reachable) continue;
    result.unmet.push_back({point_name(others, point), {point.probe, finding}});
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
  result.checked =
      check_trusted(task.rig.asking(with_mesh(task.setup, *result.mesh).request), checking);
  if (!runs_into_something(result.checked)) task.count_moves();
  result.numbers = numbers_of(task, *result.mesh);
}

// Where the moves over the mesh are not clear, the best of those whose moves are.
void mind_moves(FitTask& task, FitResult& result) {
  if (!runs_into_something(result.checked) || result.checked.moves.drags) return;
  task.count_moves();
  const std::optional<FoundMesh> clear = best_for(task);
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
  FitTask task(rig, options);
  const Setup& setup = task.setup;
  FitResult result;
  result.setup = setup.name;
  result.offset = setup.probe.offset;
  const FitProblem& problem = task.problem;
  if (problem.columns.always_the_same()) result.columns = problem.columns.over(0);
  if (problem.rows.always_the_same()) result.rows = problem.rows.over(0);
  describe_request(task, result);
  result.home_wanted = options.home_leeway;
  result.home = home_for(task.rig, options.home_leeway);
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
