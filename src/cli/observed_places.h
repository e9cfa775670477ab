#pragma once
// What `explain` is told of a controller and a machine.

#include <string>
#include <vector>

#include "leeway/explain.h"

namespace leeway {

// The points that `--refused` and `--accepted` name, as `draw --at` does. Throws OptionFault, also
// where a point is named by both.
std::vector<Observed> observed_places(const Setup& setup, const std::vector<std::string>& refused,
                                      const std::vector<std::string>& accepted);

// Of `--answer`. Throws OptionFault, also where two contradict each other.
std::vector<Answer> answers_named(const std::vector<std::string>& names);

}  // namespace leeway
