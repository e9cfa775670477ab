#pragma once
// `leeway cover`.

#include "cli/command_line.h"

namespace leeway {

Command cover_command();

}  // namespace leeway
