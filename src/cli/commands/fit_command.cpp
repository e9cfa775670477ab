#include "cli/commands/fit_command.h"

#include <fmt/format.h>

#include <filesystem>
#include <memory>

#include "cli/commands/fit_comparison.h"
#include "cli/commands/fit_options.h"
#include "cli/failure.h"
#include "cli/output_file.h"
#include "cli/setup_input.h"
#include "cli/terminal.h"
#include "formats/typed/typed_grids.h"
#include "leeway/rewrite_setup.h"
#include "leeway/rig.h"
#include "leeway/write_fit.h"

namespace leeway {
namespace {

namespace fs = std::filesystem;

constexpr const char* kFitHelpBegins =
    R"(Usage: leeway fit SETUP [--columns N] [--rows N] [--spacing MM] [--step MM]
                  [--uniform] [--inside] [--within ...] [--sides ...] [--keep MM]
                  [--home-leeway MM] [--write FILE [--force]]
                  [--format FORMAT] [--output FILE]

Finds the numbers to enter: the grid with the largest covered area whose points are all
reachable, as bounds and margins, for probe and nozzle, and a homing point. Of grids that
cover the same it takes the one with the largest least leeway, then the more centred.

  SETUP            the setup, a JSON file; - reads standard input, and paths
                   in it then count from the current folder
)";

constexpr const char* kFitHelpMiddle =
    R"(  --columns 3..9 --rows 3..9, or --spacing 20..50 (or 20..50/5)
                   compare: a table of grids, best first, with what each covers, its
                   spacing, tightest leeway and least safe height for moves
  --write FILE     write the setup with this grid, all else as it stands
  --force          replace FILE if it exists
  --format FORMAT  text (the default), json or markdown
  --output FILE    write to FILE, whole or not at all, instead of standard output
  -h, --help       this text
)";

constexpr const char* kFitHelpEnds =
    R"(
It may overlook a slanted or curved passage narrower than 0.01 mm.

Examples:
  leeway fit examples/godwit-side-bracket.json
  leeway fit examples/curlew-clips.json --columns 9 --rows 9 --step 0.1
  leeway fit examples/godwit-side-bracket.json --sides left=20 \
             --within left=10,right=190,front=10,back=190
  leeway fit examples/godwit-side-bracket.json --write right.json
  leeway fit examples/curlew-clips.json --columns 3..9 --rows 3..9

Exit status:
  0  a grid fits, and the request's other points are reachable too
  1  nothing fits, or a named point or the homing point is not reachable
  2  the setup or the options are of no use, or the output cannot be written
  3  a fault of the program itself

Before you try any of it at the machine: keep fingers out of its reach, mind the hot
nozzle, and let the machine's manual come first.
)";

using FitWriter = void (*)(const FitResult&, const Rig&, const TextSink&);

const std::vector<std::string_view> kFitFormats{"text", "json", "markdown"};
constexpr FitWriter kFitWriters[] = {write_fit_text, write_fit_json, write_fit_markdown};

struct FitCommandArguments {
  SetupArguments setup;
  FitArguments fit;
  std::string write;
  bool has_write = false;
};

void check_write(const FitCommandArguments& arguments) {
  if (!arguments.has_write) {
    if (arguments.setup.force && !arguments.setup.numbers.has_save) {
      throw OptionFault("\"--force\" goes with \"--write\" or \"--save\"");
    }
    return;
  }
  if (arguments.write.empty() || arguments.write == "-") {
    throw OptionFault("the option \"--write\" needs the name of a file");
  }
  if (same_file(arguments.setup.numbers.save, arguments.write)) {
    throw OptionFault("\"--write\" and \"--save\" name the same file");
  }
  refuse_existing(arguments.write, arguments.setup.force);
  if (same_file(arguments.write, arguments.setup.output)) {
    throw OptionFault("\"--write\" and \"--output\" name the same file");
  }
}

fs::path folder_of(const std::string& file) {
  return file.empty() || file == "-" ? fs::current_path() : fs::absolute(file).parent_path();
}

// A path in a setup, as it must read in the setup's new place.
std::string moved_path(const std::string& path, const fs::path& from, const fs::path& to) {
  if (fs::path(path).is_absolute()) return path;
  std::error_code error;
  const fs::path here = fs::weakly_canonical(from, error);
  const fs::path there = fs::weakly_canonical(to, error);
  if (here == there) return path;
  return (here / path).lexically_relative(there).lexically_normal().generic_string();
}

Rewritten setup_with(const FitMesh& mesh, const FitCommandArguments& arguments,
                     const std::string& text) {
  const fs::path from = folder_of(arguments.setup.setup);
  // Of a link it is the file behind it that is written.
  std::error_code error;
  const fs::path to = folder_of(fs::weakly_canonical(arguments.write, error).string());
  return rewrite_grid(text, mesh,
                      [&](const std::string& path) { return moved_path(path, from, to); });
}

// What is to be known besides the result.
std::string remark(const FitCommandArguments& arguments, const std::optional<Rewritten>& written) {
  if (!arguments.has_write) return {};
  if (!written) return fmt::format("\"{}\" was not written: nothing fits", arguments.write);
  if (!written->comments_lost) return {};
  return fmt::format("the comments inside the old grid are not in \"{}\"", arguments.write);
}

int run_fit(const FitCommandArguments& arguments) {
  check_arguments(arguments.setup, "fit");
  if (asks_for_several(arguments.fit)) {
    if (arguments.has_write) {
      throw OptionFault(
          "\"--write\" takes one grid: say which, with single \"--columns\" and "
          "\"--rows\"");
    }
    check_write(arguments);
    return run_comparison(arguments.setup, arguments.fit);
  }
  const FitWriter write = kFitWriters[format_index(arguments.setup.format, kFitFormats)];
  const FitOptions options = fit_options(arguments.fit);
  check_write(arguments);
  DiskFiles files;
  Outputs outputs;
  std::string text;
  const std::optional<Setup> setup = load_setup(arguments.setup, files, outputs, &text);
  if (!setup) return kUnusable;
  refuse_own_input(files, arguments.setup.output);
  std::error_code error;
  if (arguments.has_write && !fs::equivalent(arguments.write, arguments.setup.setup, error)) {
    refuse_own_input(files, arguments.write);
  }

  Output& output = outputs.open(arguments.setup.output);
  const Rig rig(*setup);
  FitResult result = fit_showing_progress(rig, options);
  result.neighbour = better_neighbour(rig, result, options);
  std::optional<Rewritten> written;
  if (arguments.has_write && result.mesh) {
    written = setup_with(*result.mesh, arguments, text);
    outputs.keep(arguments.write, written->text);
  }
  outputs.finish([&] {
    write(result, rig, result_sink(output, arguments.setup.format, arguments.setup.has_output));
  });
  const std::string left_out = remark(arguments, written);
  if (!left_out.empty()) complain(left_out);
  return all_well(result) ? kAllWell : kNotSo;
}

}  // namespace

Command fit_command() {
  static const std::string help = std::string(kFitHelpBegins) + kFitOptionsHelp + kFitHelpMiddle +
                                  kSetupNumbersHelp + kFitHelpEnds;
  const auto arguments = std::make_shared<FitCommandArguments>();
  Command command;
  command.name = "fit";
  command.gist = "margins, mesh bounds and a homing point that are right";
  command.help = help.c_str();
  command.add_options = [arguments](Options& options) {
    arguments->setup.declare(options);
    arguments->fit.declare(options);
    options.value("--write", arguments->write, &arguments->has_write);
  };
  command.run = [arguments] { return run_fit(*arguments); };
  return command;
}

}  // namespace leeway
