#pragma once
// `leeway fill`.

#include "cli/command_line.h"

namespace leeway {

Command fill_command();

}  // namespace leeway
