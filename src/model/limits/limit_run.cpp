#include "model/limits/limit_run.h"

#include <algorithm>

#include "geometry/plane/assert.h"
#include "geometry/plane/wide.h"

namespace leeway {
namespace {

// Keeps the least of what is left of the distances after `taken`, then after `guard`, and the limit
// it came from.
LEEWAY_WIDE void keep_least(std::size_t count, double index, double taken, double guard,
                            const double* __restrict distances, double* __restrict least,
                            double* __restrict by) {
  for (std::size_t i = 0; i < count; ++i) {
    const double here = to_ticks(distances[i] - taken) - guard;
    by[i] = here < least[i] ? index : by[i];
    least[i] = here < least[i] ? here : least[i];
  }
}

}  // namespace

void LimitRun::place(std::span<const Point> probes) {
  count_ = probes.size();
  for (std::size_t i = 0; i < count_; ++i) {
    probe_x_[i] = probes[i].x;
    probe_y_[i] = probes[i].y;
    nozzle_x_[i] = probes[i].x - offset_.x;
    nozzle_y_[i] = probes[i].y - offset_.y;
  }
  std::fill_n(leeway_, count_, Least::kUndecided);
  std::fill_n(after_guard_, count_, Least::kUndecided);
  std::fill_n(by_leeway_, count_, 0);
  std::fill_n(by_after_guard_, count_, 0);
}

void LimitRun::take(std::uint32_t index) {
  const PreparedLimit& prepared = limits_[index];
  const Limit& limit = prepared.limit;
  double distances[kMost];
  limit.field->distances(xs_of(limit), ys_of(limit), distances, count_);
  keep_least(count_, index, limit.taken, 0, distances, leeway_, by_leeway_);
  keep_least(count_, index, limit.taken, prepared.most_guard, distances, after_guard_,
             by_after_guard_);
}

// Where the guard differs by direction.
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
    if (ticks.leeway - ticks.guard < after_guard_[i]) {
      after_guard_[i] = ticks.leeway - ticks.guard;
      by_after_guard_[i] = index;
    }
  }
}

void LimitRun::evaluate(std::span<const Point> probes, std::span<Finding> findings) {
  LEEWAY_ASSERT(probes.size() == findings.size() && !probes.empty() && probes.size() <= kMost);
  place(probes);
  for (std::uint32_t i = 0; i < limits_.size(); ++i) {
    limits_[i].constant_guard ? take(i) : take_guarded(i);
  }
  for (std::size_t i = 0; i < count_; ++i) {
    const auto reason =
        static_cast<std::uint32_t>(leeway_[i] < 0 ? by_leeway_[i] : by_after_guard_[i]);
    const PreparedLimit& prepared = limits_[reason];
    const Point at{xs_of(prepared.limit)[i], ys_of(prepared.limit)[i]};
    // Concluded as for a single position, so that both are the same to the bit.
    findings[i] = conclude(prepared, reason, leeway_[i], after_guard_[i], at);
  }
}

}  // namespace leeway
