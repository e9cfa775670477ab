#pragma once
// The probe of a setup.

#include "formats/input/sources.h"
#include "formats/json/json_file.h"
#include "leeway/setup.h"

namespace leeway {

// Reads a probe object, or the probe file named by a text. An object may name a profile, whose
// keys it replaces one by one; a profile may name another.
Probe read_probe(JsonValue value, Sources& sources);

}  // namespace leeway
