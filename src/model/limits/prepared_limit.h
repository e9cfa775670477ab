#pragma once
// A limit with what never changes about it, and what it says in ticks.

#include <limits>

#include "model/limits/limit_list.h"
#include "model/limits/ticks.h"

namespace leeway {

struct PreparedLimit {
  Limit limit;
  bool constant_guard = false;
  double most_guard = 0;  // ticks
  double most_guard_mm = 0;
};

PreparedLimit prepare(Limit limit);

struct Ticks {
  double leeway = 0;
  double guard = 0;
};

// `at` is the nozzle's or the probe's position, as the limit wants it.
inline Ticks read(const PreparedLimit& prepared, Point at) {
  const Limit& limit = prepared.limit;
  if (prepared.constant_guard) {
    return {to_ticks(limit.field->distance(at) - limit.taken), prepared.most_guard};
  }
  const GuardedDistance guarded = limit.field->guarded_distance(at, limit.spread);
  return {to_ticks(guarded.distance - limit.taken), to_ticks(guarded.guard)};
}

// The least leeway, and the least leeway minus guard, met at one position. The first limit in
// order wins a tie.
struct Least {
  double leeway = kUndecided;
  double after_guard = kUndecided;
  std::uint32_t by_leeway = 0;
  std::uint32_t by_after_guard = 0;

  static constexpr double kUndecided = std::numeric_limits<double>::infinity();

  void take(std::uint32_t limit, const Ticks& ticks) {
    if (ticks.leeway < leeway) {
      leeway = ticks.leeway;
      by_leeway = limit;
    }
    if (ticks.leeway - ticks.guard < after_guard) {
      after_guard = ticks.leeway - ticks.guard;
      by_after_guard = limit;
    }
  }
};

// What follows for a position from its least leeway and least leeway after guard; `reason` is the
// limit of the first where that is below 0, else of the second.
inline Finding conclude(const PreparedLimit& reason, std::uint32_t index, double leeway,
                        double after_guard, Point at) {
  const double guard = reason.constant_guard ? reason.most_guard : read(reason, at).guard;
  const double guard_mm = reason.constant_guard ? reason.most_guard_mm : to_millimetres(guard);
  if (leeway < 0) return {to_millimetres(leeway), guard_mm, index, Verdict::unreachable};
  return {to_millimetres(after_guard + guard), guard_mm, index,
          after_guard < 0 ? Verdict::marginal : Verdict::reachable};
}

}  // namespace leeway
