#pragma once
// What a changed setup does to the points that are asked for.

#include <cstddef>

#include "leeway/check.h"
#include "leeway/rig.h"

namespace leeway {

struct Effect {
  std::size_t fixes = 0;   // fail as stated, and are reachable then
  std::size_t breaks = 0;  // do not fail as stated; then they do, or are left out
};

// Point by point. A grid of other columns or rows has no point in common with the stated one: of
// such only the difference counts. `checked` is of the rig.
Effect effect_of(const Rig& rig, const CheckResult& checked, const Rig& changed);

}  // namespace leeway
