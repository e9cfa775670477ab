#include "model/offsets/probe_beside.h"

#include "model/limits/ticks.h"

namespace leeway {

ProbeBeside::ProbeBeside(const Rig& rig) {
  append_beside(rig.setup(), *rig.limits().sweeps(), limits_);
}

std::vector<std::string> ProbeBeside::overlaps(Point offset) const {
  std::vector<std::string> names;
  for (const Limit& limit : limits_) {
    if (to_ticks(limit.field->distance(offset) - limit.taken) < 0) names.push_back(limit.info.part);
  }
  return names;
}

}  // namespace leeway
