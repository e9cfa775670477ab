#include "tasks/fit/fit_remedies.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "geometry/areas/pole.h"
#include "geometry/plane/vector.h"
#include "model/limits/ticks.h"
#include "model/offsets/offset_limits.h"
#include "tasks/bracket/tenths.h"
#include "tasks/check/requested_points.h"

namespace leeway {
namespace {

// What a remedy would lead to is shown, not entered: the best of equals matters less.
constexpr long kTiesOfRemedy = 30'000;

// A mesh for the options as changed; nothing when they still do not fit, or cannot be looked for.
std::optional<FitMesh> fitted(const FitTask& task, const FitOptions& options) {
  try {
    FitTask changed(task.rig, options);
    changed.problem.most_for_ties = kTiesOfRemedy;
    const std::optional<FoundMesh> found = best_for(changed);
    if (!found) return std::nullopt;
    return fit_mesh_of(changed, *found);
  } catch (const FitRefused&) {
    return std::nullopt;
  }
}

// The same for a changed setup.
std::optional<FitMesh> fitted(const Rig& rig, const FitOptions& options) {
  FitTask changed(rig, options);
  changed.problem.most_for_ties = kTiesOfRemedy;
  const std::optional<FoundMesh> found = best_for(changed);
  if (!found) return std::nullopt;
  return fit_mesh_of(changed, *found);
}

// Whether the setup as changed lets any mesh fit.
bool fits(const Rig& rig, const FitOptions& options) { return fits(FitTask(rig, options)); }

// Counts below `from` in the order in which they are tried: one by one, and of very many ever
// fewer.
std::vector<int> fewer_than(int from) {
  constexpr int kOneByOne = 24;
  std::vector<int> counts;
  for (int count = from - 1; count >= 2; count -= count > from - kOneByOne ? 1 : count / 8 + 1) {
    counts.push_back(count);
  }
  if (!counts.empty() && counts.back() != 2) counts.push_back(2);
  return counts;
}

// `Lines` is GridColumns or GridRows, `option` what asks for as many.
template <typename Lines>
void try_fewer(const FitTask& task, std::optional<int> FitOptions::*option, const LineCount& lines,
               std::vector<FitRemedy>& remedies) {
  if (!lines.always_the_same()) return;
  const int from = lines.over(0);
  for (const int count : fewer_than(from)) {
    FitOptions options = task.options;
    options.*option = count;
    if (const auto mesh = fitted(task, options)) {
      remedies.push_back({Lines{count}, static_cast<double>(from), *mesh});
      return;
    }
  }
}

// The largest of `least`, least + 0.01, ... below `from` that fits: less is never worse. `Number`
// is the change of the setup that has one.
template <typename Number>
void try_smaller(const FitTask& task, double from, double least, std::vector<FitRemedy>& remedies) {
  if (from <= least) return;
  const auto with = [&](double value) {
    return task.rig.with(applied({Number{value}}, task.setup));
  };
  if (!fits(with(least), task.options)) return;
  const auto value_of = [least](long hundredths) {
    return std::round((least + 0.01 * static_cast<double>(hundredths)) * 100) / 100;
  };
  long good = 0;
  long bad = static_cast<long>(std::ceil((from - least) * 100 - 1e-9));
  while (bad - good > 1) {
    const long middle = good + (bad - good) / 2;
    (fits(with(value_of(middle)), task.options) ? good : bad) = middle;
  }
  const double to = good == 0 ? least : value_of(good);
  const std::optional<FitMesh> mesh = fitted(with(to), task.options);
  if (mesh) remedies.push_back({Number{value_of(good)}, from, *mesh});
}

// Where the offset may be moved to, for all that boxes tell of it.
class OffsetMoves {
 public:
  explicit OffsetMoves(const FitTask& task)
      : task_(task),
        sensing_(bounds(task.regions.get(RegionKind::sensing))),
        printable_(bounds(task.regions.get(RegionKind::printable))),
        travel_(bounding_box(task.setup.machine.travel)),
        mount_(task.rig, {}) {}

  // Whether some offset might let a mesh fit.
  bool any() const { return sensing_ && printable_; }

  // The offset after a move, when a mesh fits then.
  std::optional<Point> fitting(Point direction, double by) const {
    const Point from = task_.setup.probe.offset;
    const Point to{rounded_to_ticks(from.x + tenths(by * direction.x)),
                   rounded_to_ticks(from.y + tenths(by * direction.y))};
    if (to == from || !may_do(to) || mount_.slack_of_mount(to) < 0) return std::nullopt;
    return fits(task_.rig.at(to), task_.options) ? std::optional(to) : std::nullopt;
  }

 private:
  bool may_do(Point offset) const {
    const double x0 = std::max({sensing_->x0, printable_->x0, travel_.x0 + offset.x});
    const double x1 = std::min({sensing_->x1, printable_->x1, travel_.x1 + offset.x});
    const double y0 = std::max({sensing_->y0, printable_->y0, travel_.y0 + offset.y});
    const double y1 = std::min({sensing_->y1, printable_->y1, travel_.y1 + offset.y});
    const double more = 2 * task_.problem.shortfall;
    return x1 - x0 > -more && y1 - y0 > -more;
  }

  const FitTask& task_;
  std::optional<Box> sensing_;
  std::optional<Box> printable_;
  Box travel_;
  OffsetLimits mount_;
};

// The shortest move in one direction, when one of `most` will do.
std::optional<Point> shortest(const OffsetMoves& moves, Point direction, double most) {
  std::optional<Point> best = moves.fitting(direction, most);
  double bad = 0;
  while (best && most - bad > 0.11) {
    const double middle = tenths((most + bad) / 2);
    if (const std::optional<Point> here = moves.fitting(direction, middle)) {
      best = here;
      most = middle;
    } else {
      bad = middle;
    }
  }
  return best;
}

void try_offset(const FitTask& task, std::vector<FitRemedy>& remedies) {
  const OffsetMoves moves(task);
  if (!moves.any()) return;
  constexpr int kDirections = 16;
  const Point from = task.setup.probe.offset;
  const Box bed = bounding_box(task.setup.machine.bed);
  const double farthest = bed.width() + bed.depth();
  for (double most = 0.4; most <= 2 * farthest; most *= 2) {
    std::optional<Point> best;
    for (int i = 0; i < kDirections; ++i) {
      const double angle = 2 * std::numbers::pi * i / kDirections;
      const auto here = shortest(moves, {std::cos(angle), std::sin(angle)}, most);
      if (here && (!best || distance(*here, from) < distance(*best, from) - 1e-9)) best = here;
    }
    if (!best) continue;
    if (const auto mesh = fitted(task.rig.at(*best), task.options)) {
      remedies.push_back({ProbeOffset{*best}, 0, *mesh});
    }
    return;
  }
}

// Each held side alone, let go.
void try_sides(const FitTask& task, std::vector<FitRemedy>& remedies) {
  const auto attempt = [&](GridSide edge, std::optional<double> FitSides::*side,
                           double Box::*bound) {
    if (!(task.options.sides.*side)) return;
    FitOptions options = task.options;
    (options.sides.*side).reset();
    if (const auto mesh = fitted(task, options)) {
      remedies.push_back(
          {SideLetGo{edge, mesh->bounds.*bound}, *(task.options.sides.*side), *mesh});
    }
  };
  attempt(GridSide::left, &FitSides::left, &Box::x0);
  attempt(GridSide::right, &FitSides::right, &Box::x1);
  attempt(GridSide::front, &FitSides::front, &Box::y0);
  attempt(GridSide::back, &FitSides::back, &Box::y1);
}

void try_within(const FitTask& task, std::vector<FitRemedy>& remedies) {
  if (!task.options.within) return;
  FitOptions options = task.options;
  options.within.reset();
  if (const auto mesh = fitted(task, options)) {
    remedies.push_back({WithinLetGo{}, 0, *mesh});
  }
}

void try_step(const FitTask& task, std::vector<FitRemedy>& remedies) {
  for (const double step : {10.0, 2.0, 0.5, 0.1, kFinestStep}) {
    if (step >= task.options.step) continue;
    FitOptions options = task.options;
    options.step = step;
    if (const auto mesh = fitted(task, options)) {
      remedies.push_back({SearchStep{step}, task.options.step, *mesh});
      return;
    }
  }
}

void hold(double& low, double& high, const std::optional<double>& held_low,
          const std::optional<double>& held_high) {
  if (held_low) low = *held_low;
  if (held_high) high = *held_high;
  if (low > high) (held_low ? high : low) = held_low ? low : high;
}

// The bounds that come nearest to what the options ask for: what would fit without them, moved
// to where they want it.
Box asked_bounds(const FitTask& task) {
  FitOptions free = task.options;
  free.sides = {};
  free.within.reset();
  free.uniform = false;
  Box box = bounds(task.regions.get(RegionKind::reachable))
                .value_or(bounding_box(task.setup.machine.bed));
  if (const auto mesh = fitted(task, free)) box = mesh->bounds;
  if (const std::optional<Box>& within = task.options.within) {
    box = {std::clamp(box.x0, within->x0, within->x1), std::clamp(box.x1, within->x0, within->x1),
           std::clamp(box.y0, within->y0, within->y1), std::clamp(box.y1, within->y0, within->y1)};
  }
  const FitSides& sides = task.options.sides;
  hold(box.x0, box.x1, sides.left, sides.right);
  hold(box.y0, box.y1, sides.front, sides.back);
  if (task.options.uniform) {
    const Box bed = bounding_box(task.setup.machine.bed);
    const double margin =
        std::max({box.x0 - bed.x0, bed.x1 - box.x1, box.y0 - bed.y0, bed.y1 - box.y1, 0.0});
    box = {bed.x0 + margin, bed.x1 - margin, bed.y0 + margin, bed.y1 - margin};
  }
  return box;
}

// Whether even the widest mesh that might be looked at covers nothing.
bool widest_covers_nothing(const FitTask& task) {
  const FitProblem& problem = task.problem;
  if (problem.lefts.empty() || problem.rights.empty() || problem.fronts.empty() ||
      problem.backs.empty()) {
    return false;
  }
  const Box widest{problem.lefts.front(), problem.rights.back(), problem.fronts.front(),
                   problem.backs.back()};
  return to_millionths(area_within(task.regions.get(RegionKind::printable), widest)) <= 0;
}

// The printable place nearest to where the probe gets; that itself where nothing can be printed.
Point printable_place(const FitTask& task) {
  const Box around = *bounds(task.regions.get(RegionKind::reachable));
  const Point middle{(around.x0 + around.x1) / 2, (around.y0 + around.y1) / 2};
  const Point near =
      closest_point(task.regions.get(RegionKind::reachable), middle).value_or(middle);
  return closest_point(task.regions.get(RegionKind::printable), near).value_or(near);
}

}  // namespace

FitLimiting limiting_for(const FitTask& task) {
  FitLimiting limiting;
  limiting.why_empty = task.regions.why_empty(RegionKind::reachable);
  if (limiting.why_empty) {
    // Of a set that is empty every place is as far out: the first one is taken.
    const Pole pole = greatest_over(
        bounding_box(task.setup.machine.bed), [&](Point p) { return task.limits.least_leeway(p); },
        0.01);
    const Point at{tenths(pole.at.x), tenths(pole.at.y)};
    limiting.place = {at, task.limits.evaluate(at)};
    return limiting;
  }
  limiting.why_unprintable = task.regions.why_empty(RegionKind::printable);
  limiting.covers_nothing = widest_covers_nothing(task);
  if (limiting.covers_nothing) {
    const Point at = printable_place(task);
    limiting.place = {at, task.limits.evaluate(at)};
    return limiting;
  }
  FitMesh mesh;
  mesh.bounds = asked_bounds(task);
  mesh.columns = task.problem.columns.over(mesh.bounds.width());
  mesh.rows = task.problem.rows.over(mesh.bounds.depth());
  Setup asked = with_mesh(task.setup, mesh);
  asked.request.points.clear();
  asked.request.home.reset();
  bool first = true;
  std::size_t skipped = 0;
  for (const CheckedPoint& point : requested_points(asked, task.limits, skipped)) {
    const Finding finding = task.limits.evaluate(point.probe);
    const double room = finding.leeway - finding.guard;
    if (!first && room >= limiting.place.finding.leeway - limiting.place.finding.guard) continue;
    limiting.place = {point.probe, finding};
    first = false;
  }
  if (first) {
    const Point at = task.problem.centre;
    limiting.place = {at, task.limits.evaluate(at)};
  }
  return limiting;
}

std::vector<FitRemedy> remedies_for(const FitTask& task) {
  std::vector<FitRemedy> remedies;
  const auto empty = [&](RegionKind kind) { return task.regions.get(kind).empty(); };
  // What is empty for another reason than a parameter, no turn of it fills.
  if (empty(RegionKind::printable)) return remedies;
  if (!empty(RegionKind::within_limits)) {
    try_sides(task, remedies);
    try_within(task, remedies);
    try_step(task, remedies);
    try_fewer<GridColumns>(task, &FitOptions::columns, task.problem.columns, remedies);
    try_fewer<GridRows>(task, &FitOptions::rows, task.problem.rows, remedies);
  }
  try_smaller<EdgeDistance>(task, task.setup.probe.edge_distance, 0, remedies);
  if (!empty(RegionKind::within_limits)) {
    try_smaller<CoverageFactor>(task, task.setup.coverage_factor, 0.01, remedies);
  }
  try_offset(task, remedies);
  return remedies;
}

}  // namespace leeway
