#pragma once
// Invented machines as people have them, and requests that people make of them.

#include <optional>

#include "leeway/setup.h"
#include "tasks/stories/rolls.h"

namespace leeway {

// A machine and its probe, nothing asked yet. Beds of 100 to 1,000 mm, up to 80 mm of travel past
// any side, round beds, parts and obstacles, with and without uncertainties.
Setup true_machine(Rolls& rolls);

// What the probe reaches of a bed by its bed and travel alone, guard bands kept: the box within
// which a careful person puts a grid. On a round bed it is a box within the disc.
Box reach_box(const Setup& setup);

// How a request is made by who knows what the probe reaches: all of it is reachable, but for
// obstacles, which only a check tells.
Request fitting_request(const Setup& setup, Rolls& rolls);

// How a request is made by who does not look at what the probe reaches, or not at every side.
Request careless_request(const Setup& setup, Rolls& rolls);

}  // namespace leeway
