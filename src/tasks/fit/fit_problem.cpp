#include "tasks/fit/fit_problem.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <limits>

#include "geometry/areas/slices.h"
#include "geometry/plane/micrometres.h"
#include "model/limits/ticks.h"
#include "tasks/check/coverage.h"
#include "tasks/check/requested_points.h"
#include "tasks/enter/rounding.h"
#include "tasks/fit/keeping.h"
#include "tasks/go_on.h"

namespace leeway {
namespace {

std::string text(double mm) {
  std::string out = std::to_string(mm);
  out.erase(out.find_last_not_of('0') + 1);
  if (out.back() == '.') out.pop_back();
  return out;
}

// All digits while a double holds them.
std::string count_text(double count) {
  if (count < 1e15) return text(count);
  std::array<char, 32> digits;
  std::snprintf(digits.data(), digits.size(), "%.3g", count);
  return "about " + std::string(digits.data());
}

// Hundredths, so that every place to choose is one that can be typed into a controller.
void check_step(double step) {
  if (!std::isfinite(step) || step < kFinestStep - 1e-9 || step > 1000 ||
      std::abs(step * 100 - std::round(step * 100)) > 1e-9) {
    throw FitRefused(
        "the step must be from 0.05 to 1000 mm and a whole number of hundredths, not " +
        text(step));
  }
}

void check_side(const char* side, const std::optional<double>& value) {
  if (!value || (std::abs(*value) <= 1e6 && on_lattice(*value))) return;
  throw FitRefused("the " + std::string(side) +
                   " side must be at most 1e6 mm from the origin and "
                   "have at most 3 decimals, not " +
                   text(*value));
}

void check_options(const FitOptions& options) {
  check_step(options.step);
  const FitSides& sides = options.sides;
  check_side("left", sides.left);
  check_side("right", sides.right);
  check_side("front", sides.front);
  check_side("back", sides.back);
  if (sides.left && sides.right && *sides.left >= *sides.right) {
    throw FitRefused("the left side must be left of the right one");
  }
  if (sides.front && sides.back && *sides.front >= *sides.back) {
    throw FitRefused("the front side must be in front of the back one");
  }
  if (options.uniform && (sides.left || sides.right || sides.front || sides.back)) {
    throw FitRefused("one margin for all sides and sides that are held do not go together");
  }
  if (options.within && !(options.within->width() > 0 && options.within->depth() > 0)) {
    throw FitRefused("the bounds to stay within must have left before right and front before back");
  }
  if (options.decimals < 0 || options.decimals > kMostDecimals) {
    throw FitRefused("numbers can be rounded to 0 to 4 decimals");
  }
  if (options.within) {
    const Box& within = *options.within;
    const auto inside = [](const std::optional<double>& v, double low, double high) {
      return !v || (*v >= low && *v <= high);
    };
    if (!inside(sides.left, within.x0, within.x1) || !inside(sides.right, within.x0, within.x1) ||
        !inside(sides.front, within.y0, within.y1) || !inside(sides.back, within.y0, within.y1)) {
      throw FitRefused("a side is held outside the bounds to stay within");
    }
  }
  if (!(options.home_leeway >= 0 && options.home_leeway <= 1e6)) {
    throw FitRefused("the leeway for homing must be from 0 to 1e6 mm");
  }
}

LineCount count_of(const std::optional<int>& asked, const std::optional<double>& spacing,
                   const std::optional<int>& of_request, const char* lines) {
  if (spacing) {
    if (asked)
      throw FitRefused(std::string("give a spacing or a number of ") + lines + ", not both");
    if (!(*spacing > 0 && *spacing <= 1e6)) {
      throw FitRefused("the spacing must be above 0 and at most 1e6 mm, not " + text(*spacing));
    }
    return LineCount::spaced(*spacing);
  }
  const std::optional<int> count = asked ? asked : of_request;
  if (!count) {
    throw FitRefused(std::string("the setup asks for no grid, so the number of ") + lines +
                     " must be given, or a spacing");
  }
  if (*count < 2) {
    throw FitRefused(std::string("a grid needs at least 2 ") + lines + ", not " +
                     std::to_string(*count) +
                     ": fewer cover no area; choose another number of them, or a spacing");
  }
  return LineCount::fixed(*count);
}

// The multiples of `step` from `low` to `high`, or the side that is held.
SideChoices choices(double low, double high, double step, const std::optional<double>& held) {
  if (held) return {*held};
  // A multiple that is beyond the end only by what decimals lose in binary still counts.
  const double first = std::ceil(low / step - 1e-9);
  const double last = std::floor(high / step + 1e-9);
  if (last - first + 1 > kMostBounds) {
    throw FitRefused("a step of " + text(step) + " mm gives a side more than " +
                     std::to_string(kMostBounds) + " places; use a larger one");
  }
  SideChoices out;
  for (double k = first; k <= last; ++k) out.push_back(rounded_to_ticks(k * step));
  return out;
}

// Held sides and limits may leave the two sides different places to choose from.
void trim(SideChoices& low, SideChoices& high) {
  if (low.empty() || high.empty()) return;
  const double least = low.front();
  const double most = high.back();
  std::erase_if(low, [&](double v) { return v >= most; });
  std::erase_if(high, [&](double v) { return v <= least; });
}

// Of the widest mesh that may be looked at.
void check_points(const FitProblem& problem, const FitOptions& options, const Box& bed) {
  const FitSides& sides = options.sides;
  const Box widest{std::min(bed.x0, sides.left.value_or(bed.x0)),
                   std::max(bed.x1, sides.right.value_or(bed.x1)),
                   std::min(bed.y0, sides.front.value_or(bed.y0)),
                   std::max(bed.y1, sides.back.value_or(bed.y1))};
  // In doubles, which such a product cannot overflow.
  const double points =
      problem.columns.exactly_over(widest.width()) * problem.rows.exactly_over(widest.depth());
  if (points > static_cast<double>(kMostMeshPoints)) {
    throw FitRefused("a grid may have at most " + std::to_string(kMostMeshPoints) +
                     " points, not " + count_text(points));
  }
}

Box box_of(const ReachableLine& line) {
  const Interval& over = line.over;
  return line.along == Axis::x ? Box{over.low, over.high, line.at, line.at}
                               : Box{line.at, line.at, over.low, over.high};
}

Box united_box(const Box& a, const Box& b) {
  return {std::min(a.x0, b.x0), std::max(a.x1, b.x1), std::min(a.y0, b.y0), std::max(a.y1, b.y1)};
}

FitProblem problem_of(const Rig& rig, const FitOptions& options) {
  const Setup& setup = rig.setup();
  const Regions& regions = rig.regions();
  check_options(options);
  FitProblem problem;
  problem.limits = &rig.limits();
  problem.regions = &regions;
  problem.shortfall = shortfall_of(setup);
  problem.inside = options.inside;
  problem.step = options.step;
  std::optional<int> columns;
  std::optional<int> rows;
  if (const std::optional<Grid>& grid = setup.request.grid) {
    problem.skip_outside_bed = grid->skip_outside_bed;
    columns = grid->columns;
    rows = grid->rows;
  }
  problem.columns = count_of(options.columns, options.spacing, columns, "columns");
  problem.rows = count_of(options.rows, options.spacing, rows, "rows");
  const Box bed = bounding_box(setup.machine.bed);
  problem.centre = {(bed.x0 + bed.x1) / 2, (bed.y0 + bed.y1) / 2};
  check_points(problem, options, bed);

  // No mesh reaches beyond the box of the region, widened by what polygons fall short of it. Where
  // there is no region nothing fits, and the problem is left without choices.
  std::optional<Box> around = bounds(regions.get(RegionKind::reachable));
  if (!around) return problem;
  if (!options.inside) problem.lines = reachable_lines(rig);
  for (const ReachableLine& line : problem.lines) *around = united_box(*around, box_of(line));
  const double more = problem.shortfall;
  *around = {around->x0 - more, around->x1 + more, around->y0 - more, around->y1 + more};
  if (options.within) {
    const Box& within = *options.within;
    *around = {std::max(around->x0, within.x0), std::min(around->x1, within.x1),
               std::max(around->y0, within.y0), std::min(around->y1, within.y1)};
  }
  const FitSides& sides = options.sides;
  problem.lefts = choices(around->x0, around->x1, options.step, sides.left);
  problem.rights = choices(around->x0, around->x1, options.step, sides.right);
  problem.fronts = choices(around->y0, around->y1, options.step, sides.front);
  problem.backs = choices(around->y0, around->y1, options.step, sides.back);
  if (sides.left || sides.right) trim(problem.lefts, problem.rights);
  if (sides.front || sides.back) trim(problem.fronts, problem.backs);
  if (options.progress) {
    problem.breathe = [report = options.progress] { go_on(report); };
  }
  return problem;
}

struct UniformMesh {
  double margin = 0;
  FoundMesh mesh;
};

// Looks at the meshes with the same margin on all sides.
class UniformSearch {
 public:
  explicit UniformSearch(const FitTask& task)
      : task_(task),
        bed_(bounding_box(task.setup.machine.bed)),
        reachable_(task.regions.get(RegionKind::reachable)),
        reach_(bounds(task.regions.get(RegionKind::reachable))) {}

  // Margins are tried from the smallest on: a larger one covers less, or as much. With `first`, the
  // first that fits.
  std::optional<UniformMesh> best(bool first) const {
    std::optional<UniformMesh> best;
    if (!reach_) return best;
    const double last = std::min(bed_.width(), bed_.depth()) / 2 / task_.options.step;
    for (double k = first_step(); k <= last && !(first && best); ++k) {
      task_.problem.work();
      const double margin = rounded_to_ticks(k * task_.options.step);
      const Box mesh = inward(margin);
      if (mesh.width() <= 0 || mesh.depth() <= 0) break;
      if (!is_within(mesh) || (task_.problem.inside && !lies_inside(mesh))) continue;
      std::optional<FoundMesh> found = mesh_over(task_.problem, mesh);
      if (!found) continue;
      found->area = to_millionths(area_within(*task_.problem.printable, mesh));
      // Larger margins cover less from here on.
      if (found->area <= 0 || (best && found->area < best->mesh.area)) break;
      if (!best || found->better_than(best->mesh)) best = UniformMesh{margin, *found};
    }
    return best;
  }

 private:
  // Where a mesh sticks out of the reachable region's box, points of its sides fail: of a mesh that
  // may leave points out, the middle ones.
  double first_step() const {
    const double needed = std::max({reach_->x0 - bed_.x0, bed_.x1 - reach_->x1,
                                    reach_->y0 - bed_.y0, bed_.y1 - reach_->y1, 0.0}) -
                          task_.problem.shortfall;
    return std::max(0.0, std::floor(needed / task_.options.step) - 1);
  }

  Box inward(double margin) const {
    return {lattice_ceil(bed_.x0 + margin), lattice_floor(bed_.x1 - margin),
            lattice_ceil(bed_.y0 + margin), lattice_floor(bed_.y1 - margin)};
  }

  bool is_within(const Box& mesh) const {
    const std::optional<Box>& within = task_.options.within;
    return !within || (mesh.x0 >= within->x0 && mesh.x1 <= within->x1 && mesh.y0 >= within->y0 &&
                       mesh.y1 <= within->y1);
  }

  bool lies_inside(const Box& mesh) const {
    const Intervals good = reachable_.throughout(mesh.x0, mesh.x1);
    return std::any_of(good.begin(), good.end(),
                       [&](const Interval& i) { return mesh.y0 >= i.low && mesh.y1 <= i.high; });
  }

  const FitTask& task_;
  Box bed_;
  Slices reachable_;
  std::optional<Box> reach_;
};

FitPoint tightest_point(const Limits& limits, const std::vector<CheckedPoint>& points) {
  FitPoint tightest;
  double least = std::numeric_limits<double>::infinity();
  for (const CheckedPoint& point : points) {
    const Finding finding = limits.evaluate(point.probe);
    if (finding.leeway - finding.guard >= least) continue;
    least = finding.leeway - finding.guard;
    tightest = {point.probe, finding};
  }
  return tightest;
}

Rig keeping(const Rig& rig, const FitOptions& options) {
  if (options.keep == 0) return rig;
  std::optional<Rig> keeping = rig_keeping(rig, options.keep);
  if (!keeping) {
    throw FitRefused("nothing is " + text(options.keep) + " mm from all ends of the travel");
  }
  return *std::move(keeping);
}

}  // namespace

double shortfall_of(const Setup& setup) {
  const Point u = setup.probe.offset_uncertainty;
  return u.x == u.y ? 0.005 : 0.03;
}

void FitTask::count_moves() {
  if (!setup.probe.travel_height || problem.lefts.empty() || problem.fronts.empty()) return;
  constexpr double kBeyond = 1;  // so that no mesh touches the box's edge
  moves.emplace(rig, Box{problem.lefts.front() - kBeyond, problem.rights.back() + kBeyond,
                         problem.fronts.front() - kBeyond, problem.backs.back() + kBeyond});
  problem.moves = &*moves;
}

FitTask::FitTask(const Rig& of, const FitOptions& with)
    : stated(of),
      rig(keeping(of, with)),
      setup(rig.setup()),
      options(with),
      limits(rig.limits()),
      regions(rig.regions()),
      problem(problem_of(rig, with)) {
  problem.printable = &stated.regions().get(RegionKind::printable);
}

std::optional<FoundMesh> best_for(const FitTask& task) {
  if (!task.options.uniform) return best_mesh(task.problem);
  const std::optional<UniformMesh> best = UniformSearch(task).best(false);
  return best ? std::optional(best->mesh) : std::nullopt;
}

bool fits(const FitTask& task) {
  if (!task.options.uniform) return has_mesh(task.problem);
  return UniformSearch(task).best(true).has_value();
}

std::optional<double> uniform_margin(const FitTask& task) {
  const std::optional<UniformMesh> best = UniformSearch(task).best(false);
  return best ? std::optional(best->margin) : std::nullopt;
}

FitMesh fit_mesh_of(const FitTask& task, const FoundMesh& found) {
  FitMesh mesh;
  mesh.columns = found.columns;
  mesh.rows = found.rows;
  mesh.bounds = found.bounds;
  mesh.area = found.area;
  mesh.least_leeway = found.least_leeway + task.options.keep;
  Setup fitted = with_mesh(task.stated.setup(), mesh);
  fitted.request.points.clear();
  fitted.request.home.reset();
  const Limits& limits = task.stated.limits();
  const std::vector<CheckedPoint> points = requested_points(fitted, limits, mesh.skipped);
  mesh.tightest = tightest_point(limits, points);
  mesh.coverage = coverage_of(*task.problem.printable, mesh.bounds);
  const Rounding millionths(6);
  mesh.spacing = {millionths.down(mesh.bounds.width() / (mesh.columns - 1)),
                  millionths.down(mesh.bounds.depth() / (mesh.rows - 1))};
  return mesh;
}

}  // namespace leeway
