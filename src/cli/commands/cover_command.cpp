#include "cli/commands/cover_command.h"

#include <fmt/format.h>

#include <memory>
#include <optional>

#include "cli/failure.h"
#include "cli/output_file.h"
#include "cli/program_input.h"
#include "cli/setup_input.h"
#include "cli/terminal.h"
#include "formats/text/names.h"
#include "formats/text/wkt.h"
#include "formats/typed/typed_values.h"
#include "leeway/fault.h"
#include "leeway/validate.h"
#include "leeway/write_cover.h"

namespace leeway {
namespace {

constexpr const char* kCoverHelpBegins =
    R"(Usage: leeway cover SETUP PROGRAM [--extrusion absolute|relative] [--width MM]
                    [--around MM] [--columns N] [--rows N] [--format FORMAT] [--output FILE]
       leeway cover SETUP --rectangle X0,Y0,X1,Y1 | --round X,Y,RADIUS | --wkt TEXT ...

Tells whether a print is inside the mesh bounds of the setup's grid: what of it goes past them,
how far and on which side. Tells also what cannot be printed, because the nozzle does not get
there, the bed ends, or a part of the head comes too near an obstacle at that height; and the
smallest grid for the print, as numbers that `leeway check` passes.

  SETUP            the setup, a JSON file
  PROGRAM          a program in the words of RS-274 (NISTIR 6556), where E is the length pushed;
                   a file, packed by gzip or not; - reads standard input
  --extrusion HOW  absolute (if left out): E is the length pushed so far; relative: by each move
  --width MM       of a printed line, half of it beside each move; 0.4 if left out
  --rectangle X0,Y0,X1,Y1  an area instead of a program; likewise --round X,Y,RADIUS, and
                   --wkt 'POLYGON ((10 10, 60 10, 10 40, 10 10))'. It is taken at the height of
                   the bed
  --around MM      what the smallest grid shall have around the print; 0 if left out
  --columns N      of the smallest grid; likewise --rows. If left out, those of the setup's
                   grid, or 5
  --format FORMAT  text (if left out), json or markdown
  --output FILE    write to FILE, whole or not at all
  -h, --help       this text

A move that pushes nothing prints nothing. Understood are G0 to G3, G17 to G21, G90 to G92 and what
moves nothing. After other words, such as G28, positions are unknown until they are given again.
Where it prints then cannot be known, and is told. Nothing is guessed.
)";

constexpr const char* kCoverHelpEnds =
    R"(
Examples:
  leeway cover examples/godwit-all-well.json --rectangle 40,40,120,100 --around 5
  leeway cover examples/godwit-all-well.json print.ngc --extrusion relative
  gzip -dc print.ngc.gz | leeway cover examples/curlew-clips.json - --format json

Exit status:
  0  all of it is inside the mesh bounds, and can be printed
  1  not all of it is, or it cannot be known
  2  the setup, the program or the options are of no use, or the output cannot be written
  3  a fault of the program itself

Before you try any of it at the machine: keep fingers out of its reach, mind the hot
nozzle, and let the machine's manual come first.
)";

using CoverWriter = void (*)(const CoverResult&, const Rig&, const WriteCoverOptions&,
                             const TextSink&);
const std::vector<std::string_view> kCoverFormats{"text", "json", "markdown"};
constexpr CoverWriter kCoverWriters[] = {write_cover_text, write_cover_json, write_cover_markdown};

struct CoverArguments : SetupArguments {
  std::string program, extrusion, width, around, columns, rows, rectangle, round, wkt;
  bool has_program = false;
  bool has_rectangle = false;
  bool has_round = false;
  bool has_wkt = false;
};

double cover_length(const char* option, const std::string& typed, double otherwise) {
  if (typed.empty()) return otherwise;
  const std::optional<double> value = typed_number(typed);
  if (!value || !(*value >= 0 && *value <= 100)) {
    refuse_typed("cover", option, "a number of mm from 0 to 100", typed);
  }
  return *value;
}

std::optional<int> cover_count(const char* option, const std::string& typed) {
  if (typed.empty()) return std::nullopt;
  const std::optional<double> value = typed_number(typed);
  if (!value || !(*value >= 2 && *value <= 1000) || *value != static_cast<int>(*value)) {
    refuse_typed("cover", option, "a whole number from 2 to 1000", typed);
  }
  return static_cast<int>(*value);
}

std::vector<double> cover_numbers(const char* option, const char* takes, const std::string& typed,
                                  std::size_t count) {
  std::optional<std::vector<double>> numbers = typed_numbers(typed);
  if (!numbers || numbers->size() != count) refuse_typed("cover", option, takes, typed);
  return *numbers;
}

Shape typed_area(const CoverArguments& arguments) {
  if (arguments.has_rectangle) {
    const auto n = cover_numbers("--rectangle", "X0,Y0,X1,Y1 in mm", arguments.rectangle, 4);
    return Box{n[0], n[2], n[1], n[3]};
  }
  if (arguments.has_round) {
    const auto n = cover_numbers("--round", "X,Y,RADIUS in mm", arguments.round, 3);
    return Disc{{n[0], n[1]}, n[2]};
  }
  MultiPolygon polygons;
  if (const std::optional<WktFault> fault = parse_wkt(arguments.wkt, polygons)) {
    throw OptionFault(fmt::format("the option \"--wkt\": character {}: found {}; allowed: {}",
                                  fault->character, fault->found, fault->allowed));
  }
  return polygons;
}

// What is no area is told as it is of a bed in a setup.
Shape cover_area(const CoverArguments& arguments) {
  const Shape area = typed_area(arguments);
  Setup of_area;
  of_area.machine.bed = area;
  of_area.machine.travel = area;
  for (const SetupFault& fault : validate(of_area)) {
    if (fault.place.field != SetupField::bed) continue;
    throw OptionFault("the area to print is none: " + message(fault));
  }
  return area;
}

// With --without-setup the one word is the program.
void settle_cover(CoverArguments& arguments) {
  if (arguments.numbers.without_setup && arguments.has_setup && !arguments.has_program) {
    std::swap(arguments.setup, arguments.program);
    std::swap(arguments.has_setup, arguments.has_program);
  }
  check_arguments(arguments, "cover");
  const int asked =
      arguments.has_program + arguments.has_rectangle + arguments.has_round + arguments.has_wkt;
  if (asked == 0) {
    throw OptionFault("`leeway cover` needs a program, or an area (see `leeway cover --help`)");
  }
  if (asked > 1) {
    throw OptionFault(
        "only one of a program, \"--rectangle\", \"--round\" and \"--wkt\" can be asked "
        "about");
  }
  if (!arguments.has_program && !arguments.extrusion.empty()) {
    throw OptionFault("\"--extrusion\" goes with a program");
  }
  if (!arguments.has_program && !arguments.width.empty()) {
    throw OptionFault("\"--width\" goes with a program: the edge of an area is that of the print");
  }
  if (arguments.program == "-" && arguments.setup == "-") {
    throw OptionFault("only one of setup and program can be standard input");
  }
  if (arguments.has_output && same_file(arguments.program, arguments.output)) {
    throw OptionFault(
        fmt::format("\"{}\" is read from; choose another file to write", arguments.output));
  }
}

bool relative_extrusion(const CoverArguments& arguments) {
  if (arguments.extrusion.empty() || arguments.extrusion == "absolute") return false;
  if (arguments.extrusion == "relative") return true;
  throw OptionFault(
      fmt::format("the option \"--extrusion\" takes absolute or relative, not \"{}\"{}",
                  arguments.extrusion, suggestion(arguments.extrusion, {"absolute", "relative"})));
}

CoverOptions cover_options(const CoverArguments& arguments) {
  CoverOptions options;
  options.width =
      arguments.has_program ? cover_length("--width", arguments.width, options.width) : 0;
  options.around = cover_length("--around", arguments.around, 0);
  options.columns = cover_count("--columns", arguments.columns);
  options.rows = cover_count("--rows", arguments.rows);
  return options;
}

MotionSummary read_program(const std::string& path, const MotionOptions& options,
                           PrintCover& cover) {
  ProgramInput input(path);
  ProgressLine progress("Reading the program");
  MotionReader reader(options, [&cover](const ProgramMove& move) {
    if (move.prints && move.placed) cover.add(move);
  });
  input.read([&reader](std::string_view piece) { reader.read(piece); },
             [&progress](double done) { progress.show(done); });
  return reader.finish();
}

// Whether the program is of use; what is wrong with it is told.
bool tell_program_faults(const std::string& path, const MotionSummary& summary) {
  const std::string name = path == "-" ? "standard input" : one_line(path);
  for (const MotionFault& fault : summary.faults) {
    write_error_line(fmt::format("{}: line {}: {}", name, fault.line, one_line(fault.what)));
  }
  if (summary.fault_count > summary.faults.size()) {
    complain(
        fmt::format("{} more lines cannot be read", summary.fault_count - summary.faults.size()));
  }
  if (summary.fault_count > 0) return false;
  if (summary.printing > 0) return true;
  complain(fmt::format("\"{}\" prints nothing: no move of it pushes anything", name));
  return false;
}

int run_cover(CoverArguments& arguments) {
  settle_cover(arguments);
  const std::size_t format = format_index(arguments.format, kCoverFormats);
  CoverOptions options = cover_options(arguments);
  const MotionOptions motion{relative_extrusion(arguments)};
  const std::optional<Shape> area =
      arguments.has_program ? std::nullopt : std::optional<Shape>(cover_area(arguments));
  DiskFiles files;
  Outputs outputs;
  const std::optional<Setup> setup = load_setup(arguments, files, outputs);
  if (!setup) return kUnusable;
  refuse_own_input(files, arguments.output);

  const Rig rig(*setup);
  ProgressLine fitting("Looking for a grid");
  options.progress = [&fitting](double done) {
    fitting.show(done);
    return true;
  };
  PrintCover cover(rig, options);
  std::optional<MotionSummary> summary;
  if (area) {
    cover.add(*area);
  } else {
    summary = read_program(arguments.program, motion, cover);
    if (!tell_program_faults(arguments.program, *summary)) return kUnusable;
  }
  const CoverResult result = cover.finish();
  const WriteCoverOptions writing{summary ? &*summary : nullptr, motion.relative_extrusion,
                                  arguments.numbers.without_setup ? "" : arguments.setup};
  Output& output = outputs.open(arguments.output);
  outputs.finish([&] {
    const auto sink = result_sink(output, kCoverFormats[format], arguments.has_output);
    kCoverWriters[format](result, rig, writing, sink);
  });
  return known_inside(result, writing.program) ? kAllWell : kNotSo;
}

}  // namespace

Command cover_command() {
  static const std::string help =
      std::string(kCoverHelpBegins) + kSetupNumbersHelp + kCoverHelpEnds;
  const auto arguments = std::make_shared<CoverArguments>();
  Command command;
  command.name = "cover";
  command.gist = "whether a print is inside the mesh bounds, and the smallest grid for it";
  command.help = help.c_str();
  command.add_options = [arguments](Options& options) {
    options.argument("setup", arguments->setup, arguments->has_setup);
    options.argument("program", arguments->program, arguments->has_program);
    arguments->declare_without_setup(options);
    options.value("--extrusion", arguments->extrusion);
    options.value("--width", arguments->width);
    options.value("--around", arguments->around);
    options.value("--columns", arguments->columns);
    options.value("--rows", arguments->rows);
    options.value("--rectangle", arguments->rectangle, &arguments->has_rectangle);
    options.value("--round", arguments->round, &arguments->has_round);
    options.value("--wkt", arguments->wkt, &arguments->has_wkt);
  };
  command.run = [arguments] { return run_cover(*arguments); };
  return command;
}

}  // namespace leeway
