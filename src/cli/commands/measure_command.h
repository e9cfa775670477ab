#pragma once
// `leeway measure`.

#include "cli/command_line.h"

namespace leeway {

Command measure_command();

}  // namespace leeway
