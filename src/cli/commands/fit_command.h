#pragma once
// `leeway fit`.

#include "cli/command_line.h"

namespace leeway {

Command fit_command();

}  // namespace leeway
