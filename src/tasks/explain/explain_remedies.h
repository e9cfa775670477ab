#pragma once
// What would remedy failing points, one parameter at a time; each tried by evaluating every point.

#include <optional>

#include "leeway/explain.h"
#include "tasks/explain/weigh/weigh.h"

namespace leeway {

// In all of these the limits are those of the setup.

// The smallest move of the offset, in 16 directions and to 0.1 mm, that makes every requested
// point reachable. Numbers for the nozzle stay numbers for the nozzle.
std::optional<Point> nearest_offset(const Rig& rig, const BeforeTrial& before);

std::vector<Remedy> remedies_of(const Rig& rig, const CheckResult& checked,
                                const ExplainOptions& options, const BeforeTrial& before);

}  // namespace leeway
