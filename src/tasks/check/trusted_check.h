#pragma once
// `check` for setups that have passed the door.

#include "leeway/check.h"
#include "leeway/rig.h"
#include "model/setup/door.h"

namespace leeway {

// As check() does, but for InvalidSetup.
CheckResult check_trusted(const Rig& rig, const CheckOptions& options);

}  // namespace leeway
