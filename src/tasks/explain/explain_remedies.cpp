#include "tasks/explain/explain_remedies.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

#include "geometry/plane/core.h"
#include "geometry/plane/vector.h"
#include "model/limits/ticks.h"
#include "model/offsets/offset_limits.h"
#include "tasks/bracket/nearest_in_window.h"
#include "tasks/bracket/tenths.h"
#include "tasks/check/requested_points.h"
#include "tasks/explain/one_side.h"
#include "tasks/fit/fit_home.h"
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

// How much further the sides of a rectangle would have to lie for every point, one by one.
UncoveredStrips lacking_sides(const Rig& rig, const CheckResult& checked, LimitGroup group) {
  UncoveredStrips further;
  for (std::size_t i = 0; i < rig.limits().size(); ++i) {
    const LimitInfo& info = rig.limits().info(i);
    if (info.group != group) continue;
    double* side = info.side == LimitSide::left    ? &further.left
                   : info.side == LimitSide::right ? &further.right
                   : info.side == LimitSide::front ? &further.front
                                                   : &further.back;
    for (const CheckedPoint& point : checked.points) {
      const LimitReading reading = rig.limits().reading(i, point.probe);
      *side = std::max(*side, std::ceil((reading.guard - reading.leeway) * 10 - 1e-6) / 10);
    }
  }
  return further;
}

// Does it really end there? `Changed` is TravelShape or BedShape.
template <typename Changed>
void remedy_by_further_ends(const Rig& rig, const CheckResult& checked, const Shape& shape,
                            LimitGroup group, Remedy::Parameter parameter,
                            std::vector<Remedy>& remedies) {
  const Box* box = as_box(shape);
  if (box == nullptr) return;
  const UncoveredStrips further = lacking_sides(rig, checked, group);
  if (further.left + further.right + further.front + further.back <= 0) return;
  // Nobody misreads an end by more.
  constexpr double kMostFurther = 15;
  if (std::max({further.left, further.right, further.front, further.back}) > kMostFurther) return;
  const Box longer{
      rounded_to_ticks(box->x0 - further.left), rounded_to_ticks(box->x1 + further.right),
      rounded_to_ticks(box->y0 - further.front), rounded_to_ticks(box->y1 + further.back)};
  const Changes changes{Changed{longer}};
  if (!all_points_reachable(rig.with(applied(changes, rig.setup())))) return;
  remedies.push_back({parameter, changes, 0, further});
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

// The largest number of hundredths below `from` with which it works, when 0 does: less is never
// worse.
template <typename Works>
std::optional<double> largest_below(double from, const Works& works) {
  if (from <= 0 || !works(0.0)) return std::nullopt;
  long good = 0;
  long bad = static_cast<long>(std::ceil(from * 100 - 1e-9));
  while (bad - good > 1) {
    const long middle = (good + bad) / 2;
    (works(static_cast<double>(middle) / 100) ? good : bad) = middle;
  }
  return static_cast<double>(good) / 100;
}

void remedy_by_edge_distance(const Rig& rig, const BeforeTrial& before,
                             std::vector<Remedy>& remedies) {
  const auto smaller = largest_below(rig.setup().probe.edge_distance, [&](double distance) {
    before();
    return all_points_reachable(rig.with(applied({EdgeDistance{distance}}, rig.setup())));
  });
  if (!smaller) return;
  remedies.push_back({Remedy::Parameter::edge_distance, {EdgeDistance{*smaller}}, 0, {}});
}

// Where nothing but guard bands is in the way, a better measured offset may do.
void remedy_by_offset_uncertainty(const Rig& rig, const CheckResult& checked,
                                  const BeforeTrial& before, std::vector<Remedy>& remedies) {
  if (checked.counts.unreachable > 0) return;
  const Point stated = rig.setup().probe.offset_uncertainty;
  const auto at_most = [&](double u) {
    return OffsetUncertainty{{std::min(stated.x, u), std::min(stated.y, u)}};
  };
  const auto smaller = largest_below(std::max(stated.x, stated.y), [&](double u) {
    before();
    return all_points_reachable(rig.with(applied({at_most(u)}, rig.setup())));
  });
  // One of 0 nobody has.
  if (!smaller || *smaller <= 0) return;
  remedies.push_back({Remedy::Parameter::offset_uncertainty, {at_most(*smaller)}, 0, {}});
}

// Where to home, as `fit` has it.
void remedy_by_home(const Rig& rig, const CheckResult& checked, std::vector<Remedy>& remedies) {
  const bool fails =
      std::any_of(checked.points.begin(), checked.points.end(), [](const CheckedPoint& p) {
        return p.name_index == kHomeIndex && p.finding.verdict != Verdict::reachable;
      });
  if (!fails) return;
  const std::optional<FitHome> home = home_for(rig, FitOptions{}.home_leeway);
  if (!home) return;
  const Point offset = rig.setup().probe.offset;
  const Frame frame = rig.setup().request.home->frame;
  const Point at = frame == Frame::probe ? home->probe : rounded_to_ticks(home->probe - offset);
  const Changes changes{HomePlace{at}};
  const Setup changed = applied(changes, rig.setup());
  const std::size_t still = count_points(changed, rig.limits()).failing;
  const std::size_t failing = checked.counts.marginal + checked.counts.unreachable;
  if (still + 1 != failing) return;
  remedies.push_back({Remedy::Parameter::home, changes, still, {}});
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
  const OffsetLimits mount(rig, {});
  const auto works = [&](Point offset) {
    before();
    return mount.slack_of_mount(offset) >= 0 && all_points_reachable(rig.at(offset));
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
    // Nobody wants a point further out than where it was asked for.
    fitting.within = grid_bounds_for_probe(rig.setup(), *grid);
    fitting.progress = options.progress;
    try {
      const FitResult fitted = fit_trusted(rig, fitting);
      remedy_by_margins(rig, fitted, remedies);
      remedy_by_bounds(rig, fitted, remedies);
    } catch (const FitRefused&) {
      // More points than a mesh can be looked for with.
    }
  }
  remedy_by_home(rig, checked, remedies);
  remedy_by_offset_uncertainty(rig, checked, before, remedies);
  remedy_by_offset(rig, checked, before, remedies);
  const Machine& machine = rig.setup().machine;
  remedy_by_further_ends<TravelShape>(rig, checked, machine.travel, LimitGroup::travel,
                                      Remedy::Parameter::travel, remedies);
  remedy_by_further_ends<BedShape>(rig, checked, machine.bed, LimitGroup::bed,
                                   Remedy::Parameter::bed, remedies);
  if (mesh) remedy_by_fewer_points(rig, checked, before, remedies);
  remedy_by_edge_distance(rig, before, remedies);
  std::stable_sort(remedies.begin(), remedies.end(),
                   [](const Remedy& a, const Remedy& b) { return a.parameter < b.parameter; });
  return remedies;
}

}  // namespace leeway
