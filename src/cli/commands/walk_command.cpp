#include "cli/commands/walk_command.h"

#include <fmt/format.h>

#include <algorithm>
#include <memory>
#include <optional>

#include "cli/failure.h"
#include "cli/output_file.h"
#include "cli/setup_input.h"
#include "cli/terminal.h"
#include "formats/text/numbers.h"
#include "formats/typed/typed_values.h"
#include "leeway/fill.h"
#include "leeway/write_walk.h"

namespace leeway {
namespace {

constexpr const char* kWalkHelpBegins =
    R"(Usage: leeway walk SETUP [--points WHICH] [--height MM] [--from X,Y] [--feed MM/S]
                   [--pause SECONDS|stop] [--words LIST] [--line-numbers] [--wrap FILE]
                   [--format FORMAT] [--output FILE]

Carries the probe over the points that it can reach, lifted, for you to watch before you trust
it. Writes a program that only moves, in the words of RS-274 (NISTIR 6556), and a page to tick
off beside the machine. Nothing is heated, probed or homed. The nozzle stays at one height.
Every straight move is checked; what no height clears is gone round.

  SETUP            the setup, a JSON file; - reads standard input
  --points WHICH   corners, tightest, all or home; if left out, the corners of the grid, then
                   the five tightest points, then all others
  --height MM      of the nozzle above the bed; if left out, the least safe height plus 5.
                   What is not safe is refused, with the least that is
  --from X,Y       where the nozzle stands before; if left out, you put it at the first stop
  --feed MM/S      how fast, at most 500; 20 if left out. The way up is no faster than 5
  --pause SECONDS  how long to wait at each stop; 3 if left out, 0 for not at all
  --pause stop     stop at each until you go on
  --words LIST     the words that your controller knows, such as G1,X,Y,Z,F,comments; the program
                   holds no others
  --line-numbers   number the lines
  --wrap FILE      a text of your own round the program: a template as for `leeway fill`, with
                   {{walk.program}} where the program goes; its other names are setup, machine
                   and caution. M2 is left out: your text ends it
  --format FORMAT  both (if left out), program or checklist. With both and --output the program
                   goes to FILE and the page to standard output
  --output FILE    write to FILE, whole or not at all
  -h, --help       this text
)";

constexpr const char* kWalkHelpEnds =
    R"(
Examples:
  leeway walk examples/godwit-side-bracket.json --output walk.ngc
  leeway walk examples/curlew-clips.json --points corners --pause stop --format program
  leeway walk examples/godwit-all-well.json --words G1,X,Y,Z,F --feed 10 --format program

Exit status:
  0  the walk is written
  1  there is no point to walk over: nothing is written but that
  2  the setup or the options are of no use, or the output cannot be written
  3  a fault of the program itself

Before you try any of it at the machine: let it cool, keep fingers out of its reach, and keep
within reach of the power switch. The machine's manual comes first; leave mains wiring to
qualified people.
)";

const std::vector<std::string_view> kWalkFormats{"both", "program", "checklist"};

struct WalkArguments : SetupArguments {
  std::string points, height, from, feed, pause, words, wrap;
  bool has_points = false;
  bool has_words = false;
  bool has_wrap = false;
  bool line_numbers = false;
};

double walk_number(const char* option, const char* takes, const std::string& typed, double least,
                   double most) {
  const std::optional<double> value = typed_number(typed);
  if (!value || *value < least || *value > most) refuse_typed("walk", option, takes, typed);
  return *value;
}

WalkPoints walk_points(const WalkArguments& arguments) {
  if (!arguments.has_points) return WalkPoints::in_turn;
  const std::vector<std::string_view> names{"corners", "tightest", "all", "home"};
  const auto found = std::find(names.begin(), names.end(), arguments.points);
  if (found == names.end()) {
    throw OptionFault(fmt::format("the option \"--points\" takes {}, not \"{}\"{}",
                                  fmt::join(names, ", "), arguments.points,
                                  suggestion(arguments.points, names)));
  }
  return static_cast<WalkPoints>(static_cast<int>(WalkPoints::corners) + (found - names.begin()));
}

WalkPause walk_pause(const std::string& typed) {
  if (typed.empty()) return {};
  if (typed == "stop") return {WalkPause::Kind::stop, 0};
  const double seconds = walk_number("--pause", "\"stop\" or seconds from 0 to 600", typed, 0, 600);
  return seconds > 0 ? WalkPause{WalkPause::Kind::dwell, seconds}
                     : WalkPause{WalkPause::Kind::none, 0};
}

std::string_view without_blanks(std::string_view word) {
  const std::size_t from = word.find_first_not_of(' ');
  if (from == std::string_view::npos) return {};
  return word.substr(from, word.find_last_not_of(' ') - from + 1);
}

std::set<std::string, std::less<>> allowed_words(const WalkArguments& arguments) {
  std::set<std::string, std::less<>> allowed;
  for (const std::string_view typed : split_typed(arguments.words, ',')) {
    const std::string_view word = without_blanks(typed);
    const std::vector<std::string_view>& known = walk_words();
    if (std::find(known.begin(), known.end(), word) == known.end()) {
      throw OptionFault(fmt::format("the option \"--words\" knows no word \"{}\"{} (it knows {})",
                                    word, suggestion(word, known), fmt::join(known, ", ")));
    }
    allowed.emplace(word);
  }
  for (const std::string_view needed : walk_words_needed()) {
    if (allowed.count(needed) > 0) continue;
    throw OptionFault(fmt::format("the option \"--words\" must hold {}: no walk is without them",
                                  fmt::join(walk_words_needed(), ", ")));
  }
  return allowed;
}

void refuse_pause_without_words(const WalkArguments& arguments, const WalkProgramOptions& options) {
  if (arguments.pause.empty() || options.pause.kind == WalkPause::Kind::none) return;
  if (pauses(options)) return;
  throw OptionFault(fmt::format("\"--pause {}\" needs {} among the words", arguments.pause,
                                options.pause.kind == WalkPause::Kind::stop ? "M0" : "G4 and P"));
}

WalkProgramOptions program_options(const WalkArguments& arguments) {
  WalkProgramOptions options;
  if (!arguments.feed.empty()) {
    options.feed = walk_number("--feed", "mm a second from 0.1 to 500", arguments.feed, 0.1, 500);
  }
  options.pause = walk_pause(arguments.pause);
  options.line_numbers = arguments.line_numbers;
  options.end = !arguments.has_wrap;
  if (arguments.has_words) options.words = allowed_words(arguments);
  refuse_pause_without_words(arguments, options);
  if (options.line_numbers && !may_hold(options, "N")) {
    throw OptionFault("\"--line-numbers\" needs N among the words");
  }
  return options;
}

WalkOptions walk_options(const WalkArguments& arguments) {
  WalkOptions options;
  options.points = walk_points(arguments);
  if (!arguments.height.empty()) {
    options.height =
        walk_number("--height", "a number of mm from 0 to 1000", arguments.height, 0, 1000);
  }
  if (!arguments.from.empty()) {
    const std::optional<std::vector<double>> from = typed_numbers(arguments.from);
    if (!from || from->size() != 2)
      refuse_typed("walk", "--from", "the nozzle's x,y in mm", arguments.from);
    options.from = Point{(*from)[0], (*from)[1]};
  }
  return options;
}

WalkResult walk_showing_progress(const Rig& rig, WalkOptions options) {
  ProgressLine progress("Finding the way");
  options.progress = [&](double done) {
    progress.show(done);
    return true;
  };
  try {
    return walk(rig, options);
  } catch (const WalkHeightTooLow& fault) {
    throw OptionFault(
        fmt::format("\"--height {}\" is too low: this walk needs at least {} (see `leeway check`)",
                    decimal(*options.height), decimal(fault.least())));
  }
}

std::string program_of(const WalkResult& result, const Rig& rig,
                       const WalkProgramOptions& options) {
  std::string text;
  write_walk_program(result, rig, options, [&](std::string_view piece) { text += piece; });
  return text;
}

// The user's own text round it; nothing where that has faults, which are then told.
std::optional<std::string> wrapped_program(const WalkArguments& arguments, DiskFiles& files,
                                           const Rig& rig, const WalkResult& result,
                                           std::string program) {
  if (!arguments.has_wrap) return program;
  const NumbersToEnter numbers =
      numbers_to_enter(rig, result.check, nullptr, FitOptions{}.decimals);
  const SourceFile source = files.setup(arguments.wrap);
  Filled filled = fill_template(source, {rig, result.check, numbers, nullptr, &program});
  if (filled.faults.empty() && source.text.find("walk.program") == std::string::npos) {
    throw OptionFault(fmt::format(
        "\"{}\" has no {{{{walk.program}}}}: the program would be nowhere", arguments.wrap));
  }
  for (const Fault& fault : filled.faults) write_error_line(message(fault));
  if (!filled.faults.empty()) return std::nullopt;
  return std::move(filled.text);
}

const char* why_none(const WalkResult& result) {
  if (result.left_out.empty()) return "none is asked for";
  const bool no_way =
      std::any_of(result.left_out.begin(), result.left_out.end(),
                  [](const WalkLeftOut& left) { return left.why == WalkLeftOut::Why::no_way; });
  return no_way ? "no clear way leads to any from where the nozzle stands"
                : "none is reachable (see `leeway check`)";
}

// What comments would have said.
std::string start_words(const WalkResult& result) {
  const Point start = result.from ? *result.from : result.stops.front().nozzle;
  return fmt::format(
      "before it runs, put the nozzle at x {}, y {}, no higher than {}; Z 0 is where it touches "
      "the bed",
      decimal(start.x), decimal(start.y), decimal(result.height));
}

void check_walk(const WalkArguments& arguments) {
  check_arguments(arguments, "walk");
  if (!arguments.has_wrap) return;
  if (arguments.wrap.empty()) throw OptionFault("the option \"--wrap\" needs the name of a file");
  if (arguments.wrap == "-" && arguments.setup == "-") {
    throw OptionFault("only one of setup and \"--wrap\" can be standard input");
  }
}

int run_walk(const WalkArguments& arguments) {
  check_walk(arguments);
  const std::size_t format = format_index(arguments.format, kWalkFormats);
  const bool page = format != 1;
  const bool program = format != 2;
  const WalkOptions options = walk_options(arguments);
  const WalkProgramOptions writing = program_options(arguments);
  DiskFiles files;
  Outputs outputs;
  const std::optional<Setup> setup = load_setup(arguments, files, outputs);
  if (!setup) return kUnusable;
  refuse_own_input(files, arguments.output);

  const Rig rig(*setup);
  const WalkResult result = walk_showing_progress(rig, options);
  const bool apart = page && program && arguments.has_output && arguments.output != "-";
  if (result.stops.empty()) {
    complain(fmt::format("there is no point to walk over: {}", why_none(result)));
    return kNotSo;
  }
  std::optional<std::string> text;
  if (program) {
    text = wrapped_program(arguments, files, rig, result, program_of(result, rig, writing));
    if (!text) return kUnusable;
    refuse_own_input(files, arguments.output);
    if (apart) outputs.keep(arguments.output, *text);
  }
  Output& output = outputs.open(apart ? "" : arguments.output);
  outputs.finish([&] {
    const auto sink = result_sink(output, "text", !apart && arguments.has_output);
    if (page) write_walk_checklist(result, rig, writing, sink);
    if (page && program && !apart) sink("\n");
    if (text && !apart) sink(*text);
  });
  if (!page && !may_hold(writing, "comments")) complain(start_words(result));
  return kAllWell;
}

}  // namespace

Command walk_command() {
  static const std::string help = std::string(kWalkHelpBegins) + kSetupNumbersHelp + kWalkHelpEnds;
  const auto arguments = std::make_shared<WalkArguments>();
  arguments->format = "both";
  Command command;
  command.name = "walk";
  command.gist = "a way over the points, lifted, to watch before you trust it";
  command.help = help.c_str();
  command.add_options = [arguments](Options& options) {
    arguments->declare(options);
    options.value("--points", arguments->points, &arguments->has_points);
    options.value("--height", arguments->height);
    options.value("--from", arguments->from);
    options.value("--feed", arguments->feed);
    options.value("--pause", arguments->pause);
    options.value("--words", arguments->words, &arguments->has_words);
    options.flag("--line-numbers", arguments->line_numbers);
    options.value("--wrap", arguments->wrap, &arguments->has_wrap);
  };
  command.run = [arguments] { return run_walk(*arguments); };
  return command;
}

}  // namespace leeway
