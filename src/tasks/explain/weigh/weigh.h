#pragma once
// Which explanation is how probable: every mistake, and that too much is asked for, compete.

#include <functional>

#include "leeway/explain.h"

namespace leeway {

// Called before each changed setup that is tried. May throw, to stop.
using BeforeTrial = std::function<void()>;

struct Weighed {
  std::vector<MistakeFound> mistakes;  // best first, each verified; at most kMostMistakes
  double asked_too_much = 0;
};

// REQUIRES: something fails, or much was left out. Throws what `before` does.
Weighed weigh(const Rig& rig, const CheckResult& checked, const BeforeTrial& before);

}  // namespace leeway
