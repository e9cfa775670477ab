#pragma once
// `fit` for setups that have passed the door.

#include "leeway/fit.h"

namespace leeway {

// As fit() does, but for InvalidSetup.
FitResult fit_trusted(const Rig& rig, const FitOptions& options);

}  // namespace leeway
