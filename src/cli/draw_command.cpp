#include "cli/draw_command.h"

#include <fmt/format.h>

#include <algorithm>
#include <memory>

#include "cli/draw_place.h"
#include "cli/failure.h"
#include "cli/output_file.h"
#include "cli/setup_input.h"
#include "cli/terminal.h"
#include "leeway/draw.h"

namespace leeway {
namespace {

constexpr const char* kHelpBegins =
    R"(Usage: leeway draw SETUP [--at PLACE [--frame FRAME]] [--date TEXT]
                   [--format FORMAT] [--output FILE]

Draws the plan of a setup, true to scale, the back of the plate at the top: plate, travel,
obstacles, where the probe can go, the mesh, each point by its verdict, and the offset.

  SETUP            the setup, a JSON file; - reads standard input, and paths
                   in it then count from the current folder
  --at PLACE       draw the head there, with the leeway to the limits that bind:
                   5,1 is column 5, row 1 of the grid; x=210,y=20 is mm;
                   else home, or the name of a point
  --frame FRAME    probe (if left out) or nozzle: what a place in mm is for
  --date TEXT      write this beside the title
  --format FORMAT  svg; if left out, what FILE ends in, or svg
  --output FILE    write to FILE, whole or not at all, instead of standard output
  -h, --help       this text
)";

constexpr const char* kHelpEnds =
    R"(
Examples:
  leeway draw examples/heron-side-bracket.json --output plan.svg
  leeway draw examples/heron-side-bracket.json --at 5,1 --output corner.svg
  leeway draw examples/curlew-clips.json --at x=152,y=18 --output notch.svg

Exit status:
  0  it is drawn
  2  the setup or the options are of no use, or the output cannot be written
  3  a fault of the program itself

Before you try any of it at the machine: keep fingers out of its reach, mind the hot
nozzle, and let the machine's manual come first.
)";

using Writer = void (*)(const CheckResult&, const Setup&, const Limits&, const Regions&,
                        const DrawOptions&, const TextSink&);

// What can be drawn, by name and by the ending of the file.
struct Format {
  std::string_view name;
  std::string_view ending;
  Writer write;
};

constexpr Format kFormats[] = {{"svg", ".svg", write_plan_svg}};

struct Arguments : SetupArguments {
  std::string at;
  bool has_at = false;
  std::string frame;
  std::string date;
  bool has_date = false;
};

bool ends_with(std::string_view text, std::string_view ending) {
  if (text.size() < ending.size()) return false;
  return std::equal(ending.begin(), ending.end(), text.end() - static_cast<long>(ending.size()),
                    [](char a, char b) { return a == b || a == (b | 0x20); });
}

const Format& format_of(const Arguments& arguments) {
  std::vector<std::string_view> names;
  for (const Format& format : kFormats) names.push_back(format.name);
  if (!arguments.format.empty()) return kFormats[format_index(arguments.format, names)];
  for (const Format& format : kFormats) {
    if (ends_with(arguments.output, format.ending)) return format;
  }
  const std::size_t slash = arguments.output.find_last_of('/');
  const std::size_t name = slash == std::string::npos ? 0 : slash + 1;
  const std::size_t dot = arguments.output.find_last_of('.');
  if (dot != std::string::npos && dot > name) {
    throw OptionFault(
        fmt::format("\"{}\" does not end in a kind of picture that can be written ({}); "
                    "\"--format\" says which to write all the same",
                    arguments.output.substr(name), fmt::join(names, ", ")));
  }
  return kFormats[0];
}

CheckResult checked(const Setup& setup, const Limits& limits, const Regions& regions) {
  Progress progress("Drawing");
  CheckOptions options;
  options.regions = RegionsWanted::none;
  options.progress = [&](double fraction) {
    progress.show(fraction);
    return true;
  };
  return check(setup, limits, regions, options);
}

int run(const Arguments& arguments) {
  check_arguments(arguments, "draw");
  const Format& format = format_of(arguments);
  DiskFiles files;
  const std::optional<Setup> setup = load_setup(arguments, files);
  if (!setup) return kUnusable;
  DrawOptions options;
  options.at = draw_place(*setup, arguments.at, arguments.has_at, arguments.frame);
  if (arguments.has_date) options.date = arguments.date;

  refuse_own_input(files, arguments.output);
  const std::unique_ptr<Output> output = open_output(arguments.output);
  const Limits limits(*setup);
  const Regions regions(*setup);
  const CheckResult result = checked(*setup, limits, regions);
  try {
    format.write(result, *setup, limits, regions, options,
                 [&](std::string_view text) { output->write(text); });
    output->finish();
  } catch (const ReaderGone&) {
    // Whoever reads has seen enough.
  }
  return kAllWell;
}

}  // namespace

Command draw_command() {
  static const std::string help = std::string(kHelpBegins) + kSetupNumbersHelp + kHelpEnds;
  const auto arguments = std::make_shared<Arguments>();
  arguments->format.clear();  // by the ending of the file
  Command command;
  command.name = "draw";
  command.gist = "the plan as a picture, true to scale";
  command.help = help.c_str();
  command.add_options = [arguments](Options& options) {
    arguments->declare(options);
    options.value("--at", arguments->at, &arguments->has_at);
    options.value("--frame", arguments->frame);
    options.value("--date", arguments->date, &arguments->has_date);
  };
  command.run = [arguments] { return run(*arguments); };
  return command;
}

}  // namespace leeway
