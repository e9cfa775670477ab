#pragma once
// What would remedy failing points, one parameter at a time; each tried by evaluating every point.

#include <functional>
#include <optional>

#include "leeway/explain.h"
#include "tasks/explain/mistakes.h"

namespace leeway {

// Called before each changed setup that is tried. May throw, to stop.
using BeforeTrial = std::function<void()>;

// In all of these the limits are those of the setup.

// How many of the requested points are not reachable. Grid points that are left out, more than
// `skipped_before`, count as such: that is no remedy. Where none is left, all do.
std::size_t count_failing(const Rig& rig, std::size_t skipped_before);

// The smallest move of the offset, in 16 directions and to 0.1 mm, that makes every requested
// point reachable. Numbers for the nozzle stay numbers for the nozzle.
std::optional<Point> nearest_offset(const Rig& rig, const BeforeTrial& before);

// An offset of zero that should be another: which one is a guess, the nearest that works.
std::optional<MistakeTrial> true_offset_trial(const Rig& rig, const CheckResult& checked,
                                              const BeforeTrial& before);

std::vector<Remedy> remedies_of(const Rig& rig, const CheckResult& checked,
                                const ExplainOptions& options, const BeforeTrial& before);

}  // namespace leeway
