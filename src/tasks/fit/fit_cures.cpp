#include "tasks/fit/fit_cures.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "geometry/areas/pole.h"
#include "geometry/plane/vector.h"
#include "model/ticks.h"
#include "tasks/bracket/tenths.h"
#include "tasks/check/requested_points.h"

namespace leeway {
namespace {

// A mesh for the setup and options as changed; nothing when they still do not fit.
std::optional<FitMesh> fitted(const Setup& setup, const FitOptions& options) {
  const FitTask task(setup, options);
  const std::optional<FoundMesh> found = best_for(task);
  if (!found) return std::nullopt;
  return describe(task, *found);
}

using Knob = FitCure::Knob;

void try_fewer(const FitTask& task, Knob knob, const LineCount& lines,
               std::vector<FitCure>& cures) {
  if (!lines.always_the_same()) return;
  const int from = lines.over(0);
  for (int count = from - 1; count >= 2; --count) {
    FitOptions options = task.options;
    (knob == Knob::columns ? options.columns : options.rows) = count;
    if (const auto mesh = fitted(task.setup, options)) {
      cures.push_back({knob, static_cast<double>(from), static_cast<double>(count), {}, {}, *mesh});
      return;
    }
  }
}

// The largest of `least`, least + 0.01, ... below `from` that fits: less is never worse.
template <typename Change>
void try_smaller(const FitTask& task, Knob knob, double from, double least, const Change& change,
                 std::vector<FitCure>& cures) {
  if (from <= least) return;
  const auto attempt = [&](double value) {
    Setup setup = task.setup;
    change(setup, value);
    return fitted(setup, task.options);
  };
  std::optional<FitMesh> best = attempt(least);
  if (!best) return;
  const auto value_of = [least](long hundredths) {
    return std::round((least + 0.01 * static_cast<double>(hundredths)) * 100) / 100;
  };
  long good = 0;
  long bad = static_cast<long>(std::ceil((from - least) * 100 - 1e-9));
  while (bad - good > 1) {
    const long middle = good + (bad - good) / 2;
    if (std::optional<FitMesh> mesh = attempt(value_of(middle))) {
      good = middle;
      best = mesh;
    } else {
      bad = middle;
    }
  }
  cures.push_back({knob, from, value_of(good), {}, {}, *best});
}

struct Moved {
  double by = 0;
  Point offset;
  FitMesh mesh;
};

std::optional<Moved> mesh_after_move(const FitTask& task, Point direction, double by) {
  const Point from = task.setup.probe.offset;
  Setup setup = task.setup;
  setup.probe.offset = {rounded_to_ticks(from.x + tenths(by * direction.x)),
                        rounded_to_ticks(from.y + tenths(by * direction.y))};
  if (setup.probe.offset == from) return std::nullopt;
  std::optional<FitMesh> mesh = fitted(setup, task.options);
  if (!mesh) return std::nullopt;
  return Moved{distance(setup.probe.offset, from), setup.probe.offset, *mesh};
}

// The shortest move in one direction, when one of `most` will do.
std::optional<Moved> shortest(const FitTask& task, Point direction, double most) {
  std::optional<Moved> best = mesh_after_move(task, direction, most);
  double bad = 0;
  while (best && most - bad > 0.11) {
    const double middle = tenths((most + bad) / 2);
    if (std::optional<Moved> here = mesh_after_move(task, direction, middle)) {
      best = here;
      most = middle;
    } else {
      bad = middle;
    }
  }
  return best;
}

void try_offset(const FitTask& task, std::vector<FitCure>& cures) {
  constexpr int kDirections = 16;
  const Box plate = bounding_box(task.setup.machine.bed);
  const double farthest = plate.width() + plate.depth();
  for (double most = 0.4; most <= 2 * farthest; most *= 2) {
    std::optional<Moved> best;
    for (int i = 0; i < kDirections; ++i) {
      const double angle = 2 * std::numbers::pi * i / kDirections;
      const std::optional<Moved> here = shortest(task, {std::cos(angle), std::sin(angle)}, most);
      if (here && (!best || here->by < best->by - 1e-9)) best = here;
    }
    if (!best) continue;
    cures.push_back({Knob::offset, 0, best->by, best->offset, {}, best->mesh});
    return;
  }
}

// Each held side alone, let go.
void try_sides(const FitTask& task, std::vector<FitCure>& cures) {
  const auto attempt = [&](const char* name, std::optional<double> FitSides::*side,
                           double Box::*bound) {
    if (!(task.options.sides.*side)) return;
    FitOptions options = task.options;
    (options.sides.*side).reset();
    if (const auto mesh = fitted(task.setup, options)) {
      cures.push_back(
          {Knob::side, *(task.options.sides.*side), mesh->bounds.*bound, {}, name, *mesh});
    }
  };
  attempt("left", &FitSides::left, &Box::x0);
  attempt("right", &FitSides::right, &Box::x1);
  attempt("front", &FitSides::front, &Box::y0);
  attempt("back", &FitSides::back, &Box::y1);
}

void try_within(const FitTask& task, std::vector<FitCure>& cures) {
  if (!task.options.within) return;
  FitOptions options = task.options;
  options.within.reset();
  if (const auto mesh = fitted(task.setup, options)) {
    cures.push_back({Knob::within, 0, 0, {}, {}, *mesh});
  }
}

void try_step(const FitTask& task, std::vector<FitCure>& cures) {
  for (const double step : {10.0, 2.0, 0.5, 0.1, kFinestStep}) {
    if (step >= task.options.step) continue;
    FitOptions options = task.options;
    options.step = step;
    if (const auto mesh = fitted(task.setup, options)) {
      cures.push_back({Knob::step, task.options.step, step, {}, {}, *mesh});
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
  Box box =
      bounds(task.regions.get(RegionKind::guarded)).value_or(bounding_box(task.setup.machine.bed));
  if (const auto mesh = fitted(task.setup, free)) box = mesh->bounds;
  if (const std::optional<Box>& within = task.options.within) {
    box = {std::clamp(box.x0, within->x0, within->x1), std::clamp(box.x1, within->x0, within->x1),
           std::clamp(box.y0, within->y0, within->y1), std::clamp(box.y1, within->y0, within->y1)};
  }
  const FitSides& sides = task.options.sides;
  hold(box.x0, box.x1, sides.left, sides.right);
  hold(box.y0, box.y1, sides.front, sides.back);
  if (task.options.uniform) {
    const Box plate = bounding_box(task.setup.machine.bed);
    const double margin =
        std::max({box.x0 - plate.x0, plate.x1 - box.x1, box.y0 - plate.y0, plate.y1 - box.y1, 0.0});
    box = {plate.x0 + margin, plate.x1 - margin, plate.y0 + margin, plate.y1 - margin};
  }
  return box;
}

}  // namespace

FitBlame blame_for(const FitTask& task) {
  FitBlame blame;
  blame.why_empty = task.regions.why_empty(RegionKind::guarded);
  if (blame.why_empty) {
    const Pole pole = greatest_over(
        bounding_box(task.setup.machine.bed),
        [&](Point p) { return std::max(task.limits.least_leeway(p), -1e6); }, 0.01);
    const Point at{tenths(pole.at.x), tenths(pole.at.y)};
    blame.place = {at, task.limits.evaluate(at)};
    return blame;
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
    if (!first && room >= blame.place.finding.leeway - blame.place.finding.guard) continue;
    blame.place = {point.probe, finding};
    first = false;
  }
  if (first) {
    const Point at = task.problem.centre;
    blame.place = {at, task.limits.evaluate(at)};
  }
  return blame;
}

std::vector<FitCure> cures_for(const FitTask& task) {
  std::vector<FitCure> cures;
  try_sides(task, cures);
  try_within(task, cures);
  try_step(task, cures);
  try_fewer(task, Knob::columns, task.problem.columns, cures);
  try_fewer(task, Knob::rows, task.problem.rows, cures);
  try_smaller(
      task, Knob::edge_distance, task.setup.probe.edge_distance, 0,
      [](Setup& setup, double value) { setup.probe.edge_distance = value; }, cures);
  try_smaller(
      task, Knob::coverage_factor, task.setup.coverage_factor, 0.01,
      [](Setup& setup, double value) { setup.coverage_factor = value; }, cures);
  try_offset(task, cures);
  return cures;
}

}  // namespace leeway
