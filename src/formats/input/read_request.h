#pragma once
// What a setup asks for: a lattice, named points, home.

#include "formats/input/read_machine.h"
#include "formats/json/json_file.h"
#include "leeway/setup.h"

namespace leeway {

// Margins are checked against the machine's plate or travel where those are sound.
Request read_request(JsonValue value, const MachineRead& machine);

}  // namespace leeway
