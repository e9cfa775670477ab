#pragma once
// How likely a setup is, and how likely a change of it.

#include "tasks/explain/mistakes.h"

namespace leeway {

// How likely it is that anybody has such a setup, from 0 to 1, by rules of thumb (common practice,
// no source): the probe stands beside the nozzle and outside the head, a bed is as large as
// desktop beds are and within the travel, the mesh covers a good part of the bed.
double plausibility(const Setup& setup);

// How far the change moves anything, in mm: a side of bed or travel, the mesh, the probe beside
// the nozzle.
double size_of_change(const Setup& before, const Setup& after);

// How often a mistake is made, from 0 to 1 (common practice, no source); `changed` tells among the
// trials of one mistake.
double frequency(const MistakeTrial& trial, const Setup& before);

}  // namespace leeway
