#include "leeway/bracket.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

#include "geometry/areas/pole.h"
#include "geometry/plane/polygons.h"
#include "geometry/plane/vector.h"
#include "model/limits/ticks.h"
#include "model/offsets/probe_beside.h"
#include "model/setup/door.h"
#include "tasks/bracket/bracket_conflict.h"
#include "tasks/bracket/bracket_problem.h"
#include "tasks/bracket/influences.h"
#include "tasks/bracket/most_reached.h"
#include "tasks/bracket/offset_cover.h"
#include "tasks/bracket/offset_finder.h"
#include "tasks/bracket/trade_off.h"
#include "tasks/check/trusted_check.h"

namespace leeway {
namespace {

std::optional<BracketCover> cover_at(const OffsetCover& cover, Point offset) {
  if (cover.printable_area() <= 0) return std::nullopt;
  std::array<double, 9> around{};
  for (int row = 0; row < 3; ++row) {
    cover.row({offset.x - 1, offset.x + 1, 3}, offset.y + row - 1,
              std::span(around).subspan(static_cast<std::size_t>(3 * row), 3));
  }
  return BracketCover{around[4], around[3], around[5], around[1], around[7]};
}

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

// The answer of a problem that has points within reach, put together.
class BracketSearch {
 public:
  BracketSearch(const BracketProblem& problem, const BracketOptions& options, BracketResult& result)
      : problem_(problem),
        options_(options),
        finder_(problem, problem.setups().front().probe.offset),
        result_(result) {
    for (std::size_t s = 0; s < problem.setups().size(); ++s) covers_.emplace_back(problem.rig(s));
    any_cover_ = std::all_of(covers_.begin(), covers_.end(),
                             [](const OffsetCover& cover) { return cover.printable_area() > 0; });
  }

  void look() {
    if (finder_.empty()) most_ = most_reached(problem_, options_.progress);
    if (most_ && most_->missed.empty()) finder_.take(most_->offset);
    result_.window = finder_.window();
    look_at_present();
    if (finder_.empty()) {
      look_at_conflict();
    } else {
      look_at_best();
      if (options_.influences) {
        result_.influences = influences_on(problem_, result_.window, options_.progress);
      }
      if (const std::optional<Point> nearest = finder_.nearest()) result_.nearest = told(*nearest);
    }
    // The same that the user is told to move.
    if (!result_.present.inside) {
      result_.present.leeway =
          result_.nearest
              ? -rounded_to_ticks(distance(result_.nearest->offset, result_.present.offset))
              : -std::numeric_limits<double>::infinity();
    }
  }

 private:
  std::optional<double> share(Point offset) const {
    if (!any_cover_) return std::nullopt;
    return common_share(covers_, offset);
  }
  BracketOffset told(Point offset) const {
    return {offset, problem_.leeway(offset), share(offset), blocked_moves(result_.rigs, offset)};
  }
  BracketChoice choice(const BracketTrade& trade) const {
    return {trade, blocked_moves(result_.rigs, trade.offset)};
  }

  void look_at_present() {
    const Point present = problem_.setups().front().probe.offset;
    BracketPresent& told = result_.present;
    told.offset = present;
    told.inside = problem_.works(present);
    told.leeway = problem_.leeway(present);
    told.stop = problem_.tightest(present);
    told.blocked_moves = blocked_moves(result_.rigs, present);
    told.coverage = share(present);
    told.overlaps = ProbeBeside(result_.rigs.front()).overlaps(present);
    for (std::size_t s = 0; s < covers_.size(); ++s) {
      result_.setups[s].cover = cover_at(covers_[s], result_.setups[s].offset);
    }
  }

  void look_at_conflict() {
    result_.conflict = conflict_of(problem_, options_.progress);
    result_.mount_alone = result_.conflict.empty();
    if (most_) result_.most = named(problem_, *most_);
    const auto setups = problem_.setups();
    const bool grids = std::any_of(setups.begin(), setups.end(),
                                   [](const Setup& s) { return s.request.grid.has_value(); });
    if (grids && !result_.mount_alone) result_.shrink = shrink_of(problem_, options_.progress);
  }

  void look_at_best() {
    std::optional<Point> best = finder_.best();
    if (!best) return;
    if (any_cover_) best = look_at_trades(*best);
    result_.best = told(*best);
    for (std::size_t s = 0; s < covers_.size(); ++s) {
      result_.setups[s].leeway_at_best = problem_.leeway(*best, s);
      result_.setups[s].cover_at_best = cover_at(covers_[s], *best);
    }
  }

  // Of the offsets with most leeway that which covers most.
  Point look_at_trades(Point middle) {
    Trades trades;
    if (finder_.thin()) {
      // Of equals the middle.
      std::vector<Point> line{middle};
      line.insert(line.end(), finder_.thin()->offsets.begin(), finder_.thin()->offsets.end());
      trades = trade_off_along(problem_, covers_, line, options_);
    } else {
      trades = trade_off(problem_, covers_, *result_.window.bounds, middle, options_);
    }
    const auto& curve = trades.curve;
    result_.trade_off = {curve, choice(curve.front()), std::nullopt, choice(curve.back())};
    const std::size_t knee = knee_of(curve);
    if (knee > 0) result_.trade_off->knee = choice(curve[knee]);
    if (trades.wanted) result_.asked = choice(*trades.wanted);
    return curve.back().offset;
  }

  const BracketProblem& problem_;
  const BracketOptions& options_;
  OffsetFinder finder_;
  std::optional<MostReached> most_;  // looked for where there is no window
  BracketResult& result_;
  std::vector<OffsetCover> covers_;
  bool any_cover_ = false;
};

}  // namespace

BracketResult bracket(std::span<const Setup> setups, const BracketOptions& options) {
  if (setups.empty()) throw BracketRefused("there is no setup to look at");
  for (const Setup& setup : setups) require_valid(setup);
  const BracketProblem problem(setups, options.tolerance);
  BracketResult result;
  result.leeway_wanted = options.leeway;
  result.tolerance = options.tolerance;
  result.setups = problem.summaries();
  for (std::size_t s = 0; s < setups.size(); ++s) result.rigs.push_back(problem.rig(s));
  for (const BracketSetup& setup : result.setups) result.points += setup.points;
  if (result.points == 0) {
    throw BracketRefused("the request asks for no point, so that every offset would do");
  }
  result.out_of_reach = problem.out_of_reach();
  if (!problem.within_reach().empty()) BracketSearch(problem, options, result).look();
  return result;
}

bool all_well(const BracketResult& result) {
  return !result.window.empty && result.out_of_reach.empty() &&
         (!result.leeway_wanted || result.asked);
}

}  // namespace leeway
