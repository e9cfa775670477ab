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
  std::optional<Question> question;
};

// With what was seen, of the options. REQUIRES: something fails, much was left out, or the
// controller did what these numbers do not explain. Throws what `before` does.
Weighed weigh(const Rig& rig, const CheckResult& checked, const ExplainOptions& options,
              const BeforeTrial& before);

}  // namespace leeway
