#include "leeway/candidates.h"

#include <algorithm>
#include <cmath>
#include <memory>
#include <tuple>
#include <utility>

#include "geometry/overlay/overlay.h"
#include "leeway/bracket.h"
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

// The setups with another kind of probe, at their own offsets: what they ask for the nozzle is held
// where that puts it.
std::vector<Setup> carrying(std::span<const Setup> setups, const std::optional<Probe>& probe) {
  std::vector<Setup> out(setups.begin(), setups.end());
  if (!probe) return out;
  for (Setup& setup : out) {
    const Probe own = std::exchange(setup.probe, *probe);
    setup.probe.offset = own.offset;
    if (probe->offset_uncertainty == Point{})
      setup.probe.offset_uncertainty = own.offset_uncertainty;
  }
  return out;
}

// What is asked of a bracket, as far as no candidate changes it.
class BracketQuestion {
 public:
  BracketQuestion(std::vector<Setup> setups, const CandidateOptions& options)
      : setups_(std::move(setups)), options_(options), problem_(setups_, options.tolerance) {
    for (std::size_t s = 0; s < setups_.size(); ++s) {
      rigs_.push_back(problem_.rig(s).asking(held_for_probe(setups_[s])));
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

  std::vector<Setup> setups_;
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
  std::vector<std::pair<std::optional<Probe>, std::unique_ptr<BracketQuestion>>> questions;
  const auto question = [&](const std::optional<Probe>& probe) -> BracketQuestion& {
    for (const auto& [of, known] : questions) {
      if (of == probe) return *known;
    }
    const std::vector<Setup> asked = carrying(setups, probe);
    for (const Setup& setup : asked) require_valid(setup);
    questions.emplace_back(probe, std::make_unique<BracketQuestion>(asked, options));
    return *questions.back().second;
  };
  std::vector<RankedCandidate> ranked;
  for (const Candidate& candidate : candidates) {
    for (const Setup& setup : setups) require_valid_offset(setup, candidate.offset);
    const double done = static_cast<double>(ranked.size()) / static_cast<double>(candidates.size());
    ranked.push_back(question(candidate.probe).look(candidate, done));
  }
  std::stable_sort(ranked.begin(), ranked.end(),
                   [](const auto& a, const auto& b) { return key_of(a) < key_of(b); });
  for (std::size_t i = 0; i < ranked.size(); ++i) {
    const bool tied = i > 0 && key_of(ranked[i]) == key_of(ranked[i - 1]);
    ranked[i].rank = tied ? ranked[i - 1].rank : i + 1;
  }
  return ranked;
}

std::vector<Candidate> with_probes(std::span<const Setup> setups,
                                   const std::vector<Candidate>& candidates,
                                   const std::vector<Probe>& probes,
                                   const CandidateOptions& options) {
  std::vector<Candidate> out;
  for (const Candidate& candidate : candidates) {
    if (candidate.probe || probes.empty()) out.push_back(candidate);
    if (candidate.probe) continue;
    for (const Probe& probe : probes) {
      out.push_back({candidate.name, candidate.offset, probe});
    }
  }
  if (!candidates.empty()) return out;
  for (const Probe& probe : probes) {
    const std::vector<Setup> asked = carrying(setups, probe);
    BracketOptions with;
    with.progress = options.progress;
    with.tolerance = options.tolerance;
    with.influences = false;
    const BracketResult result = bracket(asked, with);
    const Point offset = result.best   ? result.best->offset
                         : result.most ? result.most->offset
                                       : setups.front().probe.offset;
    out.push_back({probe.name, offset, probe});
  }
  return out;
}

}  // namespace leeway
