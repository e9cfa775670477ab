#pragma once
// The grid that a setup asks for.

#include <optional>

#include "formats/input/places.h"
#include "formats/json/json_file.h"
#include "leeway/setup.h"

namespace leeway {

// "probe" or "nozzle".
std::optional<Frame> read_frame(JsonValue value);

// Nothing where it is no object.
std::optional<Grid> read_grid(JsonValue value, Places& places);

}  // namespace leeway
