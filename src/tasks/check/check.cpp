#include "leeway/check.h"
#include "leeway/rig.h"
#include "tasks/check/trusted_check.h"

#include <algorithm>

#include "model/offsets/probe_beside.h"
#include "tasks/check/coverage.h"
#include "tasks/check/nearest.h"
#include "tasks/check/requested_points.h"
#include "tasks/go_on.h"

namespace leeway {
namespace {

// Tells the caller how far the work is, in shares of the whole.
class Stages {
 public:
  explicit Stages(const Progress& report) : report_(report) {}

  void stage(double from, double to) {
    from_ = from;
    to_ = to;
  }
  void at(std::size_t done, std::size_t all) {
    if (!report_) return;
    const double share = all == 0 ? 1 : static_cast<double>(done) / static_cast<double>(all);
    go_on(report_, from_ + (to_ - from_) * share);
  }

 private:
  const Progress& report_;
  double from_ = 0;
  double to_ = 1;
};

// Large enough that asking costs nothing, small enough that a stop comes at once.
constexpr std::size_t kBatch = 8192;

void find_verdicts(const Limits& limits, std::vector<CheckedPoint>& points, Stages& stages) {
  std::vector<Point> probes;
  std::vector<Finding> findings;
  for (std::size_t at = 0; at < points.size(); at += kBatch) {
    const std::size_t count = std::min(kBatch, points.size() - at);
    probes.resize(count);
    findings.resize(count);
    for (std::size_t i = 0; i < count; ++i) probes[i] = points[at + i].probe;
    limits.evaluate(probes, findings);
    for (std::size_t i = 0; i < count; ++i) points[at + i].finding = findings[i];
    stages.at(at + count, points.size());
  }
}

void find_nearest(const Regions& regions, const Limits& limits, std::vector<CheckedPoint>& points,
                  Stages& stages) {
  for (std::size_t i = 0; i < points.size(); ++i) {
    CheckedPoint& point = points[i];
    if (point.finding.verdict == Verdict::reachable) {
      point.nearest = point.probe;
      point.has_nearest = true;
    } else if (const std::optional<Point> nearest =
                   nearest_reachable(regions.get(RegionKind::reachable), limits, point.probe)) {
      point.nearest = *nearest;
      point.has_nearest = true;
    }
    if (i % kBatch == 0) stages.at(i, points.size());
  }
}

void judge_moves(const Rig& rig, CheckResult& result, Stages& stages) {
  CheckedMoves& moves = result.moves;
  const std::vector<std::size_t> order = travel_order(result.points);
  if (order.size() < 2) return;
  const MoveLimits limits = rig.move_limits();
  std::vector<Point> way;
  for (const std::size_t point : order) way.push_back(result.points[point].probe);
  moves.count = order.size() - 1;
  stages.at(1, 4);
  moves.safe = limits.safe_height(way);
  stages.at(2, 4);
  moves.judged = rig.setup().probe.travel_height.has_value();
  if (!moves.judged) return;
  moves.drags = limits.drags();
  for (std::size_t i = 0; i < moves.count; ++i) {
    MoveStop stop;
    if (limits.blocked(way[i], way[i + 1], stop)) {
      moves.blocked.push_back({order[i], order[i + 1], stop});
    }
    if (i % kBatch == 0) stages.at(moves.count + i, 2 * moves.count);
  }
}

void count(CheckResult& result) {
  Counts& counts = result.counts;
  counts.points = result.points.size();
  for (const CheckedPoint& point : result.points) {
    switch (point.finding.verdict) {
      case Verdict::reachable:
        ++counts.reachable;
        break;
      case Verdict::marginal:
        ++counts.marginal;
        break;
      case Verdict::unreachable:
        ++counts.unreachable;
        break;
    }
  }
  if (counts.points == 0) return;
  result.verdict = counts.unreachable > 0 ? Verdict::unreachable
                   : counts.marginal > 0  ? Verdict::marginal
                                          : Verdict::reachable;
}

RegionSummary summary(const Regions& regions, RegionKind kind) {
  const MultiPolygon& region = regions.get(kind);
  return {kind, area(region), bounds(region), regions.why_empty(kind)};
}

void summarize_all(const Regions& regions, CheckResult& result) {
  for (int i = 0; i < kRegionKinds; ++i) {
    result.regions.push_back(summary(regions, static_cast<RegionKind>(i)));
  }
}

// A region is computed only where nothing tells already that it is not empty: a reachable point
// does, and a smaller region inside it.
void summarize_empty(const Regions& regions, CheckResult& result) {
  if (result.coverage && !result.coverage->fraction) {
    result.regions.push_back(summary(regions, RegionKind::printable));
  }
  if (result.counts.reachable > 0) return;
  std::vector<RegionSummary> nested;
  for (const RegionKind kind :
       {RegionKind::reachable, RegionKind::within_limits, RegionKind::sensing}) {
    nested.insert(nested.begin(), summary(regions, kind));
    if (!nested.front().why_empty) {
      const bool keep = kind == RegionKind::reachable && result.counts.points == 0;
      if (!keep) nested.erase(nested.begin());
      break;
    }
  }
  result.regions.insert(result.regions.end(), nested.begin(), nested.end());
}

}  // namespace

CheckResult check(const Rig& rig, const CheckOptions& options) {
  require_valid(rig.setup());
  return check_trusted(rig, options);
}

// Inside, setups have passed the door already: explain tries hundreds of them.
CheckResult check_trusted(const Rig& rig, const CheckOptions& options) {
  Stages stages(options.progress);
  CheckResult result;
  result.setup = rig.setup().name;
  result.points = requested_points(rig.setup(), rig.limits(), result.counts.skipped);
  stages.stage(0, 0.3);
  find_verdicts(rig.limits(), result.points, stages);
  count(result);
  stages.stage(0.3, 0.8);
  find_nearest(rig.regions(), rig.limits(), result.points, stages);
  stages.stage(0.8, 1);
  judge_moves(rig, result, stages);
  result.probe_overlaps = ProbeBeside(rig).overlaps(rig.setup().probe.offset);
  if (rig.setup().request.grid) {
    result.coverage = coverage_of(rig.regions().get(RegionKind::printable),
                                  grid_bounds_for_probe(rig.setup(), *rig.setup().request.grid));
  }
  if (options.regions == RegionsWanted::all) summarize_all(rig.regions(), result);
  if (options.regions == RegionsWanted::empty) summarize_empty(rig.regions(), result);
  return result;
}

bool all_well(const CheckResult& result) {
  if (!result.points.empty()) {
    return result.verdict == Verdict::reachable && result.moves.clear();
  }
  if (result.counts.skipped > 0) return false;
  return std::none_of(result.regions.begin(), result.regions.end(),
                      [](const RegionSummary& region) {
                        return region.kind == RegionKind::reachable && region.why_empty;
                      });
}

std::string grid_point_name(std::int32_t column, std::int32_t row) {
  return "grid " + std::to_string(column) + "," + std::to_string(row);
}

std::string point_name(const Setup& setup, const CheckedPoint& point) {
  if (point.row > 0) return grid_point_name(point.column, point.row);
  if (point.name_index == kHomeIndex) return "home";
  return setup.request.points[static_cast<std::size_t>(point.name_index)].name;
}

std::size_t count_blocked_moves(const Rig& rig) {
  if (!rig.setup().probe.travel_height) return 0;
  CheckOptions options;
  options.regions = RegionsWanted::none;
  return check_trusted(rig, options).moves.blocked.size();
}

}  // namespace leeway
