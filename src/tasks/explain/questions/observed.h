#pragma once
// What a controller did, against what it would do with other numbers.

#include <vector>

#include "leeway/explain.h"
#include "leeway/rig.h"

namespace leeway {

// Where the probe would be sent; nothing where the setup does not ask for that place.
std::optional<Point> sent_to(const Observed& observed, const Setup& setup);

// Whether a controller with these numbers does so: it refuses what its travel does not reach.
// Guard bands, obstacles and the bed's edge are none of its business.
bool explains(const Observed& observed, const Rig& rig);

std::size_t count_unexplained(const std::vector<Observed>& observed, const Rig& rig);

// How well all of it goes with these numbers: a logarithm.
double log_observed(const std::vector<Observed>& observed, const Rig& rig);

}  // namespace leeway
