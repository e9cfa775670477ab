#pragma once
// `fit` with ranges of columns, rows or spacings: grids side by side.

#include "cli/commands/fit_options.h"
#include "cli/setup_input.h"

namespace leeway {

// The exit status. Throws OptionFault.
int run_comparison(const SetupArguments& arguments, const FitArguments& fit);

}  // namespace leeway
