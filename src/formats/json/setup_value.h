#pragma once
// A setup as JSON.

#include <nlohmann/json.hpp>

#include "leeway/setup.h"

namespace leeway {

// What `setup_json` is the tidy text of. REQUIRES: a setup that `validate` finds no fault with.
nlohmann::ordered_json setup_value(const Setup& setup);

}  // namespace leeway
