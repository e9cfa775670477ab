#pragma once
// `leeway bracket`.

#include "cli/command_line.h"

namespace leeway {

Command bracket_command();

}  // namespace leeway
