#pragma once
// How likely it is that somebody asks this of a machine: logarithms of densities, by rules of thumb
// (common practice, no source). Only differences between setups mean anything.

#include "leeway/setup.h"

namespace leeway {

// A request of who knows what the probe reaches: small margins to it, one margin that is enough on
// all sides, or more on some side. REQUIRES: all of it is reachable.
double log_fitting_request(const Setup& setup);

// A request of who looked at the bed but not at what the probe reaches, or not at every side, or
// not at what stands on the bed.
double log_careless_request(const Setup& setup);

// A request that says nothing about the machine.
double log_any_request(const Setup& setup);

}  // namespace leeway
