#pragma once
// What a setup asks for: a grid, named points, home.

#include "formats/input/places.h"
#include "formats/json/json_file.h"
#include "leeway/setup.h"

namespace leeway {

Request read_request(JsonValue value, Places& places);

}  // namespace leeway
