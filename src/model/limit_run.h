#pragma once
// Many positions at once, in runs that lie close together.

#include <span>
#include <vector>

#include "model/choice.h"

namespace leeway {

// A limit that cannot decide anything within a run is left out for the whole run: that is what
// makes a lattice cheap. The findings are the same, to the bit, as those of single positions.
class LimitRun {
 public:
  LimitRun(const std::vector<PreparedLimit>& limits, Point offset);

  // Positions at a time; a run that makes its own choice is the better for being shorter.
  static constexpr std::size_t kMost = 256;
  static constexpr std::size_t kMostUnchosen = 64;

  // The positions that runs are taken from. REQUIRES: from 1 to kMost.
  void place(std::span<const Point> probes);
  const double* xs() const { return probe_x_; }
  const double* ys() const { return probe_y_; }

  // The findings of `findings.size()` of them, from `first` on, with a choice made for a box that
  // holds these.
  void evaluate(std::size_t first, std::span<Finding> findings, const Choice& choice);

  // Places the positions and makes the choice itself. REQUIRES: probes.size() == findings.size(),
  // from 1 to kMost.
  void evaluate(std::span<const Point> probes, std::span<Finding> findings);

 private:
  void evaluate_single(const Candidate& candidate, std::span<Finding> findings);
  void take(const Candidate& candidate, const Choice& choice);
  void take_guarded(std::uint32_t index);
  void conclude_constant(std::span<Finding> findings);
  void conclude_all(std::span<Finding> findings);
  const double* xs_of(const Limit& limit);
  const double* ys_of(const Limit& limit);
  void place_nozzle();

  const std::vector<PreparedLimit>& limits_;
  Point offset_;
  std::vector<Candidate> all_;
  Choice own_choice_;
  std::vector<double> at_middle_;

  std::size_t placed_ = 0;
  bool nozzle_placed_ = false;
  std::size_t first_ = 0;  // of the run
  std::size_t count_ = 0;
  double probe_x_[kMost], probe_y_[kMost], nozzle_x_[kMost], nozzle_y_[kMost];

  // Of each position: the least leeway and the least slack, in ticks, which limit's they are (as
  // double, so that all are as wide), and the guard of the latter where it is constant.
  double leeway_[kMost], slack_[kMost], by_leeway_[kMost], by_slack_[kMost], guard_[kMost] = {};
};

}  // namespace leeway
