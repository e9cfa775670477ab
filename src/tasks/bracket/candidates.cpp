#include "leeway/candidates.h"

#include <algorithm>
#include <cmath>
#include <tuple>

#include "geometry/overlay/overlay.h"
#include "leeway/regions.h"
#include "model/offsets/offset_limits.h"
#include "tasks/check/coverage.h"
#include "tasks/check/trusted_check.h"
#include "tasks/fit/trusted_fit.h"
#include "tasks/go_on.h"

namespace leeway {
namespace {

void look_at_regions(const Regions& regions, CandidateCover& cover) {
  const MultiPolygon& printable = regions.get(RegionKind::printable);
  if (printable.empty()) return;
  const MultiPolygon reached = intersect(printable, regions.get(RegionKind::within_limits));
  cover.share = area(reached) / area(printable);
  if (const std::optional<Box> box = bounds(reached)) {
    cover.uncovered = coverage_of(printable, *box).uncovered;
  } else {
    const Box all = *bounds(printable);
    cover.uncovered = {all.width(), all.width(), all.depth(), all.depth()};
  }
}

void look_at_points(const Rig& rig, CandidateCover& cover) {
  CheckOptions options;
  options.regions = RegionsWanted::none;
  const CheckResult checked = check_trusted(rig, options);
  cover.points = checked.counts.points;
  cover.failing = checked.counts.points - checked.counts.reachable;
  for (const CheckedPoint& point : checked.points) {
    // Of an unreachable point the finding's limit is that of least leeway; its slack will do.
    const double slack = point.finding.leeway - point.finding.guard;
    cover.least = std::min(cover.least.value_or(slack), slack);
    if (point.column == 0 && point.finding.verdict != Verdict::reachable) {
      cover.missed.push_back(point_name(rig.setup(), point));
    }
  }
}

void look_at_mesh(const Rig& rig, CandidateCover& cover) {
  FitOptions options;
  options.remedies = false;
  if (!rig.setup().request.grid) {
    options.columns = options.rows = 2;
    options.inside = true;
  }
  try {
    cover.mesh = fit_trusted(rig, options).mesh;
  } catch (const FitRefused&) {
    // No mesh of that kind can be looked for.
  }
}

void look_at_mount(const Rig& rig, CandidateCover& cover) {
  const OffsetLimits limits(rig, {});
  if (limits.size() == 0) return;
  // Without points only the mount's limits speak.
  const OffsetStop stop = limits.tightest(rig.setup().probe.offset);
  if (is_of_mount(limits.info(stop.limit).group) && stop.slack() < 0) {
    cover.mount = limits.info(stop.limit).name;
  }
}

// What decides, smallest first.
auto key_of(const RankedCandidate& ranked) {
  bool mounted = true;
  std::size_t failing = 0;
  double share = 1;
  double least = 1e9;
  for (const CandidateCover& cover : ranked.covers) {
    mounted = mounted && cover.mount.empty();
    failing += cover.failing;
    share = std::min(share, cover.share.value_or(0));
    least = std::min(least, cover.least.value_or(1e9));
  }
  const double hundredths = std::max(-1e9, std::min(1e9, least)) * 100;
  return std::tuple(!mounted, failing, -std::lround(share * 1000), -std::lround(hundredths));
}

}  // namespace

std::vector<RankedCandidate> rank_candidates(std::span<const Setup> setups,
                                             const std::vector<Candidate>& candidates,
                                             const CandidateOptions& options) {
  std::vector<Rig> rigs;  // that ask for the same places with every candidate
  for (const Setup& setup : setups) {
    for (const Candidate& candidate : candidates) require_valid_offset(setup, candidate.offset);
    rigs.push_back(Rig(setup).asking(held_for_probe(setup)));
  }
  std::vector<RankedCandidate> ranked;
  for (const Candidate& candidate : candidates) {
    RankedCandidate one{candidate, 0, {}};
    for (const Rig& rig : rigs) {
      go_on(options.progress,
            static_cast<double>(ranked.size()) / static_cast<double>(candidates.size()));
      const Rig moved = rig.at(candidate.offset);
      CandidateCover cover;
      look_at_regions(moved.regions(), cover);
      look_at_points(moved, cover);
      look_at_mesh(moved, cover);
      look_at_mount(moved, cover);
      one.covers.push_back(std::move(cover));
    }
    ranked.push_back(std::move(one));
  }
  std::stable_sort(ranked.begin(), ranked.end(),
                   [](const auto& a, const auto& b) { return key_of(a) < key_of(b); });
  for (std::size_t i = 0; i < ranked.size(); ++i) {
    const bool tied = i > 0 && key_of(ranked[i]) == key_of(ranked[i - 1]);
    ranked[i].rank = tied ? ranked[i - 1].rank : i + 1;
  }
  return ranked;
}

}  // namespace leeway
