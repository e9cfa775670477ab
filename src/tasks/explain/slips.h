#pragma once
// Common slips, undone one at a time.

#include <vector>

#include "leeway/explain.h"

namespace leeway {

// A setup with one slip undone. A slip may have several trials: the number that is off may stand
// in several places.
struct SlipTrial {
  Slip slip = Slip::sign_of_x;
  Changes changes;
  Setup changed;
};

// All that apply to the setup, but offset_left_at_zero, whose true offset nobody knows.
std::vector<SlipTrial> slip_trials(const Setup& setup);

}  // namespace leeway
