#pragma once
// The machine of a setup.

#include <optional>

#include "formats/input/sources.h"
#include "formats/json/json_file.h"
#include "leeway/setup.h"

namespace leeway {

// Reads a machine object, or the machine file named by a text. What could be read is there even
// where faults were noted elsewhere, so that others can be checked against it: `bed` and `travel`
// are there when they are sound.
struct MachineRead {
  Machine machine;
  bool has_bed = false;
  bool has_travel = false;
};
MachineRead read_machine(JsonValue value, Sources& sources);

}  // namespace leeway
