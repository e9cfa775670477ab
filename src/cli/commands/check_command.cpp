#include "cli/commands/check_command.h"

#include <fmt/format.h>

#include <algorithm>
#include <memory>

#include "cli/failure.h"
#include "cli/output_file.h"
#include "cli/setup_input.h"
#include "cli/terminal.h"
#include "formats/text/names.h"
#include "leeway/rig.h"
#include "leeway/write_check.h"

namespace leeway {
namespace {

constexpr const char* kCheckHelpBegins =
    R"(Usage: leeway check SETUP [--format FORMAT] [--long] [--output FILE]

Gives a verdict for every point that a setup asks for: can the probe get there, which
limit stops it, and by how many mm. Also what the grid covers, whether the homing point
is safe, and whether anything is in the way between the points.

  SETUP            the setup, a JSON file; - reads standard input, and paths
                   in it then count from the current folder
  --format FORMAT  text (the default), json, csv or markdown
  --long           text only: every failing point with its positions and the nearest point
                   that works, and the sentences in full
  --all-limits     every limit of each point, not only the one that decides
  --output FILE    write to FILE, whole or not at all, instead of standard output
  -h, --help       this text
)";

constexpr const char* kCheckHelpEnds =
    R"(
Examples:
  leeway check examples/godwit-side-bracket.json
  leeway check examples/curlew-clips.json --format markdown
  leeway check examples/plover-round.json --format csv --output points.csv
  cd examples && leeway check - --format json < godwit-all-well.json
  leeway check --without-setup --bed 233x207 --travel -5..239,-2..211 --offset -38.5,12 \
               --grid 5x5 --margins 20

Exit status:
  0  every point is reachable, and stays so within the stated uncertainty
  1  some point is not; or all were left out; or none was asked for and none would work
  2  the setup or the options are of no use, or the output cannot be written
  3  a fault of the program itself

Before you try any of it at the machine: keep fingers out of its reach, mind the hot
nozzle, and let the machine's manual come first.
)";

using CheckWriter = void (*)(const CheckResult&, const Rig&, const WriteOptions&, const TextSink&);

struct CheckFormat {
  std::string_view name;
  CheckWriter write;
};

constexpr CheckFormat kCheckFormats[] = {{"text", write_check_text},
                                         {"json", write_check_json},
                                         {"csv", write_check_csv},
                                         {"markdown", write_check_markdown}};

struct CheckArguments : SetupArguments {
  bool all_limits = false;
  bool in_full = false;
};

const CheckFormat& format_named(const std::string& name) {
  std::vector<std::string_view> names;
  for (const CheckFormat& format : kCheckFormats) names.push_back(format.name);
  return kCheckFormats[format_index(name, names)];
}

CheckResult checked_setup(const Rig& rig, const CheckFormat& format) {
  ProgressLine progress("Checking");
  CheckOptions options;
  options.regions = regions_told(format.name, rig.setup().request);
  options.progress = [&](double done) {
    progress.show(done);
    return true;
  };
  return check(rig, options);
}

int run_check(const CheckArguments& arguments) {
  check_arguments(arguments, "check");
  const CheckFormat& format = format_named(arguments.format);
  if (arguments.in_full && format.name != "text") {
    throw OptionFault("\"--long\" goes with \"--format text\"");
  }
  DiskFiles files;
  Outputs outputs;
  const std::optional<Setup> setup = load_setup(arguments, files, outputs);
  if (!setup) return kUnusable;

  refuse_own_input(files, arguments.output);
  Output& output = outputs.open(arguments.output);
  const Rig rig(*setup);
  const CheckResult result = checked_setup(rig, format);
  WriteOptions options;
  options.all_limits = arguments.all_limits;
  options.in_full = arguments.in_full;
  const std::string& file = arguments.numbers.has_save ? arguments.numbers.save : arguments.setup;
  if (!file.empty() && file != "-") options.setup = shell_word(file);
  options.color = !arguments.has_output && may_color_output();
  outputs.finish([&] {
    format.write(result, rig, options, result_sink(output, arguments.format, arguments.has_output));
  });
  return exit_status(result);
}

}  // namespace

int exit_status(const CheckResult& result) { return all_well(result) ? kAllWell : kNotSo; }

Command check_command() {
  static const std::string help =
      std::string(kCheckHelpBegins) + kSetupNumbersHelp + kCheckHelpEnds;
  const auto arguments = std::make_shared<CheckArguments>();
  Command command;
  command.name = "check";
  command.gist = "a verdict for every point that a setup asks for";
  command.help = help.c_str();
  command.add_options = [arguments](Options& options) {
    arguments->declare(options);
    options.flag("--all-limits", arguments->all_limits);
    options.flag("--long", arguments->in_full);
  };
  command.run = [arguments] { return run_check(*arguments); };
  return command;
}

}  // namespace leeway
