#pragma once
// `check` for setups that have passed the door.

#include "leeway/check.h"
#include "model/setup/door.h"

namespace leeway {

// As check() does, but for InvalidSetup.
CheckResult check_trusted(const Setup& setup, const Limits& limits, const CheckOptions& options);
CheckResult check_trusted(const Setup& setup, const Limits& limits, const Regions& regions,
                          const CheckOptions& options);

}  // namespace leeway
