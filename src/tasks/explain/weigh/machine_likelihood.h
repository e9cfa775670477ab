#pragma once
// How likely it is that somebody has a machine: logarithms of densities, by rules of thumb (common
// practice, no source). Only differences between setups mean anything.

#include "tasks/explain/hypotheses/trials.h"

namespace leeway {

// Bed, travel, offset, sensing area and uncertainties. What is unknown is not asked to be round.
double log_machine(const Setup& setup, Unknown unknown);

// Of the sides of a bed, those at which the travel ends with it.
inline constexpr double kShareEndsWithBed = 0.3;

// Of the travel alone, against the bed.
double log_travel(const Machine& machine, Unknown unknown);

}  // namespace leeway
