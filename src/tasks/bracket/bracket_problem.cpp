#include "tasks/bracket/bracket_problem.h"

#include <algorithm>
#include <cmath>

#include "geometry/plane/polygons.h"
#include "model/limits/ticks.h"
#include "tasks/check/requested_points.h"

namespace leeway {
namespace {

// Whether a limit is about the probe's own place, whatever the offset.
bool is_of_the_probe(const LimitInfo& info) {
  switch (family_of(info.group).asked) {
    case LimitFamily::Asked::probe:
      return true;
    case LimitFamily::Asked::mover:
      return info.part_id.kind == PartId::Kind::body;
    case LimitFamily::Asked::nozzle:
    case LimitFamily::Asked::offset:
      break;
  }
  return false;
}

// The limit of the probe's own place that leaves a position less than its guard, if any: the one
// that lacks most.
std::optional<PointOutOfReach> out_of_reach(const Limits& limits, const BracketPoint& point) {
  std::optional<PointOutOfReach> worst;
  double least = 0;
  for (std::uint32_t i = 0; i < limits.size(); ++i) {
    if (!is_of_the_probe(limits.info(i))) continue;
    const LimitReading reading = limits.reading(i, point.probe);
    const double slack = to_ticks(reading.leeway) - to_ticks(reading.guard);
    if (slack >= least) continue;
    least = slack;
    worst = {point, i, reading.leeway, reading.guard};
  }
  return worst;
}

std::vector<Finding> findings_of(const Limits& limits, const std::vector<CheckedPoint>& points) {
  std::vector<Point> probes;
  for (const CheckedPoint& point : points) probes.push_back(point.probe);
  std::vector<Finding> findings(points.size());
  limits.evaluate(probes, findings);
  return findings;
}

}  // namespace

BracketProblem::BracketProblem(std::span<const Setup> setups, const Tolerance& tolerance)
    : setups_(setups), tolerance_(tolerance), ours_(setups.size()) {
  rigs_.reserve(setups.size());
  for (std::size_t s = 0; s < setups.size(); ++s) {
    const Setup& setup = setups[s];
    const Rig& rig = rigs_.emplace_back(setup);
    const Limits& limits = rig.limits();
    makers_.emplace_back(rig);
    BracketSetup summary;
    summary.name = setup.name;
    summary.offset = setup.probe.offset;
    const std::vector<CheckedPoint> points = requested_points(setup, limits, summary.skipped);
    const std::vector<Finding> findings = findings_of(limits, points);
    summary.points = points.size();
    summaries_.push_back(summary);
    std::vector<Point> probes;
    for (std::size_t i = 0; i < points.size(); ++i) {
      BracketPoint point{s, points[i].column > 0, point_name(setup, points[i]), points[i].probe};
      // Only a point that fails can be out of reach with any offset. It is told once, and the
      // window is looked for without it: else one such point would hide every other answer.
      if (findings[i].verdict != Verdict::reachable) {
        if (auto lost = leeway::out_of_reach(limits, point)) {
          out_of_reach_.push_back(*std::move(lost));
          continue;
        }
      }
      probes.push_back(point.probe);
      place_.push_back(ours_[s].size());
      ours_[s].push_back(within_reach_.size());
      within_reach_.push_back(std::move(point));
    }
    limits_.emplace_back(rig, std::move(probes));
  }
}

Box BracketProblem::frame() const {
  // Whatever bounds the window of a setup, its travel and bed reach no farther than this.
  double most = 1000;
  for (const Setup& setup : setups_) {
    const Box t = bounding_box(setup.machine.travel);
    for (const double end : {t.x0, t.x1, t.y0, t.y1}) most = std::max(most, 2 * std::abs(end));
    if (setup.mount.envelope) {
      const Box e = bounding_box(*setup.mount.envelope);
      for (const double end : {e.x0, e.x1, e.y0, e.y1}) most = std::max(most, 2 * std::abs(end));
    }
  }
  for (const BracketPoint& point : within_reach_) {
    most = std::max({most, 2 * std::abs(point.probe.x), 2 * std::abs(point.probe.y)});
  }
  // Whole numbers far outside: no edge of the frame can be taken for one of the window.
  most = std::ceil(most);
  return {-2 * most, 2 * most, -2 * most, 2 * most};
}

std::vector<WindowPart> BracketProblem::window_parts(
    const std::vector<BracketPoint>& points) const {
  // Setups without a point take part as well: their mounts bound the window.
  std::vector<WindowPart> parts;
  for (const WindowMaker& maker : makers_) parts.push_back({&maker, {}});
  for (const BracketPoint& point : points) parts[point.setup].probes.push_back(point.probe);
  return parts;
}

MultiPolygon BracketProblem::window(const std::vector<BracketPoint>& points) const {
  return shrunk_window(offset_window(window_parts(points), frame()), tolerance_);
}

std::optional<ThinWindow> BracketProblem::thin_window(
    const std::vector<BracketPoint>& points) const {
  Box box = frame();
  for (std::size_t s = 0; s < setups_.size(); ++s) {
    std::vector<Point> probes;
    for (const BracketPoint& point : points) {
      if (point.setup == s) probes.push_back(point.probe);
    }
    if (probes.empty()) continue;
    const std::optional<Box> window = window_of_box(setups_[s], probes);
    if (!window) return std::nullopt;
    box = {std::max(box.x0, window->x0), std::min(box.x1, window->x1), std::max(box.y0, window->y0),
           std::min(box.y1, window->y1)};
  }
  const Point off = tolerance_.most();
  box = {rounded_to_ticks(box.x0 + off.x), rounded_to_ticks(box.x1 - off.x),
         rounded_to_ticks(box.y0 + off.y), rounded_to_ticks(box.y1 - off.y)};
  // Thinner than this polygons in whole micrometres may lose it; what is wider they hold.
  constexpr double kThin = 0.003;
  if (box.empty() || (box.width() > kThin && box.depth() > kThin)) return std::nullopt;
  // What stops an offset on the line, for the points at hand.
  std::vector<OffsetLimits> limits;
  for (std::size_t s = 0; s < setups_.size(); ++s) {
    std::vector<Point> probes;
    for (const BracketPoint& point : points) {
      if (point.setup == s) probes.push_back(point.probe);
    }
    limits.emplace_back(rigs_[s], std::move(probes));
  }
  ThinWindow thin{box, {}};
  const auto works = [&](Point offset) {
    return std::all_of(limits.begin(), limits.end(), [&](const OffsetLimits& l) {
      return l.size() == 0 || l.slack(offset, tolerance_) >= 0;
    });
  };
  const Point present = setups_.front().probe.offset;
  const Point near{std::clamp(present.x, box.x0, box.x1), std::clamp(present.y, box.y0, box.y1)};
  constexpr int kPlaces = 400;
  for (int i = 0; i <= kPlaces; ++i) {
    const double t = static_cast<double>(i) / kPlaces;
    // In hundredths where there is room for them.
    const auto along = [t](double a, double b) {
      const double at = a + t * (b - a);
      return t > 0 && t < 1 && b - a > 4 ? std::clamp(std::round(at * 100) / 100, a, b) : at;
    };
    const Point offset{rounded_to_ticks(along(box.x0, box.x1)),
                       rounded_to_ticks(along(box.y0, box.y1))};
    if (works(offset)) thin.offsets.push_back(offset);
  }
  // Between the first and the last, which stay the ends.
  if (works(near)) thin.offsets.insert(thin.offsets.begin() + !thin.offsets.empty(), near);
  if (thin.offsets.empty()) return std::nullopt;
  return thin;
}

bool BracketProblem::is_empty(const std::vector<BracketPoint>& points) const {
  const bool none = tolerance_.none() ? offset_window_is_empty(window_parts(points), frame())
                                      : window(points).empty();
  return none && !thin_window(points);
}

BracketStop BracketProblem::tightest(Point offset) const {
  BracketStop best;
  double least = Least::kUndecided;
  for (std::size_t s = 0; s < limits_.size(); ++s) {
    if (limits_[s].size() == 0) continue;
    const OffsetStop stop = limits_[s].tightest(offset, tolerance_);
    // Compared as verdicts are, so that equal setups keep their order.
    if (to_ticks(stop.slack()) >= least) continue;
    least = to_ticks(stop.slack());
    best = {s, limits_[s].info(stop.limit), std::nullopt, stop.leeway, stop.guard};
    if (!is_of_mount(best.limit.group) && !ours_[s].empty()) {
      best.point = within_reach_[ours_[s][stop.point]];
    }
  }
  return best;
}

double BracketProblem::leeway(Point offset) const {
  const BracketStop stop = tightest(offset);
  return to_millimetres(to_ticks(stop.leeway) - to_ticks(stop.guard));
}

double BracketProblem::leeway(Point offset, std::size_t setup) const {
  return limits_[setup].slack(offset, tolerance_);
}

std::size_t BracketProblem::reached(Point offset) const {
  std::size_t reached = 0;
  for (std::size_t i = 0; i < within_reach_.size(); ++i) reached += slack_of(i, offset) >= 0;
  return reached;
}

// By the verdicts themselves, as `check` would give them: what else says so is only a proposal.
std::vector<std::size_t> BracketProblem::missed(Point offset) const {
  std::vector<std::size_t> missed;
  for (std::size_t s = 0; s < setups_.size(); ++s) {
    std::vector<Point> probes;
    for (const std::size_t i : ours_[s]) probes.push_back(within_reach_[i].probe);
    std::vector<Finding> findings(probes.size());
    rigs_[s].limits().at(offset).evaluate(probes, findings);
    for (std::size_t i = 0; i < findings.size(); ++i) {
      if (findings[i].verdict != Verdict::reachable) missed.push_back(ours_[s][i]);
    }
  }
  return missed;
}

double BracketProblem::slack_of(std::size_t point, Point offset) const {
  return limits_[within_reach_[point].setup].slack_of(place_[point], offset, tolerance_);
}

double BracketProblem::slack_of_mounts(Point offset) const {
  double least = Least::kUndecided;
  for (const OffsetLimits& limits : limits_) {
    least = std::min(least, limits.slack_of_mount(offset, tolerance_));
  }
  return least;
}

std::optional<std::vector<BracketPoint>> BracketProblem::with_smaller_grids(double in_x,
                                                                            double in_y) const {
  std::vector<BracketPoint> points;
  for (const BracketPoint& point : within_reach_) {
    if (!point.of_grid) points.push_back(point);
  }
  for (std::size_t s = 0; s < setups_.size(); ++s) {
    if (!setups_[s].request.grid) continue;
    Setup smaller = setups_[s];
    Box bounds = grid_bounds_for_probe(smaller, *smaller.request.grid);
    bounds = {bounds.x0 + in_x, bounds.x1 - in_x, bounds.y0 + in_y, bounds.y1 - in_y};
    if (bounds.empty()) return std::nullopt;
    smaller.request.grid->extent = bounds;
    smaller.request.grid->frame = Frame::probe;
    // Named points and home keep their places: only the grid shrinks.
    smaller.request.points.clear();
    smaller.request.home.reset();
    const Limits& limits = rigs_[s].limits();  // none depends on the request
    std::size_t skipped = 0;
    const std::vector<CheckedPoint> grid = requested_points(smaller, limits, skipped);
    const std::vector<Finding> findings = findings_of(limits, grid);
    for (std::size_t i = 0; i < grid.size(); ++i) {
      BracketPoint point{s, true, point_name(smaller, grid[i]), grid[i].probe};
      if (findings[i].verdict != Verdict::reachable && leeway::out_of_reach(limits, point)) {
        return std::nullopt;
      }
      points.push_back(std::move(point));
    }
  }
  return points;
}

}  // namespace leeway
