#include "cli/commands/fill_command.h"

#include <fmt/format.h>

#include <memory>

#include "cli/commands/fit_options.h"
#include "cli/failure.h"
#include "cli/output_file.h"
#include "cli/setup_input.h"
#include "cli/terminal.h"
#include "formats/text/numbers.h"
#include "leeway/fill.h"

namespace leeway {
namespace {

constexpr const char* kFillHelpBegins =
    R"(Usage: leeway fill SETUP TEMPLATE [--decimals N] [the options of fit] [--output FILE]

Fills the results of `check` and `fit` into a text of your own: whatever your controller,
your notes or a label want. The text is a Mustache template: {{fit.grid.x0}} is replaced by
a number, {{#check.points}} ... {{/check.points}} is repeated for each point. All names are
in profiles/README.md.

  SETUP            the setup, a JSON file; - reads standard input
  TEMPLATE         the text with names in double braces
  --decimals N     0 to 3; 2 if left out. Bounds and margins are rounded inward and checked
                   again; where rounding would make them unsafe you are told
)";

constexpr const char* kFillHelpEnds =
    R"(  --output FILE    write to FILE, whole or not at all, instead of standard output
  -h, --help       this text

Examples:
  leeway fill examples/godwit-side-bracket.json examples/templates/cover-sheet.txt
  leeway fill examples/curlew-clips.json examples/templates/points.csv --output points.csv
  leeway fill examples/plover-round.json examples/templates/conversions.txt --decimals 3

Exit status:
  0  the text is filled
  2  the setup, the template or the options are of no use, or the output cannot be written
  3  a fault of the program itself

Before you try any of it at the machine: keep fingers out of its reach, mind the hot
nozzle, and let the machine's manual come first.
)";

struct FillArguments {
  std::string setup;
  std::string source;
  bool has_setup = false;
  bool has_source = false;
  std::string decimals;
  std::string output;
  bool has_output = false;
  FitArguments fit;
};

int decimals(const std::string& typed) {
  if (typed.empty()) return 2;
  const std::optional<double> value = number_in(typed);
  for (int n = 0; n <= kMostDecimals; ++n) {
    if (value == n) return n;
  }
  throw OptionFault(
      fmt::format("the option \"--decimals\" takes a whole number from 0 to {}, not "
                  "\"{}\" (see `leeway fill --help`)",
                  kMostDecimals, typed));
}

int run_fill(const FillArguments& arguments) {
  if (!arguments.has_setup || !arguments.has_source) {
    throw OptionFault("`leeway fill` needs a setup and a template (see `leeway fill --help`)");
  }
  if (arguments.setup == "-" && arguments.source == "-") {
    throw OptionFault("only one of setup and template can be standard input");
  }
  if (arguments.has_output && arguments.output.empty()) {
    throw OptionFault("the option \"--output\" needs the name of a file");
  }
  FitOptions options = fit_options(arguments.fit);
  options.decimals = decimals(arguments.decimals);
  options.remedies = false;
  SetupArguments given;
  given.setup = arguments.setup;
  DiskFiles files;
  Outputs outputs;
  const std::optional<Setup> setup = load_setup(given, files, outputs);
  if (!setup) return kUnusable;
  const SourceFile source = files.setup(arguments.source);
  refuse_own_input(files, arguments.output);

  ProgressLine progress("Filling");
  options.progress = [&](double done) {
    progress.show(done);
    return true;
  };
  const Rig rig(*setup);
  CheckOptions checking;
  checking.regions = RegionsWanted::none;
  const CheckResult checked = check(rig, checking);
  const FitResult fitted = fit(rig, options);
  const Filled filled = fill_template(source, rig, checked, fitted, options.decimals);
  for (const Fault& fault : filled.faults) write_error_line(message(fault));
  if (!filled.faults.empty()) return kUnusable;

  Output& output = outputs.open(arguments.output);
  outputs.finish([&] { output.write(filled.text); });
  return kAllWell;
}

}  // namespace

Command fill_command() {
  static const std::string help = std::string(kFillHelpBegins) + kFitOptionsHelp + kFillHelpEnds;
  const auto arguments = std::make_shared<FillArguments>();
  Command command;
  command.name = "fill";
  command.gist = "your own text with the results filled in";
  command.help = help.c_str();
  command.add_options = [arguments](Options& options) {
    options.argument("setup", arguments->setup, arguments->has_setup);
    options.argument("template", arguments->source, arguments->has_source);
    options.value("--decimals", arguments->decimals);
    options.value("--output", arguments->output, &arguments->has_output);
    arguments->fit.declare(options);
  };
  command.run = [arguments] { return run_fill(*arguments); };
  return command;
}

}  // namespace leeway
