#include "cli/setup_options.h"

#include <fmt/format.h>

#include "cli/failure.h"
#include "cli/typed_values.h"
#include "formats/text/numbers.h"

namespace leeway {
namespace {

[[noreturn]] void refuse_setup_option(const char* option, const std::string& found,
                                      const char* allowed, const std::string& hint = "") {
  throw OptionFault(
      fmt::format("the option \"{}\" takes {}, not \"{}\"{}", option, allowed, found, hint));
}

// "x": [left, right], "y": [front, back].
std::string ranges_text(const std::pair<TypedRange, TypedRange>& box) {
  return fmt::format("\"x\": [{}, {}], \"y\": [{}, {}]", shortest(box.first.from),
                     shortest(box.first.to), shortest(box.second.from), shortest(box.second.to));
}

// Numbers between separators, each written as the shortest decimal; nothing when one is none.
std::optional<std::vector<std::string>> numbers_in(std::string_view text, char separator) {
  std::vector<std::string> out;
  for (;;) {
    const std::size_t at = text.find(separator);
    const std::optional<double> number = number_in(text.substr(0, at));
    if (!number) return std::nullopt;
    out.push_back(shortest(*number));
    if (at == std::string_view::npos) return out;
    text.remove_prefix(at + 1);
  }
}

std::vector<std::string> numbers(const char* option, const std::string& typed, std::size_t count,
                                 const char* allowed) {
  const auto found = numbers_in(typed, ',');
  if (!found || found->size() != count) refuse_setup_option(option, typed, allowed);
  return *found;
}

std::string shape(const char* option, const std::string& typed) {
  constexpr std::string_view kRound = "round:";
  if (typed.compare(0, kRound.size(), kRound) == 0) {
    if (const auto radius = number_in(std::string_view(typed).substr(kRound.size()))) {
      return fmt::format(R"({{"disc": {{"center": [0, 0], "radius": {}}}}})", shortest(*radius));
    }
  } else if (const auto size = numbers_in(typed, 'x'); size && size->size() == 2) {
    return fmt::format(R"({{"rectangle": {{"x": [0, {}], "y": [0, {}]}}}})", (*size)[0],
                       (*size)[1]);
  } else if (const auto box = ranges_in(typed)) {
    return fmt::format("{{\"rectangle\": {{{}}}}}", ranges_text(*box));
  }
  refuse_setup_option(
      option, typed,
      "a size such as 233x207, bounds such as -5..239,-2..211, or round:RADIUS around 0, 0",
      range_hint(typed));
}

std::string frame(const char* option, const std::string& typed) {
  if (typed != "probe" && typed != "nozzle") refuse_setup_option(option, typed, "probe or nozzle");
  return typed;
}

std::string probe_text(const SetupNumbers& typed) {
  const auto offset = numbers("--offset", typed.offset, 2, "two numbers of mm, such as -38.5,12");
  std::string out = fmt::format("\"offset\": [{}, {}]", offset[0], offset[1]);
  if (!typed.uncertainty.empty()) {
    const auto u =
        numbers("--uncertainty", typed.uncertainty, 2, "two numbers of mm, such as 0.15,0.15");
    out += fmt::format(", \"offset_uncertainty\": [{}, {}]", u[0], u[1]);
  }
  if (!typed.spot.empty()) {
    const auto radius = numbers("--spot", typed.spot, 1, "a radius in mm");
    out += fmt::format(R"(, "spot": {{"disc": {{"center": [0, 0], "radius": {}}}}})", radius[0]);
  }
  if (!typed.edge_distance.empty()) {
    const auto distance = numbers("--edge-distance", typed.edge_distance, 1, "a number of mm");
    out += fmt::format(", \"edge_distance\": {}", distance[0]);
  }
  return out;
}

std::string margins_text(const SetupNumbers& typed) {
  std::string out = "\"margins\": ";
  if (const auto all = number_in(typed.margins)) {
    out += shortest(*all);
  } else {
    const TypedSides sides = sides_in("--margins", typed.margins);
    if (!sides.all()) {
      refuse_setup_option("--margins", typed.margins,
                          "one number of mm, or all four sides: left=MM,right=MM,front=MM,back=MM");
    }
    out += fmt::format(R"({{"left": {}, "right": {}, "front": {}, "back": {}}})",
                       shortest(*sides.left), shortest(*sides.right), shortest(*sides.front),
                       shortest(*sides.back));
  }
  if (!typed.margins_from.empty()) {
    if (typed.margins_from != "bed" && typed.margins_from != "travel") {
      refuse_setup_option("--margins-from", typed.margins_from, "bed or travel");
    }
    out += fmt::format(", \"margins_from\": \"{}\"", typed.margins_from);
  }
  return out;
}

std::string grid_text(const SetupNumbers& typed) {
  const auto size = numbers_in(typed.grid, 'x');
  if (!size || size->size() != 2) {
    refuse_setup_option("--grid", typed.grid, "columns and rows, such as 5x4");
  }
  if (typed.margins.empty() == typed.bounds.empty()) {
    throw OptionFault("with \"--grid\" goes either \"--margins\" or \"--bounds\"");
  }
  std::string out = fmt::format("{{\"columns\": {}, \"rows\": {}, ", (*size)[0], (*size)[1]);
  if (typed.bounds.empty()) {
    out += margins_text(typed);
  } else {
    const auto box = ranges_in(typed.bounds);
    if (!box) {
      refuse_setup_option("--bounds", typed.bounds, "bounds such as 20..210,20..190",
                          range_hint(typed.bounds));
    }
    out += ranges_text(*box);
  }
  if (!typed.grid_frame.empty()) {
    out += fmt::format(", \"frame\": \"{}\"", frame("--grid-frame", typed.grid_frame));
  }
  return out + "}";
}

void need(const char* option, const std::string& typed) {
  if (!typed.empty()) return;
  throw OptionFault(fmt::format("without a setup the option \"{}\" is needed", option));
}

void goes_with(const char* option, const std::string& typed, const char* other,
               const std::string& other_typed) {
  if (typed.empty() || !other_typed.empty()) return;
  throw OptionFault(fmt::format("the option \"{}\" goes with \"{}\"", option, other));
}

}  // namespace

const char* const kSetupNumbersHelp =
    R"(
Instead of a file, the numbers themselves:
  --without-setup  take the setup from these options:
  --bed 233x207    the bed: its size from 0, 0; or bounds -5..239,-2..211; or round:94.5
  --travel ...     where the nozzle may go, likewise
  --offset X,Y     from nozzle to probe
  --uncertainty X,Y  of the offset; --spot RADIUS and --edge-distance MM of the probe
  --grid 5x4       columns and rows of the grid, with --margins MM (or
                   left=MM,right=MM,front=MM,back=MM) or --bounds 20..210,20..190;
  --margins-from   bed or travel; --grid-frame probe or nozzle
  --home X,Y       the homing point, for the nozzle
  --save FILE      write the setup that they amount to (--force replaces a file)
)";

void SetupNumbers::declare(Options& options) {
  options.flag("--without-setup", without_setup);
  options.value("--bed", bed);
  options.value("--travel", travel);
  options.value("--offset", offset);
  options.value("--uncertainty", uncertainty);
  options.value("--spot", spot);
  options.value("--edge-distance", edge_distance);
  options.value("--grid", grid);
  options.value("--margins", margins);
  options.value("--bounds", bounds);
  options.value("--margins-from", margins_from);
  options.value("--grid-frame", grid_frame);
  options.value("--home", home);
  options.value("--save", save, &has_save);
}

bool SetupNumbers::any() const {
  for (const std::string* typed : {&bed, &travel, &offset, &uncertainty, &spot, &edge_distance,
                                   &grid, &margins, &bounds, &margins_from, &grid_frame, &home}) {
    if (!typed->empty()) return true;
  }
  return has_save;
}

std::string setup_text(const SetupNumbers& typed) {
  need("--bed", typed.bed);
  need("--travel", typed.travel);
  need("--offset", typed.offset);
  goes_with("--margins", typed.margins, "--grid", typed.grid);
  goes_with("--bounds", typed.bounds, "--grid", typed.grid);
  goes_with("--margins-from", typed.margins_from, "--margins", typed.margins);
  goes_with("--grid-frame", typed.grid_frame, "--grid", typed.grid);
  std::string request;
  if (!typed.grid.empty()) request = fmt::format("\n    \"grid\": {}", grid_text(typed));
  if (!typed.home.empty()) {
    const auto home = numbers("--home", typed.home, 2, "two numbers of mm, such as 115,105");
    request += fmt::format("{}\n    \"home\": {{\"at\": [{}, {}], \"frame\": \"nozzle\"}}",
                           request.empty() ? "" : ",", home[0], home[1]);
  }
  return fmt::format(R"({{
  "format": "leeway-setup-1",
  "name": "This setup",
  "machine": {{
    "bed": {},
    "travel": {}
  }},
  "probe": {{{}}}{}
}}
)",
                     shape("--bed", typed.bed), shape("--travel", typed.travel), probe_text(typed),
                     request.empty() ? "" : fmt::format(",\n  \"request\": {{{}\n  }}", request));
}

}  // namespace leeway
