#include "model/limit_run.h"

#include <algorithm>
#include <cmath>

#include "geometry/edge_set.h"
#include "geometry/wide.h"

namespace leeway {
namespace {

// More than rounding can take from a bound, in ticks.
constexpr double kDoubt = 16;

// Keeps the least of what is left of the distances, and the limit it came from.
LEEWAY_WIDE void keep_least(std::size_t count, double index, double taken, double guard,
                            const double* __restrict distances, double* __restrict least,
                            double* __restrict by) {
  for (std::size_t i = 0; i < count; ++i) {
    const double here = to_ticks(distances[i] - taken) - guard;
    by[i] = here < least[i] ? index : by[i];
    least[i] = here < least[i] ? here : least[i];
  }
}

LEEWAY_WIDE void to_leeways(std::size_t count, double taken, double* __restrict distances) {
  for (std::size_t i = 0; i < count; ++i) {
    distances[i] = to_millimetres(to_ticks(distances[i] - taken));
  }
}

// Positions as separate coordinates, moved by `-offset`.
LEEWAY_WIDE void split(const Point* __restrict points, std::size_t count, Point offset,
                       double* __restrict xs, double* __restrict ys) {
  for (std::size_t i = 0; i < count; ++i) {
    xs[i] = points[i].x - offset.x;
    ys[i] = points[i].y - offset.y;
  }
}

}  // namespace

void choose(const std::vector<PreparedLimit>& limits, Point offset, Point middle, double reach_mm,
            std::vector<double>& at_middle, Choice& choice) {
  const double reach = reach_mm * kTicksPerMillimetre + kDoubt;
  double most_leeway = Least::kUndecided;
  double most_slack = Least::kUndecided;
  double least_of_all = Least::kUndecided;
  for (std::size_t i = 0; i < limits.size(); ++i) {
    const Limit& limit = limits[i].limit;
    const Point at = limit.at_nozzle ? middle - offset : middle;
    at_middle[i] = to_ticks(limit.field->distance(at) - limit.taken);
    most_leeway = std::min(most_leeway, at_middle[i] + reach);
    most_slack = std::min(most_slack, at_middle[i] + reach - limits[i].least_guard);
    least_of_all = std::min(least_of_all, at_middle[i] - reach);
  }
  choice.some_may_fail = least_of_all < 0;
  choice.some_may_pass = most_leeway >= 0;
  choice.limits.clear();
  for (std::uint32_t i = 0; i < limits.size(); ++i) {
    const double least = at_middle[i] - reach;
    const bool least_leeway = least <= most_leeway && least < 0;
    const bool least_slack = least - limits[i].most_guard <= most_slack && choice.some_may_pass;
    if (least_leeway || least_slack) choice.limits.push_back(i);
  }
}

LimitRun::LimitRun(const std::vector<PreparedLimit>& limits, Point offset)
    : limits_(limits), offset_(offset), at_middle_(limits.size()) {}

void LimitRun::place(std::span<const Point> probes) {
  count_ = probes.size();
  split(probes.data(), count_, {0, 0}, probe_x_, probe_y_);
  split(probes.data(), count_, offset_, nozzle_x_, nozzle_y_);
}

void LimitRun::take(std::uint32_t index, const Choice& choice) {
  const PreparedLimit& prepared = limits_[index];
  const Limit& limit = prepared.limit;
  double distances[kMost];
  limit.field->distances(xs_of(limit), ys_of(limit), distances, count_);
  if (choice.some_may_fail) {
    keep_least(count_, index, limit.taken, 0, distances, leeway_, by_leeway_);
  }
  if (choice.some_may_pass) {
    keep_least(count_, index, limit.taken, prepared.most_guard, distances, slack_, by_slack_);
  }
}

void LimitRun::take_guarded(std::uint32_t index) {
  const PreparedLimit& prepared = limits_[index];
  const double* xs = xs_of(prepared.limit);
  const double* ys = ys_of(prepared.limit);
  for (std::size_t i = 0; i < count_; ++i) {
    const Ticks ticks = read(prepared, {xs[i], ys[i]});
    if (ticks.leeway < leeway_[i]) {
      leeway_[i] = ticks.leeway;
      by_leeway_[i] = index;
    }
    if (ticks.leeway - ticks.guard < slack_[i]) {
      slack_[i] = ticks.leeway - ticks.guard;
      by_slack_[i] = index;
    }
  }
}

// A run in which one limit decides everything, and its guard is the same everywhere.
void LimitRun::evaluate_single(std::uint32_t index, std::span<Finding> findings) {
  const PreparedLimit& prepared = limits_[index];
  const Limit& limit = prepared.limit;
  const double guard = prepared.most_guard_mm;
  double leeways[kMost];
  limit.field->distances(xs_of(limit), ys_of(limit), leeways, count_);
  to_leeways(count_, limit.taken, leeways);
  for (std::size_t i = 0; i < count_; ++i) {
    const double leeway = leeways[i];
    findings[i] = {leeway, guard, index,
                   leeway < 0       ? Verdict::unreachable
                   : leeway < guard ? Verdict::marginal
                                    : Verdict::reachable};
  }
}

void LimitRun::conclude_all(std::span<Finding> findings) const {
  for (std::size_t i = 0; i < count_; ++i) {
    const auto reason = static_cast<std::uint32_t>(leeway_[i] < 0 ? by_leeway_[i] : by_slack_[i]);
    const PreparedLimit& prepared = limits_[reason];
    const Point at{xs_of(prepared.limit)[i], ys_of(prepared.limit)[i]};
    findings[i] = conclude(prepared, reason, leeway_[i], slack_[i], at);
  }
}

void LimitRun::evaluate(std::span<const Point> probes, std::span<Finding> findings) {
  place(probes);
  const Block block = make_block(probe_x_, probe_y_, count_);
  choose(limits_, offset_, block.middle, block.reach, at_middle_, own_choice_);
  evaluate(probes, findings, own_choice_);
}

void LimitRun::evaluate(std::span<const Point> probes, std::span<Finding> findings,
                        const Choice& choice) {
  place(probes);
  if (choice.limits.size() == 1 && limits_[choice.limits.front()].constant_guard) {
    evaluate_single(choice.limits.front(), findings);
    return;
  }
  std::fill_n(leeway_, count_, Least::kUndecided);
  std::fill_n(slack_, count_, Least::kUndecided);
  for (const std::uint32_t index : choice.limits) {
    if (limits_[index].constant_guard) {
      take(index, choice);
    } else {
      take_guarded(index);
    }
  }
  conclude_all(findings);
}

}  // namespace leeway
