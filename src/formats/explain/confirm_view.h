#pragma once
// What to look at to tell a mistake from numbers that are right.

#include <string>

#include "leeway/explain.h"

namespace leeway {

// What to look at, and what would be seen if it is a mistake and if it is none: never the same of
// both. Where both are empty, `look` is all there is to say, with its full stop.
struct Confirmation {
  std::string look;
  std::string confirms;
  std::string refutes;
};

Confirmation confirmation_of(const MistakeFound& mistake, const Setup& setup);

// The same in a sentence, with capital and full stop.
std::string confirm_sentence(const MistakeFound& mistake, const Setup& setup);

}  // namespace leeway
