#include "leeway/bracket.h"

#include <algorithm>
#include <cmath>

#include "geometry/areas/pole.h"
#include "geometry/plane/polygons.h"
#include "geometry/plane/vector.h"
#include "model/limits/ticks.h"
#include "model/offsets/probe_beside.h"
#include "model/setup/door.h"
#include "tasks/bracket/bracket_conflict.h"
#include "tasks/bracket/bracket_problem.h"
#include "tasks/bracket/coverage_map_of_sets.h"
#include "tasks/bracket/most_reached.h"
#include "tasks/bracket/offset_finder.h"
#include "tasks/check/trusted_check.h"

namespace leeway {
namespace {

// What offsets of one setup cover.
class Cover {
 public:
  explicit Cover(const Rig& rig) : sets_(cover_sets(rig)) {}

  std::optional<BracketCover> at(Point offset) const {
    const std::optional<CoverageMap> map =
        coverage_map(sets_, {offset.x - 1, offset.x + 1, 3}, {offset.y - 1, offset.y + 1, 3}, {});
    if (!map) return std::nullopt;
    return BracketCover{map->at(1, 1), map->at(0, 1), map->at(2, 1), map->at(1, 0), map->at(1, 2)};
  }

 private:
  CoverSets sets_;
};

// The points stay where they are.
std::size_t blocked_moves(const std::vector<Rig>& rigs, Point offset) {
  std::size_t blocked = 0;
  for (const Rig& rig : rigs) {
    blocked += count_blocked_moves(rig.asking(held_for_probe(rig.setup())).at(offset));
  }
  return blocked;
}

BracketMost named(const BracketProblem& problem, const MostReached& most) {
  BracketMost out;
  out.offset = most.offset;
  out.leeway = most.leeway;
  out.reached = problem.within_reach().size() - most.missed.size();
  out.at_most = most.at_most;
  for (const std::size_t i : most.missed) out.missed.push_back(problem.within_reach()[i]);
  return out;
}

}  // namespace

BracketResult bracket(std::span<const Setup> setups, const BracketOptions& options) {
  if (setups.empty()) throw BracketRefused("there is no setup to look at");
  for (const Setup& setup : setups) require_valid(setup);
  const BracketProblem problem(setups);
  BracketResult result;
  result.setups = problem.summaries();
  for (std::size_t s = 0; s < setups.size(); ++s) result.rigs.push_back(problem.rig(s));
  for (const BracketSetup& setup : result.setups) result.points += setup.points;
  if (result.points == 0) {
    throw BracketRefused("the request asks for no point, so that every offset would do");
  }
  result.out_of_reach = problem.out_of_reach();
  if (problem.within_reach().empty()) return result;

  const Point present = setups.front().probe.offset;
  OffsetFinder finder(problem, present);
  std::optional<MostReached> most;
  if (finder.empty()) most = most_reached(problem, options.progress);
  if (most && most->missed.empty()) finder.take(most->offset);
  result.window = finder.window();
  const BracketStop stop = problem.tightest(present);
  result.present = {present, problem.works(present), problem.leeway(present), stop, 0, {}};
  result.present.overlaps = ProbeBeside(result.rigs.front()).overlaps(present);
  result.present.blocked_moves = blocked_moves(result.rigs, present);
  std::vector<Cover> covers;
  for (std::size_t s = 0; s < setups.size(); ++s) {
    result.setups[s].cover = covers.emplace_back(problem.rig(s)).at(setups[s].probe.offset);
  }
  if (finder.empty()) {
    result.conflict = conflict_of(problem, options.progress);
    result.mount_alone = result.conflict.empty();
    if (most) result.most = named(problem, *most);
    const bool grids = std::any_of(setups.begin(), setups.end(),
                                   [](const Setup& s) { return s.request.grid.has_value(); });
    if (grids && !result.mount_alone) result.shrink = shrink_of(problem, options.progress);
    return result;
  }
  if (const std::optional<Point> best = finder.best()) {
    result.best = {*best, problem.leeway(*best), blocked_moves(result.rigs, *best)};
    for (std::size_t s = 0; s < setups.size(); ++s) {
      result.setups[s].leeway_at_best = problem.leeway(*best, s);
      result.setups[s].cover_at_best = covers[s].at(*best);
    }
  }
  if (const std::optional<Point> nearest = finder.nearest()) {
    result.nearest = {*nearest, problem.leeway(*nearest), blocked_moves(result.rigs, *nearest)};
  }
  return result;
}

bool all_well(const BracketResult& result) {
  return !result.window.empty && result.out_of_reach.empty();
}

}  // namespace leeway
