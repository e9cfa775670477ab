#pragma once
// Many positions at once, in runs that lie close together.

#include <span>
#include <vector>

#include "model/prepared_limit.h"

namespace leeway {

// The limits that can be the reason for some position within a circle.
struct Choice {
  std::vector<std::uint32_t> limits;
  bool some_may_fail = true;
  bool some_may_pass = true;
};

// Every leeway changes by at most 1 mm per mm, so that the one in the middle bounds all others.
// `at_middle` is room for a number a limit.
void choose(const std::vector<PreparedLimit>& limits, Point offset, Point middle, double reach,
            std::vector<double>& at_middle, Choice& choice);

// A limit that cannot decide anything within a run is left out for the whole run: that is what
// makes a lattice cheap. The findings are the same, to the bit, as those of single positions.
class LimitRun {
 public:
  LimitRun(const std::vector<PreparedLimit>& limits, Point offset);

  static constexpr std::size_t kMost = 64;

  // Makes its own choice. REQUIRES: probes.size() == findings.size(), from 1 to kMost.
  void evaluate(std::span<const Point> probes, std::span<Finding> findings);

  // With a choice made for a circle that holds all of them.
  void evaluate(std::span<const Point> probes, std::span<Finding> findings, const Choice& choice);

 private:
  void place(std::span<const Point> probes);
  void evaluate_single(std::uint32_t index, std::span<Finding> findings);
  void take(std::uint32_t index, const Choice& choice);
  void take_guarded(std::uint32_t index);
  void conclude_all(std::span<Finding> findings) const;
  const double* xs_of(const Limit& limit) const { return limit.at_nozzle ? nozzle_x_ : probe_x_; }
  const double* ys_of(const Limit& limit) const { return limit.at_nozzle ? nozzle_y_ : probe_y_; }

  const std::vector<PreparedLimit>& limits_;
  Point offset_;
  Choice own_choice_;
  std::vector<double> at_middle_;

  std::size_t count_ = 0;
  double probe_x_[kMost], probe_y_[kMost], nozzle_x_[kMost], nozzle_y_[kMost];

  // Of each position: the least leeway and the least slack, in ticks, and which limit's they are
  // (as double, so that both are as wide).
  double leeway_[kMost], slack_[kMost], by_leeway_[kMost], by_slack_[kMost];
};

}  // namespace leeway
