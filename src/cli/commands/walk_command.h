#pragma once
// `leeway walk`.

#include "cli/command_line.h"

namespace leeway {

Command walk_command();

}  // namespace leeway
