#pragma once
// The machine of a setup.

#include "formats/input/places.h"
#include "formats/input/sources.h"
#include "formats/json/json_file.h"
#include "leeway/setup.h"

namespace leeway {

// Reads a machine object, or the machine file named by a text. What can't be read is noted, and
// stays as it is in a Machine{}, which validate() refuses.
Machine read_machine(JsonValue value, Sources& sources, Places& places);

}  // namespace leeway
