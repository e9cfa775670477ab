#include "cli/commands/fit_options.h"

#include "cli/failure.h"
#include "cli/setup_options.h"
#include "cli/terminal.h"

namespace leeway {

const char* const kFitOptionsHelp =
    R"(  --columns N      as many columns (of points) instead of the request's; likewise
  --rows N         rows
  --spacing MM     as few columns and rows as keep the spacing to this, at least 2
  --step MM        look at bounds that are multiples of this; 0.5 if left out,
                   0.05 at the finest
  --uniform        one margin that works on all four sides of the bed
  --inside         the whole rectangle must be reachable, not only the points of the
                   grid: no clip may stand between them
  --within left=MM,right=MM,front=MM,back=MM
                   keep the bounds within these, for the probe
  --sides left=MM,...
                   hold sides (left, right, front, back) where they are, for the probe
  --home-leeway MM the leeway wanted at the homing point; 12 if left out
  --keep MM        keep that much leeway at every point, on top of the guard band
)";

void FitArguments::declare(Options& options) {
  options.value("--step", step);
  options.value("--columns", columns);
  options.value("--rows", rows);
  options.value("--spacing", spacing);
  options.value("--within", within);
  options.value("--sides", sides);
  options.value("--home-leeway", home_leeway);
  options.value("--keep", keep);
  options.flag("--uniform", uniform);
  options.flag("--inside", inside);
}

FitOptions fit_options(const FitArguments& arguments) {
  ReadFit read = typed_fit(arguments);
  if (!read.fault) return std::move(read.options);
  const bool value = read.fault->kind == TypedFault::Kind::takes;
  throw OptionFault(option_message(*read.fault) + (value ? " (see `leeway fit --help`)" : ""));
}

FitResult fit_showing_progress(const Rig& rig, FitOptions options) {
  ProgressLine progress("Fitting");
  options.progress = [&](double done) {
    progress.show(done);
    return true;
  };
  return fit(rig, options);
}

}  // namespace leeway
