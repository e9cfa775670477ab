#pragma once
// `check` for setups that have passed the door.

#include "leeway/check.h"
#include "leeway/rig.h"
#include "model/setup/door.h"

namespace leeway {

// As check() does, but for InvalidSetup.
CheckResult check_trusted(const Rig& rig, const CheckOptions& options);

// How many of its moves run into something; 0 where they are not judged.
std::size_t count_blocked_moves(const Rig& rig);

}  // namespace leeway
