#include "model/limit_run.h"

#include <algorithm>
#include <cmath>

#include "geometry/plane/polygons.h"
#include "geometry/plane/wide.h"

namespace leeway {
namespace {

// Keeps the least of what is left of the distances, and the limit it came from.
LEEWAY_WIDE void keep_leeway(std::size_t count, double index, double taken,
                             const double* __restrict distances, double* __restrict least,
                             double* __restrict by) {
  for (std::size_t i = 0; i < count; ++i) {
    const double here = to_ticks(distances[i] - taken);
    by[i] = here < least[i] ? index : by[i];
    least[i] = here < least[i] ? here : least[i];
  }
}

// The same less the guard, which is kept too.
LEEWAY_WIDE void keep_slack(std::size_t count, double index, double taken, double guard,
                            const double* __restrict distances, double* __restrict least,
                            double* __restrict by, double* __restrict guards) {
  for (std::size_t i = 0; i < count; ++i) {
    const double here = to_ticks(distances[i] - taken) - guard;
    by[i] = here < least[i] ? index : by[i];
    guards[i] = here < least[i] ? guard : guards[i];
    least[i] = here < least[i] ? here : least[i];
  }
}

// Which limit is the reason, and its leeway in mm.
LEEWAY_WIDE void find_reasons(std::size_t count, const double* __restrict leeway,
                              const double* __restrict by_leeway, const double* __restrict slack,
                              const double* __restrict by_slack, const double* __restrict guards,
                              double* __restrict reasons, double* __restrict leeways_mm) {
  for (std::size_t i = 0; i < count; ++i) {
    reasons[i] = leeway[i] < 0 ? by_leeway[i] : by_slack[i];
    leeways_mm[i] = to_millimetres(leeway[i] < 0 ? leeway[i] : slack[i] + guards[i]);
  }
}

LEEWAY_WIDE void to_leeways(std::size_t count, double taken, double* __restrict distances) {
  for (std::size_t i = 0; i < count; ++i) {
    distances[i] = to_millimetres(to_ticks(distances[i] - taken));
  }
}

// Positions as separate coordinates.
LEEWAY_WIDE void split(const Point* __restrict points, std::size_t count, double* __restrict xs,
                       double* __restrict ys) {
  for (std::size_t i = 0; i < count; ++i) {
    xs[i] = points[i].x;
    ys[i] = points[i].y;
  }
}

LEEWAY_WIDE void move(std::size_t count, double back, const double* __restrict from,
                      double* __restrict to) {
  for (std::size_t i = 0; i < count; ++i) to[i] = from[i] - back;
}

}  // namespace

LimitRun::LimitRun(const std::vector<PreparedLimit>& limits, Point offset)
    : limits_(limits), offset_(offset), all_(all_of(limits)) {}

void LimitRun::place(std::span<const Point> probes) {
  placed_ = probes.size();
  nozzle_placed_ = false;
  split(probes.data(), placed_, probe_x_, probe_y_);
}

void LimitRun::place_nozzle() {
  if (nozzle_placed_) return;
  move(placed_, offset_.x, probe_x_, nozzle_x_);
  move(placed_, offset_.y, probe_y_, nozzle_y_);
  nozzle_placed_ = true;
}

const double* LimitRun::xs_of(const Limit& limit) {
  if (!limit.at_nozzle) return probe_x_ + first_;
  place_nozzle();
  return nozzle_x_ + first_;
}

const double* LimitRun::ys_of(const Limit& limit) {
  if (!limit.at_nozzle) return probe_y_ + first_;
  place_nozzle();
  return nozzle_y_ + first_;
}

void LimitRun::take(const Candidate& candidate, const Choice& choice) {
  const std::uint32_t index = candidate.limit;
  const PreparedLimit& prepared = limits_[index];
  const Limit& limit = prepared.limit;
  double distances[kMost];
  candidate.distances->distances(xs_of(limit), ys_of(limit), distances, count_);
  if (choice.some_may_fail) {
    keep_leeway(count_, index, limit.taken, distances, leeway_, by_leeway_);
  }
  if (choice.some_may_pass) {
    keep_slack(count_, index, limit.taken, prepared.most_guard, distances, slack_, by_slack_,
               guard_);
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
void LimitRun::evaluate_single(const Candidate& candidate, std::span<Finding> findings) {
  const std::uint32_t index = candidate.limit;
  const PreparedLimit& prepared = limits_[index];
  const Limit& limit = prepared.limit;
  const double guard = prepared.most_guard_mm;
  double leeways[kMost];
  candidate.distances->distances(xs_of(limit), ys_of(limit), leeways, count_);
  to_leeways(count_, limit.taken, leeways);
  for (std::size_t i = 0; i < count_; ++i) {
    const double leeway = leeways[i];
    findings[i] = {leeway, guard, index,
                   leeway < 0       ? Verdict::unreachable
                   : leeway < guard ? Verdict::marginal
                                    : Verdict::reachable};
  }
}

// Where every candidate's guard is the same everywhere.
void LimitRun::conclude_constant(std::span<Finding> findings) {
  double reasons[kMost];
  double leeways[kMost];
  find_reasons(count_, leeway_, by_leeway_, slack_, by_slack_, guard_, reasons, leeways);
  for (std::size_t i = 0; i < count_; ++i) {
    const auto reason = static_cast<std::uint32_t>(reasons[i]);
    findings[i] = {leeways[i], limits_[reason].most_guard_mm, reason,
                   leeway_[i] < 0  ? Verdict::unreachable
                   : slack_[i] < 0 ? Verdict::marginal
                                   : Verdict::reachable};
  }
}

void LimitRun::conclude_all(std::span<Finding> findings) {
  for (std::size_t i = 0; i < count_; ++i) {
    const auto reason = static_cast<std::uint32_t>(leeway_[i] < 0 ? by_leeway_[i] : by_slack_[i]);
    const PreparedLimit& prepared = limits_[reason];
    const Point at{xs_of(prepared.limit)[i], ys_of(prepared.limit)[i]};
    findings[i] = conclude(prepared, reason, leeway_[i], slack_[i], at);
  }
}

void LimitRun::evaluate(std::span<const Point> probes, std::span<Finding> findings) {
  place(probes);
  choose(limits_, offset_, Around(bounding_box(probes)), all_, at_middle_, own_choice_);
  evaluate(0, findings, own_choice_);
}

void LimitRun::evaluate(std::size_t first, std::span<Finding> findings, const Choice& choice) {
  first_ = first;
  count_ = findings.size();
  const std::vector<Candidate>& candidates = choice.candidates;
  if (candidates.size() == 1 && limits_[candidates.front().limit].constant_guard) {
    evaluate_single(candidates.front(), findings);
    return;
  }
  std::fill_n(leeway_, count_, Least::kUndecided);
  std::fill_n(slack_, count_, Least::kUndecided);
  bool constant = true;
  for (const Candidate& candidate : candidates) {
    if (limits_[candidate.limit].constant_guard) {
      take(candidate, choice);
    } else {
      take_guarded(candidate.limit);
      constant = false;
    }
  }
  constant ? conclude_constant(findings) : conclude_all(findings);
}

}  // namespace leeway
