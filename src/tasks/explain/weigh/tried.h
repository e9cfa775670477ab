#pragma once
// What each trial comes to, whatever was answered: looked at once.

#include <map>
#include <optional>
#include <vector>

#include "model/offsets/offset_limits.h"
#include "tasks/check/requested_points.h"
#include "tasks/explain/hypotheses/trials.h"
#include "tasks/explain/weigh/weigh.h"

namespace leeway {

struct Tried {
  PointCounts counts;
  std::size_t unexplained = 0;  // of what the controller did
  double log_observed = 0;
};

class TriedTrials {
 public:
  // `before` is called before each one that is looked at.
  TriedTrials(const Rig& rig, const std::vector<Observed>& observed, const BeforeTrial& before);

  // All mistakes that apply, undone.
  const std::vector<MistakeTrial>& trials() const { return trials_; }

  // A probe that its bracket cannot hold, or in its own head, nobody has.
  bool in_mount(std::size_t trial);

  // nullptr: no setup, or too detailed to judge. REQUIRES: in_mount.
  const Tried* tried(std::size_t trial);

 private:
  std::optional<Tried> look(const MistakeTrial& trial) const;

  const Rig& rig_;
  const std::vector<Observed>& observed_;
  const BeforeTrial& before_;
  std::vector<MistakeTrial> trials_;
  std::optional<OffsetLimits> mount_;
  std::map<std::size_t, std::optional<Tried>> tried_;
};

}  // namespace leeway
