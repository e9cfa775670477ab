#include "cli/commands/fit_options.h"

#include <fmt/format.h>

#include <cmath>

#include "cli/failure.h"
#include "cli/setup_options.h"
#include "formats/text/numbers.h"
#include "formats/typed/typed_values.h"

namespace leeway {
namespace {

[[noreturn]] void refuse_fit_option(const char* option, const std::string& found,
                                    const char* allowed) {
  throw OptionFault(
      fmt::format("the option \"{}\" takes {}, not \"{}\"{} (see `leeway fit --help`)", option,
                  allowed, found, number_hint(found)));
}

std::optional<double> length(const char* option, const std::string& typed) {
  if (typed.empty()) return std::nullopt;
  const std::optional<double> value = typed_number(typed);
  if (!value) refuse_fit_option(option, typed, "a number of mm");
  return value;
}

std::optional<int> count(const char* option, const std::string& typed) {
  if (typed.empty()) return std::nullopt;
  const std::optional<double> value = number_in(typed);
  if (!value || *value != std::floor(*value) || *value < 2 || *value > 1e7) {
    refuse_fit_option(option, typed, "a whole number from 2 to 10000000");
  }
  return static_cast<int>(*value);
}

TypedSides sides_of(const char* field, const std::string& typed) {
  const ReadSides read = sides_in(field, typed);
  if (read.fault) throw OptionFault(option_message(*read.fault));
  return read.sides;
}

std::optional<Box> within(const std::string& typed) {
  if (typed.empty()) return std::nullopt;
  const TypedSides sides = sides_of("within", typed);
  if (!sides.all()) {
    refuse_fit_option("--within", typed, "all four sides: left=MM,right=MM,front=MM,back=MM");
  }
  return Box{*sides.left, *sides.right, *sides.front, *sides.back};
}

FitSides sides(const std::string& typed) {
  if (typed.empty()) return {};
  const TypedSides sides = sides_of("sides", typed);
  return {sides.left, sides.right, sides.front, sides.back};
}

}  // namespace

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
)";

void FitArguments::declare(Options& options) {
  options.value("--step", step);
  options.value("--columns", columns);
  options.value("--rows", rows);
  options.value("--spacing", spacing);
  options.value("--within", within);
  options.value("--sides", sides);
  options.value("--home-leeway", home_leeway);
  options.flag("--uniform", uniform);
  options.flag("--inside", inside);
}

FitOptions fit_options(const FitArguments& arguments) {
  FitOptions options;
  if (const auto step = length("--step", arguments.step)) options.step = *step;
  options.columns = count("--columns", arguments.columns);
  options.rows = count("--rows", arguments.rows);
  options.spacing = length("--spacing", arguments.spacing);
  options.within = within(arguments.within);
  options.sides = sides(arguments.sides);
  if (const auto leeway = length("--home-leeway", arguments.home_leeway)) {
    options.home_leeway = *leeway;
  }
  options.uniform = arguments.uniform;
  options.inside = arguments.inside;
  return options;
}

}  // namespace leeway
