#pragma once
// What the probe overlaps of the rest of the head, seen from above.

#include <string>
#include <vector>

#include "leeway/rig.h"
#include "model/limits/limit_list.h"

namespace leeway {

// One rule for all: `check` warns where the probe sits in a part of its own head, and no answer
// puts it there. Touching is no overlap.
class ProbeBeside {
 public:
  // Shares with the rig what is swept. Throws SetupTooDetailed.
  explicit ProbeBeside(const Rig& rig);

  // What the probe overlaps with an offset, by name, the nozzle first.
  std::vector<std::string> overlaps(Point offset) const;

 private:
  std::vector<Limit> limits_;
};

}  // namespace leeway
