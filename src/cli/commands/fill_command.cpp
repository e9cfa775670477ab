#include "cli/commands/fill_command.h"

#include <fmt/format.h>

#include <memory>
#include <optional>
#include <utility>

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
    R"(Usage: leeway fill SETUP TEMPLATE [--fit [the options of fit]] [--anyway]
                   [--decimals N] [--output FILE]
       leeway fill --without-setup ... TEMPLATE ...

Fills the numbers of a setup into a text of your own: whatever your controller, your notes
or a label want. The text is a Mustache template: {{mesh.probe.x0}} is replaced by a number,
{{#mesh.points}} ... {{/mesh.points}} is repeated for each point. All names are in
profiles/README.md.

The names that begin so are of the setup's own grid. Where `leeway check` would not pass it,
nothing is written.

  SETUP            the setup, a JSON file; - reads standard input
  TEMPLATE         the text with names in double braces
  --fit            fit a grid first, and fill that in
  --anyway         write it all the same where points are out of reach or moves run into
                   something
  --decimals N     0 to 4; 2 if left out. Numbers are rounded inward and checked again as
                   printed; where rounding would make them unsafe you are told
  --output FILE    write to FILE, whole or not at all, instead of standard output
  -h, --help       this text

With --fit:
)";

constexpr const char* kFillHelpEnds =
    R"(
Examples:
  leeway fill examples/godwit-all-well.json examples/templates/cover-sheet.txt
  leeway fill examples/curlew-clips.json examples/templates/points.csv --fit --output points.csv
  leeway fill examples/plover-round.json examples/templates/conversions.txt --fit --decimals 3
  leeway fill --without-setup --bed 230x210 --travel 240x215 --offset -38,12 --grid 5x5 \
              --margins 40 examples/templates/points.csv

Exit status:
  0  the text is filled
  1  `leeway check` would not pass the numbers: nothing is written, unless --anyway
  2  the setup, the template or the options are of no use, or the output cannot be written
  3  a fault of the program itself

Before you try any of it at the machine: keep fingers out of its reach, mind the hot
nozzle, and let the machine's manual come first.
)";

struct FillArguments {
  SetupArguments setup;
  std::string source;
  bool has_source = false;
  std::string decimals;
  bool fit_first = false;
  bool anyway = false;
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

std::string what_next(const FillFacts& facts) {
  return facts.fitted != nullptr
             ? "`leeway fit` says why; --anyway writes it all the same"
             : "`leeway check` says why; --fit fits a grid first; --anyway writes it all the same";
}

// Where options stand for the setup, the first file is the template.
void take_template(FillArguments& arguments) {
  SetupArguments& setup = arguments.setup;
  if (!setup.numbers.without_setup || arguments.has_source || !setup.has_setup) return;
  arguments.source = std::move(setup.setup);
  setup.setup.clear();
  arguments.has_source = std::exchange(setup.has_setup, false);
}

void check_fill(const FillArguments& arguments) {
  const SetupArguments& setup = arguments.setup;
  if (!arguments.has_source || (!setup.numbers.without_setup && !setup.has_setup)) {
    throw OptionFault("`leeway fill` needs a setup and a template (see `leeway fill --help`)");
  }
  check_arguments(setup, "fill");
  if (setup.setup == "-" && arguments.source == "-") {
    throw OptionFault("only one of setup and template can be standard input");
  }
  if (setup.force && !setup.numbers.has_save) {
    throw OptionFault("\"--force\" goes with \"--save\"");
  }
  if (!arguments.fit_first && arguments.fit.any()) {
    throw OptionFault("options of `leeway fit` go with \"--fit\" (see `leeway fill --help`)");
  }
}

int run_fill(FillArguments& arguments) {
  take_template(arguments);
  check_fill(arguments);
  FitOptions options = fit_options(arguments.fit);
  options.decimals = decimals(arguments.decimals);
  options.remedies = false;
  DiskFiles files;
  Outputs outputs;
  const std::optional<Setup> setup = load_setup(arguments.setup, files, outputs);
  if (!setup) return kUnusable;
  const SourceFile source = files.setup(arguments.source);
  refuse_own_input(files, arguments.setup.output);

  const Rig rig(*setup);
  CheckOptions checking;
  checking.regions = RegionsWanted::none;
  const CheckResult checked = check(rig, checking);
  std::optional<FitResult> fit_first;
  if (arguments.fit_first) fit_first = fit_showing_progress(rig, options);
  const FitResult* const fit_made = fit_first ? &*fit_first : nullptr;
  const NumbersToEnter numbers = numbers_to_enter(rig, checked, fit_made, options.decimals);
  const FillFacts facts{rig, checked, numbers, fit_made};
  const Filled filled = fill_template(source, facts);
  for (const Fault& fault : filled.faults) write_error_line(message(fault));
  if (!filled.faults.empty()) return kUnusable;
  if (!numbers.safe && !arguments.anyway) {
    complain(fmt::format("nothing was written: {}. {}", why_not_filled(facts), what_next(facts)));
    return kNotSo;
  }

  Output& output = outputs.open(arguments.setup.output);
  outputs.finish([&] { output.write(filled.text); });
  if (numbers.safe) return kAllWell;
  complain("WATCH OUT, do not probe with what was written: " + why_not_filled(facts));
  return kNotSo;
}

}  // namespace

Command fill_command() {
  static const std::string help =
      std::string(kFillHelpBegins) + kFitOptionsHelp + kSetupNumbersHelp + kFillHelpEnds;
  const auto arguments = std::make_shared<FillArguments>();
  Command command;
  command.name = "fill";
  command.gist = "your own text with the results filled in";
  command.help = help.c_str();
  command.add_options = [arguments](Options& options) {
    options.argument("setup", arguments->setup.setup, arguments->setup.has_setup);
    options.argument("template", arguments->source, arguments->has_source);
    options.value("--decimals", arguments->decimals);
    options.value("--output", arguments->setup.output, &arguments->setup.has_output);
    arguments->setup.numbers.declare(options);
    options.flag("--force", arguments->setup.force);
    options.flag("--fit", arguments->fit_first);
    options.flag("--anyway", arguments->anyway);
    arguments->fit.declare(options);
  };
  command.run = [arguments] { return run_fill(*arguments); };
  return command;
}

}  // namespace leeway
