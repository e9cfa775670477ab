#pragma once
// `leeway draw`.

#include "cli/command_line.h"

namespace leeway {

Command draw_command();

}  // namespace leeway
