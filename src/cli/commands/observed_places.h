#pragma once
// What `explain` is told of a controller and a machine.

#include <string>
#include <vector>

#include "leeway/explain.h"

namespace leeway {

// Adds the points that `--refused` or `--accepted` names, as `draw --at` does. Throws OptionFault.
void add_observed(const Setup& setup, const std::vector<std::string>& places, bool accepted,
                  std::vector<Observed>& observed);

// Of `--answer`. Throws OptionFault.
std::vector<Answer> answers_named(const std::vector<std::string>& names);

}  // namespace leeway
