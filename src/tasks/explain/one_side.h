#pragma once
// The smallest remedy of a grid: one of its sides moved inward.

#include <vector>

#include "leeway/explain.h"
#include "leeway/rig.h"
#include "tasks/explain/weigh/weigh.h"

namespace leeway {

// One number of the request alone, the least change first: margins to multiples of 0.5 mm, bounds
// by as much. Each is verified. Empty where no side alone is enough, or the grid has too many
// points to try.
std::vector<Remedy> remedies_by_one_side(const Rig& rig, const BeforeTrial& before);

}  // namespace leeway
