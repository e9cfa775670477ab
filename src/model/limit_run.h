#pragma once
// Many positions at once, in runs that lie close together.

#include <span>
#include <vector>

#include "model/prepared_limit.h"

namespace leeway {

// A limit that cannot decide anything within a run is left out for the whole run: that is what
// makes a lattice cheap. The findings are the same, to the bit, as those of single positions.
class LimitRun {
 public:
  LimitRun(const std::vector<PreparedLimit>& limits, Point offset);

  static constexpr std::size_t kMost = 64;

  // REQUIRES: probes.size() == findings.size(), from 1 to kMost.
  void evaluate(std::span<const Point> probes, std::span<Finding> findings);

 private:
  void place(std::span<const Point> probes);
  void choose();
  void take(std::uint32_t index);
  void take_guarded(std::uint32_t index);
  Point position(const Limit& limit, std::size_t i) const;

  const std::vector<PreparedLimit>& limits_;
  Point offset_;

  std::size_t count_ = 0;
  double probe_x_[kMost], probe_y_[kMost], nozzle_x_[kMost], nozzle_y_[kMost];
  Point center_;
  double reach_ = 0;  // from the center to any position, mm

  std::vector<std::uint32_t> chosen_;
  std::size_t chosen_count_ = 0;
  std::vector<double> at_center_;  // leeways there, ticks
  bool some_may_fail_ = true;
  bool some_may_pass_ = true;

  // Of each position: the least leeway and the least slack, in ticks, and which limit's they are
  // (as double, so that both are as wide).
  double leeway_[kMost], slack_[kMost], by_leeway_[kMost], by_slack_[kMost];
};

}  // namespace leeway
