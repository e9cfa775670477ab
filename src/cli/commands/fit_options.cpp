#include "cli/commands/fit_options.h"

#include <fmt/format.h>

#include <cmath>

#include "cli/command_line.h"
#include "cli/failure.h"
#include "formats/text/numbers.h"

namespace leeway {
namespace {

std::vector<std::string_view> split(std::string_view text) {
  std::vector<std::string_view> parts;
  for (;;) {
    const std::size_t comma = text.find(',');
    parts.push_back(text.substr(0, comma));
    if (comma == std::string_view::npos) return parts;
    text.remove_prefix(comma + 1);
  }
}

[[noreturn]] void refuse_fit_option(const char* option, const std::string& found,
                                    const char* allowed) {
  throw OptionFault(fmt::format("the option \"{}\" takes {}, not \"{}\" (see `leeway fit --help`)",
                                option, allowed, found));
}

std::optional<double> length(const char* option, const std::string& typed) {
  if (typed.empty()) return std::nullopt;
  const std::optional<double> value = number_in(typed);
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

std::optional<Box> within(const std::string& typed) {
  if (typed.empty()) return std::nullopt;
  constexpr const char* kAllowed = "four numbers of mm: left,right,front,back";
  std::vector<double> values;
  for (const std::string_view part : split(typed)) {
    const std::optional<double> value = number_in(part);
    if (!value) refuse_fit_option("--within", typed, kAllowed);
    values.push_back(*value);
  }
  if (values.size() != 4) refuse_fit_option("--within", typed, kAllowed);
  return Box{values[0], values[1], values[2], values[3]};
}

FitSides sides(const std::string& typed) {
  FitSides out;
  if (typed.empty()) return out;
  const std::vector<std::string_view> names{"left", "right", "front", "back"};
  std::optional<double>* const values[] = {&out.left, &out.right, &out.front, &out.back};
  for (const std::string_view part : split(typed)) {
    const std::size_t equals = part.find('=');
    const std::string_view name = part.substr(0, equals);
    const auto at = std::find(names.begin(), names.end(), name);
    if (at == names.end()) {
      throw OptionFault(fmt::format("\"--sides\" knows no side \"{}\"{} (the sides are {})", name,
                                    suggestion(name, names), fmt::join(names, ", ")));
    }
    std::optional<double>& value = *values[at - names.begin()];
    if (value) throw OptionFault(fmt::format("\"--sides\" gives {} twice", name));
    if (equals != std::string_view::npos) value = number_in(part.substr(equals + 1));
    if (!value) {
      refuse_fit_option("--sides", typed, "sides and numbers of mm, such as left=12,back=200");
    }
  }
  return out;
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
  --within LEFT,RIGHT,FRONT,BACK
                   keep the bounds within these, for the probe
  --sides SIDE=MM,...
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
