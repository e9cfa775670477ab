#pragma once
// Leeway to keep on top of the guard, at every limit.

#include <optional>

#include "leeway/fit.h"
#include "leeway/rig.h"

namespace leeway {

// The setup in which what is reachable has `keep` mm of leeway more than its guard in `rig`: the
// travel is smaller, the bed's edge and the obstacles stay farther off. Its printable region is
// another: take that of `rig`. Nothing where no travel is left. Throws FitRefused.
std::optional<Rig> rig_keeping(const Rig& rig, double keep);

// The most that some mesh can keep, a multiple of 0.1 below options.keep; nothing when not even
// options.keep = 0 fits. REQUIRES: options.keep does not fit.
std::optional<double> most_kept(const Rig& rig, const FitOptions& options);

// Whether some mesh keeps options.keep.
bool fits_keeping(const Rig& rig, const FitOptions& options);

}  // namespace leeway
