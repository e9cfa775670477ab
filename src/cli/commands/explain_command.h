#pragma once
// `leeway explain`.

#include "cli/command_line.h"

namespace leeway {

Command explain_command();

}  // namespace leeway
