#include "leeway/candidates.h"

#include <algorithm>
#include <cmath>
#include <tuple>

#include "geometry/overlay/overlay.h"
#include "leeway/regions.h"
#include "model/offsets/offset_limits.h"
#include "model/setup/door.h"
#include "tasks/bracket/bracket_problem.h"
#include "tasks/bracket/most_reached.h"
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
  cover.checked = check_trusted(rig, options);
  cover.points = cover.checked.counts.points;
  cover.failing = cover.points - cover.checked.counts.reachable;
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

// What is asked of a bracket, as far as no candidate changes it.
class BracketQuestion {
 public:
  BracketQuestion(std::span<const Setup> setups, const CandidateOptions& options)
      : options_(options), problem_(setups, options.tolerance) {
    for (std::size_t s = 0; s < setups.size(); ++s) {
      rigs_.push_back(problem_.rig(s).asking(held_for_probe(setups[s])));
      served_.push_back(std::any_of(problem_.within_reach().begin(), problem_.within_reach().end(),
                                    [s](const BracketPoint& point) { return point.setup == s; }));
    }
  }

  RankedCandidate look(const Candidate& candidate, double done) {
    RankedCandidate ranked{candidate, 0, {}};
    bool all_reached = true;
    for (std::size_t s = 0; s < rigs_.size(); ++s) {
      go_on(options_.progress, done);
      const Rig moved = rigs_[s].at(candidate.offset);
      CandidateCover cover;
      look_at_regions(moved.regions(), cover);
      look_at_points(moved, cover);
      look_at_mesh(moved, cover);
      look_at_mount(moved, cover);
      if (served_[s]) cover.leeway = problem_.leeway(candidate.offset, s);
      all_reached = all_reached && cover.failing == 0;
      ranked.covers.push_back(std::move(cover));
    }
    if (!all_reached) std::tie(ranked.most, ranked.at_most) = most();
    return ranked;
  }

 private:
  // Asked for once somebody misses a point.
  std::pair<std::size_t, std::size_t> most() {
    if (!most_) {
      const std::size_t all = problem_.within_reach().size();
      most_ = {all, all};
      if (problem_.is_empty(problem_.within_reach())) {
        const auto found = most_reached(problem_, options_.progress);
        most_ = found ? std::pair(all - found->missed.size(), found->at_most)
                      : std::pair<std::size_t, std::size_t>(0, 0);
      }
    }
    return *most_;
  }

  const CandidateOptions& options_;
  BracketProblem problem_;
  std::vector<Rig> rigs_;     // that ask for the same places with every candidate
  std::vector<bool> served_;  // whether some offset reaches a point of a setup
  std::optional<std::pair<std::size_t, std::size_t>> most_;
};

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
    least = std::min(least, cover.leeway.value_or(1e9));
  }
  const double hundredths = std::max(-1e9, std::min(1e9, least)) * 100;
  return std::tuple(!mounted, failing, -std::lround(share * 1000), -std::lround(hundredths));
}

}  // namespace

std::vector<RankedCandidate> rank_candidates(std::span<const Setup> setups,
                                             const std::vector<Candidate>& candidates,
                                             const CandidateOptions& options) {
  for (const Setup& setup : setups) {
    require_valid(setup);
    for (const Candidate& candidate : candidates) require_valid_offset(setup, candidate.offset);
  }
  BracketQuestion question(setups, options);
  std::vector<RankedCandidate> ranked;
  for (const Candidate& candidate : candidates) {
    const double done = static_cast<double>(ranked.size()) / static_cast<double>(candidates.size());
    ranked.push_back(question.look(candidate, done));
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
