#pragma once
// `leeway check`.

#include "cli/command_line.h"
#include "leeway/check.h"

namespace leeway {

Command check_command();

// 0 when every point is reachable. 1 when one is not, when all were left out, and when no point
// was asked for and none could be reached.
int exit_status(const CheckResult& result);

}  // namespace leeway
