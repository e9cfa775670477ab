#include "tasks/explain/weigh/tried.h"

#include "leeway/validate.h"
#include "tasks/explain/hypotheses/mistake_table.h"
#include "tasks/explain/questions/observed.h"

namespace leeway {

TriedTrials::TriedTrials(const Rig& rig, const std::vector<Observed>& observed,
                         const BeforeTrial& before)
    : rig_(rig), observed_(observed), before_(before), trials_(mistake_trials(rig.setup())) {}

bool TriedTrials::in_mount(std::size_t trial) {
  const Point offset = trials_[trial].changed.probe.offset;
  if (offset == rig_.setup().probe.offset) return true;
  if (!mount_) mount_.emplace(rig_, std::vector<Point>{});
  return mount_->slack_of_mount(offset) >= 0;
}

const Tried* TriedTrials::tried(std::size_t trial) {
  auto at = tried_.find(trial);
  if (at == tried_.end()) at = tried_.emplace(trial, look(trials_[trial])).first;
  return at->second ? &*at->second : nullptr;
}

std::optional<Tried> TriedTrials::look(const MistakeTrial& trial) const {
  before_();
  try {
    if (!validate(trial.changed).empty()) return std::nullopt;
    const Rig changed = rig_.with(trial.changed);
    return Tried{count_points(changed.setup(), changed.limits()),
                 count_unexplained(observed_, changed), leeway::log_observed(observed_, changed)};
  } catch (const SetupTooDetailed&) {
    return std::nullopt;
  } catch (const InvalidSetup&) {
    return std::nullopt;
  }
}

}  // namespace leeway
