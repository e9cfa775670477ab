#pragma once
// What program and page of a walk say in the same words.

#include <string>

#include "formats/text/words.h"
#include "leeway/write_walk.h"

namespace leeway {

// "grid 1,1", "home", or the point's own name.
std::string stop_name(const WalkStop& stop, const WalkResult& result, const Rig& rig,
                      const Words& words);

// Where the probe should be seen, from the edges of the bed: "20 from the left, 19.5 from the front".
std::string seen_at(const WalkStop& stop, const Rig& rig);

// "13".
std::string height_words(const WalkResult& result);

}  // namespace leeway
