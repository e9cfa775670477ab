#include "tasks/explain/explain_cures.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

#include "geometry/plane/vector.h"
#include "model/ticks.h"
#include "tasks/bracket/tenths.h"
#include "tasks/check/requested_points.h"

namespace leeway {
namespace {

// Whether every requested point is reachable.
bool all_points_reachable(const Setup& setup) {
  const PointCounts counts = count_points(setup, Limits(setup), true);
  return counts.points > 0 && counts.failing == 0;
}

bool grid_works(const Setup& setup) {
  Setup only = setup;
  only.request.points.clear();
  only.request.home.reset();
  return all_points_reachable(only);
}

bool grid_fails(const CheckResult& checked) {
  return std::any_of(checked.points.begin(), checked.points.end(), [](const CheckedPoint& p) {
    return p.column > 0 && p.finding.verdict != Verdict::reachable;
  });
}

bool works_with(const Setup& setup, Point offset) {
  Setup moved = setup;
  moved.probe.offset = offset;
  return all_points_reachable(moved);
}

// Adds a cure of the mesh, when it is one.
void add_mesh_cure(const Setup& changed, Cure cure, std::vector<Cure>& cures) {
  if (!grid_works(changed)) return;
  cure.still_failing = count_points(changed, Limits(changed)).failing;
  cures.push_back(std::move(cure));
}

void cure_by_margins(const Setup& setup, const FitResult& fitted, std::vector<Cure>& cures) {
  if (!fitted.numbers.uniform) return;
  const double margin = *fitted.numbers.uniform;
  Setup changed = setup;
  Grid& grid = *changed.request.grid;
  grid.extent = Margins{margin, margin, margin, margin, Margins::From::bed};
  grid.frame = Frame::probe;
  add_mesh_cure(changed,
                {Cure::Knob::margins,
                 {{"/request/grid/margins", margin},
                  {"/request/grid/margins_from", std::string("bed")},
                  {"/request/grid/frame", std::string("probe")}},
                 0,
                 {}},
                cures);
}

void cure_by_bounds(const Setup& setup, const FitResult& fitted, std::vector<Cure>& cures) {
  if (!fitted.mesh) return;
  const Box& b = fitted.mesh->bounds;
  add_mesh_cure(with_mesh(setup, *fitted.mesh),
                {Cure::Knob::bounds,
                 {{"/request/grid/x", Point{b.x0, b.x1}},
                  {"/request/grid/y", Point{b.y0, b.y1}},
                  {"/request/grid/frame", std::string("probe")}},
                 0,
                 {}},
                cures);
}

void cure_by_offset(const Setup& setup, std::vector<Cure>& cures) {
  if (const std::optional<Point> offset = nearest_offset(setup)) {
    cures.push_back({Cure::Knob::offset, {{"/probe/offset", *offset}}, 0, {}});
  }
}

// How much further the travel would have to go, side by side.
void cure_by_travel(const Setup& setup, const Limits& limits, const CheckResult& checked,
                    std::vector<Cure>& cures) {
  const Box* travel = std::get_if<Box>(&setup.machine.travel);
  if (travel == nullptr) return;
  BlindStrips further;
  for (std::size_t i = 0; i < limits.size(); ++i) {
    const LimitInfo& info = limits.info(i);
    if (info.group != LimitGroup::travel) continue;
    double* side = info.side == LimitSide::left    ? &further.left
                   : info.side == LimitSide::right ? &further.right
                   : info.side == LimitSide::front ? &further.front
                                                   : &further.back;
    for (const CheckedPoint& point : checked.points) {
      const LimitReading reading = limits.reading(i, point.probe);
      *side = std::max(*side, std::ceil((reading.guard - reading.leeway) * 10 - 1e-6) / 10);
    }
  }
  if (further.left + further.right + further.front + further.back <= 0) return;
  Setup changed = setup;
  const Box longer{
      rounded_to_ticks(travel->x0 - further.left), rounded_to_ticks(travel->x1 + further.right),
      rounded_to_ticks(travel->y0 - further.front), rounded_to_ticks(travel->y1 + further.back)};
  changed.machine.travel = longer;
  if (!all_points_reachable(changed)) return;
  cures.push_back({Cure::Knob::travel, {{"/machine/travel", longer}}, 0, further});
}

void cure_by_fewer_points(const Setup& setup, std::vector<Cure>& cures) {
  const Grid& asked = *setup.request.grid;
  std::optional<Setup> best;
  long most = 0;
  // Of a mesh with very many points a few fewer cure nothing.
  constexpr long kMostPoints = 2500;
  if (static_cast<long>(asked.columns) * asked.rows > kMostPoints) return;
  for (int columns = asked.columns; columns >= 2; --columns) {
    for (int rows = asked.rows; rows >= 2; --rows) {
      const long points = static_cast<long>(columns) * rows;
      if (points <= most || (columns == asked.columns && rows == asked.rows)) continue;
      Setup changed = setup;
      changed.request.grid->columns = columns;
      changed.request.grid->rows = rows;
      if (!grid_works(changed)) continue;
      most = points;
      best = changed;
    }
  }
  if (!best) return;
  add_mesh_cure(*best,
                {Cure::Knob::fewer_points,
                 {{"/request/grid/columns", static_cast<double>(best->request.grid->columns)},
                  {"/request/grid/rows", static_cast<double>(best->request.grid->rows)}},
                 0,
                 {}},
                cures);
}

void cure_by_edge_distance(const Setup& setup, std::vector<Cure>& cures) {
  const auto works = [&](double distance) {
    Setup changed = setup;
    changed.probe.edge_distance = distance;
    return all_points_reachable(changed);
  };
  if (setup.probe.edge_distance <= 0 || !works(0)) return;
  long good = 0;
  long bad = static_cast<long>(std::ceil(setup.probe.edge_distance * 100 - 1e-9));
  while (bad - good > 1) {
    const long middle = (good + bad) / 2;
    (works(static_cast<double>(middle) / 100) ? good : bad) = middle;
  }
  cures.push_back({Cure::Knob::edge_distance,
                   {{"/probe/edge_distance", static_cast<double>(good) / 100}},
                   0,
                   {}});
}

}  // namespace

std::size_t count_failing(const Setup& setup, std::size_t skipped_before) {
  const PointCounts counts = count_points(setup, Limits(setup));
  const std::size_t more = counts.skipped > skipped_before ? counts.skipped - skipped_before : 0;
  return counts.points == 0 ? std::max<std::size_t>(counts.skipped, 1) : counts.failing + more;
}

std::optional<Point> nearest_offset(const Setup& setup) {
  constexpr int kDirections = 16;
  const Point from = setup.probe.offset;
  const auto place = [&](int direction, double by) {
    const double angle = 2 * std::numbers::pi * direction / kDirections;
    return Point{rounded_to_ticks(from.x + tenths(by * std::cos(angle))),
                 rounded_to_ticks(from.y + tenths(by * std::sin(angle)))};
  };
  const Box plate = bounding_box(setup.machine.bed);
  const double farthest = plate.width() + plate.depth();
  for (double most = 0.4; most < 2 * farthest; most *= 1.5) {
    std::optional<Point> best;
    for (int i = 0; i < kDirections; ++i) {
      if (!works_with(setup, place(i, most))) continue;
      double good = most;
      double bad = most == 0.4 ? 0 : most / 1.5;
      while (good - bad > 0.11) {
        const double middle = tenths((good + bad) / 2);
        (works_with(setup, place(i, middle)) ? good : bad) = middle;
      }
      const Point here = place(i, good);
      if (!best || distance(here, from) < distance(*best, from) - 1e-9) best = here;
    }
    if (best) return best;
  }
  return std::nullopt;
}

std::optional<SlipTrial> true_offset_trial(const Setup& setup) {
  if (!(setup.probe.offset == Point{0, 0})) return std::nullopt;
  // Numbers for the nozzle move the probe with the offset; numbers for the probe do not.
  constexpr int kDirections = 32;
  for (double by = 12; by <= 80; by += 2) {
    for (int i = 0; i < kDirections; ++i) {
      const double angle = 2 * std::numbers::pi * i / kDirections;
      SlipTrial trial;
      trial.slip = Slip::offset_left_at_zero;
      trial.changed = setup;
      trial.changed.probe.offset = {std::round(by * std::cos(angle)) + 0.0,
                                    std::round(by * std::sin(angle)) + 0.0};
      if (!all_points_reachable(trial.changed)) continue;
      trial.changes.push_back({"/probe/offset", trial.changed.probe.offset});
      return trial;
    }
  }
  return std::nullopt;
}

std::vector<Cure> cures_of(const Setup& setup, const Limits& limits, const CheckResult& checked) {
  std::vector<Cure> cures;
  const std::optional<Grid>& grid = setup.request.grid;
  const bool mesh = grid && grid->columns > 1 && grid->rows > 1 && grid_fails(checked);
  if (mesh) {
    FitOptions options;
    options.cures = false;
    const FitResult fitted = fit(setup, options);
    cure_by_margins(setup, fitted, cures);
    cure_by_bounds(setup, fitted, cures);
  }
  cure_by_offset(setup, cures);
  cure_by_travel(setup, limits, checked, cures);
  if (mesh) cure_by_fewer_points(setup, cures);
  cure_by_edge_distance(setup, cures);
  return cures;
}

}  // namespace leeway
