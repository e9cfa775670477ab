#include "tasks/explain/explain_remedies.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

#include "geometry/plane/core.h"
#include "geometry/plane/vector.h"
#include "model/limits/ticks.h"
#include "model/offsets/probe_beside.h"
#include "tasks/bracket/nearest_in_window.h"
#include "tasks/bracket/tenths.h"
#include "tasks/check/requested_points.h"
#include "tasks/explain/one_side.h"
#include "tasks/fit/trusted_fit.h"

namespace leeway {
namespace {

// Whether every requested point is reachable. The limits are those of the setup.
bool all_points_reachable(const Rig& rig) {
  const PointCounts counts = count_points(rig.setup(), rig.limits(), true);
  return counts.points > 0 && counts.failing == 0;
}

bool grid_works(const Rig& rig) {
  Request only = rig.setup().request;
  only.points.clear();
  only.home.reset();
  return all_points_reachable(rig.asking(only));
}

bool grid_fails(const CheckResult& checked) {
  return std::any_of(checked.points.begin(), checked.points.end(), [](const CheckedPoint& p) {
    return p.column > 0 && p.finding.verdict != Verdict::reachable;
  });
}

// What a checked point was asked for.
Frame frame_of(const Setup& setup, const CheckedPoint& point) {
  if (point.column > 0) return setup.request.grid->frame;
  if (point.name_index == kHomeIndex) return setup.request.home->frame;
  return setup.request.points[static_cast<std::size_t>(point.name_index)].frame;
}

// Whether no offset makes a point reachable: a limit of the probe's own place, or, where the place
// is the nozzle's, of its travel, asks for more than there is.
bool is_lost(const Rig& rig, const CheckedPoint& point) {
  if (point.finding.verdict == Verdict::reachable) return false;
  const Frame frame = frame_of(rig.setup(), point);
  // With another offset it might be left out.
  if (frame == Frame::nozzle && point.column > 0 && rig.setup().request.grid->skip_outside_bed) {
    return false;
  }
  for (std::size_t i = 0; i < rig.limits().size(); ++i) {
    // Those of moving parts are left to the trials, whichever they are.
    const LimitFamily::Asked asked = family_of(rig.limits().info(i).group).asked;
    if (asked !=
        (frame == Frame::nozzle ? LimitFamily::Asked::nozzle : LimitFamily::Asked::probe)) {
      continue;
    }
    const LimitReading reading = rig.limits().reading(i, point.probe);
    if (to_ticks(reading.leeway) < to_ticks(reading.guard)) return true;
  }
  return false;
}

// Whether an offset might mend the setup at all.
bool offset_may_mend(const Rig& rig, const CheckResult& checked) {
  return std::none_of(checked.points.begin(), checked.points.end(),
                      [&](const CheckedPoint& p) { return is_lost(rig, p); });
}

// Adds a remedy of the mesh, when it is one.
void add_mesh_remedy(const Rig& rig, Remedy::Parameter parameter, Changes changes,
                     std::vector<Remedy>& remedies) {
  const Rig changed = rig.asking(applied(changes, rig.setup()).request);
  if (!grid_works(changed)) return;
  const PointCounts counts = count_points(changed.setup(), changed.limits());
  remedies.push_back({parameter, std::move(changes), counts.failing, {}});
}

void remedy_by_margins(const Rig& rig, const FitResult& fitted, std::vector<Remedy>& remedies) {
  if (!fitted.uniform_margin) return;
  add_mesh_remedy(rig, Remedy::Parameter::margins,
                  {GridMargins{*fitted.uniform_margin}, GridMarginsFrom{Margins::From::bed},
                   GridFrame{Frame::probe}},
                  remedies);
}

void remedy_by_bounds(const Rig& rig, const FitResult& fitted, std::vector<Remedy>& remedies) {
  if (!fitted.mesh) return;
  const Box& b = fitted.mesh->bounds;
  add_mesh_remedy(rig, Remedy::Parameter::bounds,
                  {GridAlongX{b.x0, b.x1}, GridAlongY{b.y0, b.y1}, GridFrame{Frame::probe}},
                  remedies);
}

void remedy_by_offset(const Rig& rig, const CheckResult& checked, const BeforeTrial& before,
                      std::vector<Remedy>& remedies) {
  if (!offset_may_mend(rig, checked)) return;
  if (const std::optional<Point> offset = nearest_offset(rig, before)) {
    remedies.push_back({Remedy::Parameter::offset, {ProbeOffset{*offset}}, 0, {}});
  }
}

// How much further the travel would have to go, side by side.
void remedy_by_travel(const Rig& rig, const CheckResult& checked, std::vector<Remedy>& remedies) {
  const Box* travel = as_box(rig.setup().machine.travel);
  if (travel == nullptr) return;
  UncoveredStrips further;
  for (std::size_t i = 0; i < rig.limits().size(); ++i) {
    const LimitInfo& info = rig.limits().info(i);
    if (info.group != LimitGroup::travel) continue;
    double* side = info.side == LimitSide::left    ? &further.left
                   : info.side == LimitSide::right ? &further.right
                   : info.side == LimitSide::front ? &further.front
                                                   : &further.back;
    for (const CheckedPoint& point : checked.points) {
      const LimitReading reading = rig.limits().reading(i, point.probe);
      *side = std::max(*side, std::ceil((reading.guard - reading.leeway) * 10 - 1e-6) / 10);
    }
  }
  if (further.left + further.right + further.front + further.back <= 0) return;
  // Nobody misreads the end of a travel by more.
  constexpr double kMostFurther = 15;
  if (std::max({further.left, further.right, further.front, further.back}) > kMostFurther) return;
  Setup changed = rig.setup();
  const Box longer{
      rounded_to_ticks(travel->x0 - further.left), rounded_to_ticks(travel->x1 + further.right),
      rounded_to_ticks(travel->y0 - further.front), rounded_to_ticks(travel->y1 + further.back)};
  changed.machine.travel = longer;
  if (!all_points_reachable(rig.with(changed))) return;
  remedies.push_back({Remedy::Parameter::travel, {TravelShape{longer}}, 0, further});
}

// Whether a corner that every smaller mesh has too is not reachable.
bool corner_fails(const CheckedPoint& point, const Grid& grid) {
  return (point.column == 1 || point.column == grid.columns) &&
         (point.row == 1 || point.row == grid.rows) && point.finding.verdict != Verdict::reachable;
}

void remedy_by_fewer_points(const Rig& rig, const CheckResult& checked, const BeforeTrial& before,
                            std::vector<Remedy>& remedies) {
  const Grid& asked = *rig.setup().request.grid;
  long most = 0;
  // Of a mesh with very many points a few fewer remedy nothing.
  constexpr long kMostPoints = 2500;
  if (static_cast<long>(asked.columns) * asked.rows > kMostPoints) return;
  if (std::any_of(checked.points.begin(), checked.points.end(),
                  [&](const CheckedPoint& p) { return corner_fails(p, asked); })) {
    return;
  }
  Setup changed = rig.setup();
  changed.request.points.clear();
  changed.request.home.reset();
  Grid& grid = *changed.request.grid;
  Grid best = asked;
  for (int columns = asked.columns; columns >= 2; --columns) {
    for (int rows = asked.rows; rows >= 2; --rows) {
      const long points = static_cast<long>(columns) * rows;
      if (points <= most || (columns == asked.columns && rows == asked.rows)) continue;
      before();
      grid.columns = columns;
      grid.rows = rows;
      // No limit depends on the grid.
      const PointCounts counts = count_points(changed, rig.limits(), true);
      if (counts.points == 0 || counts.failing > 0) continue;
      most = points;
      best = grid;
    }
  }
  if (most == 0) return;
  add_mesh_remedy(rig, Remedy::Parameter::fewer_points,
                  {GridColumns{best.columns}, GridRows{best.rows}}, remedies);
}

void remedy_by_edge_distance(const Rig& rig, const BeforeTrial& before,
                             std::vector<Remedy>& remedies) {
  const auto works = [&](double distance) {
    before();
    Setup changed = rig.setup();
    changed.probe.edge_distance = distance;
    return all_points_reachable(rig.with(changed));
  };
  if (rig.setup().probe.edge_distance <= 0 || !works(0)) return;
  long good = 0;
  long bad = static_cast<long>(std::ceil(rig.setup().probe.edge_distance * 100 - 1e-9));
  while (bad - good > 1) {
    const long middle = (good + bad) / 2;
    (works(static_cast<double>(middle) / 100) ? good : bad) = middle;
  }
  const EdgeDistance smaller{static_cast<double>(good) / 100};
  remedies.push_back({Remedy::Parameter::edge_distance, {smaller}, 0, {}});
}

// Whether all numbers say where the probe shall be: then an offset moves none of them.
bool all_for_the_probe(const Request& request) {
  const auto is_for_probe = [](const auto& item) { return item.frame == Frame::probe; };
  return (!request.grid || is_for_probe(*request.grid)) &&
         (!request.home || is_for_probe(*request.home)) &&
         std::all_of(request.points.begin(), request.points.end(), is_for_probe);
}

// An offset by trial, in directions all round. Numbers for the nozzle move with the offset, so that
// no window of offsets tells of them.
template <typename Works>
std::optional<Point> nearest_by_trial(const Rig& rig, const Works& works) {
  constexpr int kDirections = 16;
  const Point from = rig.setup().probe.offset;
  const auto place = [&](int direction, double by) {
    const double angle = 2 * std::numbers::pi * direction / kDirections;
    return Point{rounded_to_ticks(from.x + tenths(by * std::cos(angle))),
                 rounded_to_ticks(from.y + tenths(by * std::sin(angle)))};
  };
  const Box bed = bounding_box(rig.setup().machine.bed);
  const double farthest = bed.width() + bed.depth();
  for (double most = 0.4; most < 2 * farthest; most *= 1.5) {
    std::optional<Point> best;
    for (int i = 0; i < kDirections; ++i) {
      if (!works(place(i, most))) continue;
      double good = most;
      double bad = most == 0.4 ? 0 : most / 1.5;
      while (good - bad > 0.11) {
        const double middle = tenths((good + bad) / 2);
        (works(place(i, middle)) ? good : bad) = middle;
      }
      const Point here = place(i, good);
      if (!best || distance(here, from) < distance(*best, from) - 1e-9) best = here;
    }
    if (best) return best;
  }
  return std::nullopt;
}

}  // namespace

std::optional<Point> nearest_offset(const Rig& rig, const BeforeTrial& before) {
  const ProbeBeside beside(rig);
  const auto works = [&](Point offset) {
    before();
    return beside.has_room(offset) && all_points_reachable(rig.at(offset));
  };
  if (!all_for_the_probe(rig.setup().request)) return nearest_by_trial(rig, works);
  before();
  const std::optional<Point> nearest = nearest_in_window(rig.setup());
  return nearest && works(*nearest) ? nearest : std::nullopt;
}

std::vector<Remedy> remedies_of(const Rig& rig, const CheckResult& checked,
                                const ExplainOptions& options, const BeforeTrial& before) {
  std::vector<Remedy> remedies;
  const std::optional<Grid>& grid = rig.setup().request.grid;
  const bool mesh = grid && grid->columns > 1 && grid->rows > 1 && grid_fails(checked);
  if (mesh) {
    remedies = remedies_by_one_side(rig, before);
    FitOptions fitting;
    fitting.remedies = false;
    fitting.progress = options.progress;
    try {
      const FitResult fitted = fit_trusted(rig, fitting);
      remedy_by_margins(rig, fitted, remedies);
      remedy_by_bounds(rig, fitted, remedies);
    } catch (const FitRefused&) {
      // More points than a mesh can be looked for with.
    }
  }
  remedy_by_offset(rig, checked, before, remedies);
  remedy_by_travel(rig, checked, remedies);
  if (mesh) remedy_by_fewer_points(rig, checked, before, remedies);
  remedy_by_edge_distance(rig, before, remedies);
  std::stable_sort(remedies.begin(), remedies.end(),
                   [](const Remedy& a, const Remedy& b) { return a.parameter < b.parameter; });
  return remedies;
}

}  // namespace leeway
