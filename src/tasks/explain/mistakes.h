#pragma once
// Common mistakes, undone one at a time.

#include <vector>

#include "leeway/explain.h"

namespace leeway {

// A setup with one mistake undone. A mistake may have several trials: the number that is off may
// stand in several places.
struct MistakeTrial {
  Mistake mistake = Mistake::sign_of_x;
  Changes changes;
  Setup changed;
};

// All that apply to the setup, but offset_left_at_zero, whose true offset nobody knows.
std::vector<MistakeTrial> mistake_trials(const Setup& setup);

}  // namespace leeway
