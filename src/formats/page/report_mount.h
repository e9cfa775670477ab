#pragma once
// The report's part on the mount: where the probe may sit.

#include "leeway/write_bracket.h"

namespace leeway {

// A section. REQUIRES: a map.
void write_mount_section(const BracketReport& report, const TextSink& sink);

}  // namespace leeway
