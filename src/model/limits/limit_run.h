#pragma once
// Many positions at once, a block at a time: limits outside, positions inside.

#include <span>
#include <vector>

#include "model/limits/prepared_limit.h"

namespace leeway {

// The findings are the same, to the bit, as those of single positions.
class LimitRun {
 public:
  LimitRun(const std::vector<PreparedLimit>& limits, Point offset)
      : limits_(limits), offset_(offset) {}

  static constexpr std::size_t kMost = 64;

  // REQUIRES: probes.size() == findings.size(), from 1 to kMost.
  void evaluate(std::span<const Point> probes, std::span<Finding> findings);

 private:
  void place(std::span<const Point> probes);
  void take(std::uint32_t index);
  void take_guarded(std::uint32_t index);
  const double* xs_of(const Limit& limit) const { return limit.at_nozzle ? nozzle_x_ : probe_x_; }
  const double* ys_of(const Limit& limit) const { return limit.at_nozzle ? nozzle_y_ : probe_y_; }

  const std::vector<PreparedLimit>& limits_;
  Point offset_;
  std::size_t count_ = 0;
  double probe_x_[kMost], probe_y_[kMost], nozzle_x_[kMost], nozzle_y_[kMost];

  // Of each position: the least leeway and the least after guard, in ticks, and which limit's they
  // are (as double, so that all are as wide).
  double leeway_[kMost], after_guard_[kMost], by_leeway_[kMost], by_after_guard_[kMost];
};

}  // namespace leeway
