#pragma once
// Mistakes as people make them when they write a setup down.

#include <vector>

#include "leeway/setup.h"
#include "tasks/stories/rolls.h"

namespace leeway {

struct MadeMistake {
  const char* kind;              // the word of the mistake
  bool (*make)(Setup&, Rolls&);  // false where it does not apply
};

const std::vector<MadeMistake>& made_mistakes();

}  // namespace leeway
