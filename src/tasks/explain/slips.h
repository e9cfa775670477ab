#pragma once
// Common slips, undone one at a time.

#include <vector>

#include "leeway/explain.h"

namespace leeway {

// A setup with one slip undone. A slip may have several trials: the number that is off may stand
// in several places.
struct SlipTrial {
  Slip slip = Slip::sign_of_x;
  std::vector<Change> changes;
  Setup changed;
};

// All that apply to the setup, but offset_left_at_zero, whose true offset nobody knows.
std::vector<SlipTrial> slip_trials(const Setup& setup);

// How likely it is that anybody has such a setup, from 0 to 1, by rules of thumb (common practice,
// no source): the probe stands beside the nozzle and outside the head, a plate is as large as
// desktop plates are and within the travel, the mesh covers a good part of the plate.
double plausibility(const Setup& setup);

// How far the change moves anything, in mm: a side of plate or travel, the mesh, the probe beside
// the nozzle.
double size_of_change(const Setup& before, const Setup& after);

// How often a slip is made, from 0 to 1 (common practice, no source); `changed` tells among the
// trials of one slip.
double frequency(const SlipTrial& trial, const Setup& before);

}  // namespace leeway
