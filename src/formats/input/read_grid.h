#pragma once
// The lattice that a setup asks for.

#include <optional>

#include "formats/input/read_machine.h"
#include "formats/json/json_file.h"
#include "leeway/setup.h"

namespace leeway {

// "probe" or "nozzle".
std::optional<Frame> read_frame(JsonValue value);

// Nothing where a fault was noted.
std::optional<Grid> read_grid(JsonValue value, const MachineRead& machine);

}  // namespace leeway
