#pragma once
// The options that say what `fit` looks for; `fill` takes them too.

#include <string>

#include "cli/options.h"
#include "leeway/fit.h"

namespace leeway {

// As typed; empty where not given.
struct FitArguments {
  std::string step, columns, rows, spacing, within, sides, home_leeway;
  bool uniform = false;
  bool inside = false;

  // Declares the options, to be read into this, which must stay where it is.
  void declare(Options& options);
};

// Throws OptionFault.
FitOptions fit_options(const FitArguments& arguments);

// What stands in the list of options of a help text.
extern const char* const kFitOptionsHelp;

}  // namespace leeway
