#pragma once
// The options that say what `fit` looks for; `fill` takes them too.

#include "cli/options.h"
#include "formats/typed/typed_fit.h"
#include "leeway/fit.h"

namespace leeway {

struct FitArguments : TypedFit {
  // Declares the options, to be read into this, which must stay where it is.
  void declare(Options& options);
};

// Throws OptionFault.
FitOptions fit_options(const FitArguments& arguments);

FitResult fit_showing_progress(const Rig& rig, FitOptions options);

// What stands in the list of options of a help text.
extern const char* const kFitOptionsHelp;

}  // namespace leeway
