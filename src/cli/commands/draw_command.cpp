#include "cli/commands/draw_command.h"

#include <fmt/format.h>

#include <algorithm>
#include <memory>

#include "cli/command_line.h"
#include "cli/commands/draw_place.h"
#include "cli/failure.h"
#include "cli/output_file.h"
#include "cli/setup_input.h"
#include "cli/terminal.h"
#include "leeway/compare_grids.h"
#include "leeway/draw.h"
#include "leeway/write_report.h"
#include "leeway/write_true_size.h"

namespace leeway {
namespace {

constexpr const char* kDrawHelpBegins =
    R"(Usage: leeway draw SETUP [--at PLACE [--frame FRAME]] [--date TEXT]
                   [--true-size [--paper PAPER]] [--format FORMAT] [--output FILE]

Draws the plan of a setup, true to scale, the back of the bed at the top: bed, travel,
obstacles, where the probe can go, the grid, each point by its verdict, and the offset.
As html it is a report: the plan, a table of the points, why some fail, what would remedy it,
the numbers to enter, and where the probe may sit if the setup states a mount, in one file
that asks for nothing else.

  SETUP            the setup, a JSON file; - reads standard input, and paths
                   in it then count from the current folder
  --at PLACE       draw the head there, with the leeway to the limits that bind:
                   5,1 is column 5, row 1 of the grid; x=210,y=20 is mm;
                   else home, or the name of a point
  --frame FRAME    probe (if left out) or nozzle: what a place in mm is for
  --date TEXT      write this beside the title
  --true-size      a millimetre of the bed is one of paper: sheets to print (html),
                   with crosses where they meet and lines of 100 mm to measure, or
                   one sheet as large as the bed needs (svg)
  --paper PAPER    what the sheets are: A4 (if left out), A3, letter or bed, a
                   single one as large as the bed needs
  --format FORMAT  svg or html; if left out, what FILE ends in, or svg
  --output FILE    write to FILE, whole or not at all, instead of standard output
  -h, --help       this text
)";

constexpr const char* kDrawHelpEnds =
    R"(
Examples:
  leeway draw examples/godwit-side-bracket.json --output plan.svg
  leeway draw examples/godwit-side-bracket.json --at 5,1 --output corner.svg
  leeway draw examples/godwit-side-bracket.json --output report.html
  leeway draw examples/curlew-clips.json --true-size --paper A3 --output sheets.html
  leeway draw examples/curlew-clips.json --at x=151,y=18 --output notch.svg

Exit status:
  0  it is drawn
  2  the setup or the options are of no use, or the output cannot be written
  3  a fault of the program itself

Before you try any of it at the machine: keep fingers out of its reach, mind the hot
nozzle, and let the machine's manual come first.
)";

// What a product is made of.
struct Drawing {
  const Rig& rig;
  const DrawOptions& options;
  Paper paper;
};

CheckResult checked_drawing(const Drawing& drawing) {
  ProgressLine progress("Drawing");
  CheckOptions options;
  options.regions = RegionsWanted::none;
  options.progress = [&](double done) {
    progress.show(done);
    return true;
  };
  return check(drawing.rig, options);
}

void draw_plan(const Drawing& drawing, const TextSink& sink) {
  write_plan_svg(checked_drawing(drawing), drawing.rig, drawing.options, sink);
}

void draw_report(const Drawing& drawing, const TextSink& sink) {
  const ExplainResult explained = explain(drawing.rig);
  ProgressLine progress("Fitting");
  FitOptions options;
  options.progress = [&](double done) {
    progress.show(done);
    return true;
  };
  // A report is worth having without a fit: why there is none stands in its place.
  FitOrWhyNot fitted;
  try {
    FitResult found = fit(drawing.rig, options);
    found.neighbour = better_neighbour(drawing.rig, found, options);
    fitted = std::move(found);
  } catch (const FitRefused& refused) {
    fitted = refused.what();
  }
  const NumbersToEnter own =
      numbers_to_enter(drawing.rig, explained.check, nullptr, FitOptions{}.decimals);
  const Setup& setup = drawing.rig.setup();
  ProgressLine looking("Looking for offsets");
  MountPlaces places = places_on_mount(setup, [&](double done) {
    looking.show(done);
    return true;
  });
  const BracketReport mount{{&setup, 1}, std::move(places.window), std::move(places.map), {}};
  write_report_html(explained, fitted, own, mount, drawing.rig, drawing.options, sink);
}

template <auto write>
void draw_true_size(const Drawing& drawing, const TextSink& sink) {
  write(checked_drawing(drawing), drawing.rig, TrueSizeOptions{drawing.paper, drawing.options.date},
        sink);
}

// What can be drawn, by name and by the ending of the file.
struct DrawFormat {
  using Write = void (*)(const Drawing&, const TextSink&);

  std::string_view name;
  std::string_view ending;
  Write write;
  Write at_true_size;
};

constexpr DrawFormat kDrawFormats[] = {
    {"svg", ".svg", draw_plan, draw_true_size<write_true_size_svg>},
    {"html", ".html", draw_report, draw_true_size<write_true_size_html>}};

struct DrawArguments : SetupArguments {
  std::string at;
  bool has_at = false;
  std::string frame;
  std::string date;
  bool has_date = false;
  bool true_size = false;
  std::string paper;
  bool has_paper = false;
};

// PLAN.SVG is one too.
bool ends_with(std::string_view text, std::string_view ending) {
  if (text.size() < ending.size()) return false;
  return std::equal(ending.begin(), ending.end(), text.end() - static_cast<long>(ending.size()),
                    [](char a, char b) { return a == b || a == (b | 0x20); });
}

const DrawFormat& format_of(const DrawArguments& arguments) {
  std::vector<std::string_view> names;
  for (const DrawFormat& format : kDrawFormats) names.push_back(format.name);
  if (!arguments.format.empty()) return kDrawFormats[format_index(arguments.format, names)];
  for (const DrawFormat& format : kDrawFormats) {
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
  return kDrawFormats[0];
}

char small_letter(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c | 0x20) : c; }

bool same_word(std::string_view a, std::string_view b) {
  return std::equal(a.begin(), a.end(), b.begin(), b.end(),
                    [](char x, char y) { return small_letter(x) == small_letter(y); });
}

Paper paper_of(const DrawArguments& arguments, const DrawFormat& format) {
  if (!arguments.true_size) {
    if (arguments.has_paper) throw OptionFault("\"--paper\" goes with \"--true-size\"");
    return Paper::a4;
  }
  if (arguments.has_at) {
    throw OptionFault(
        "\"--at\" and \"--true-size\" do not go together: paper shows the bed, not the head");
  }
  if (!arguments.has_paper) return Paper::a4;
  std::vector<std::string_view> names;
  for (const Paper paper : {Paper::a4, Paper::a3, Paper::letter, Paper::bed}) {
    names.emplace_back(word(paper));
    if (!same_word(arguments.paper, word(paper))) continue;
    if (format.name == "svg" && paper != Paper::bed) {
      throw OptionFault(
          fmt::format("\"--paper {}\" takes html: an SVG is one sheet, as large as "
                      "the bed needs (see `leeway draw --help`)",
                      word(paper)));
    }
    return paper;
  }
  throw OptionFault(fmt::format("there is no paper \"{}\"{} (the papers are {})", arguments.paper,
                                suggestion(arguments.paper, names), fmt::join(names, ", ")));
}

int run_draw(const DrawArguments& arguments) {
  check_arguments(arguments, "draw");
  const DrawFormat& format = format_of(arguments);
  const Paper paper = paper_of(arguments, format);
  DiskFiles files;
  Outputs outputs;
  const std::optional<Setup> setup = load_setup(arguments, files, outputs);
  if (!setup) return kUnusable;
  DrawOptions options;
  const auto at = draw_place(*setup, arguments.at, arguments.has_at, arguments.frame);
  if (arguments.has_date) options.date = arguments.date;

  refuse_own_input(files, arguments.output);
  Output& output = outputs.open(arguments.output);
  const Rig rig(*setup);
  if (at) options.head = place_head(rig, *at);
  const auto write = arguments.true_size ? format.at_true_size : format.write;
  outputs.finish([&] {
    write({rig, options, paper}, [&](std::string_view text) { output.write(text); });
  });
  return kAllWell;
}

}  // namespace

Command draw_command() {
  static const std::string help = std::string(kDrawHelpBegins) + kSetupNumbersHelp + kDrawHelpEnds;
  const auto arguments = std::make_shared<DrawArguments>();
  arguments->format.clear();  // by the ending of the file
  Command command;
  command.name = "draw";
  command.gist = "the plan as a picture, a report, or sheets to print at true size (1:1)";
  command.help = help.c_str();
  command.add_options = [arguments](Options& options) {
    arguments->declare(options);
    options.value("--at", arguments->at, &arguments->has_at);
    options.value("--frame", arguments->frame);
    options.value("--date", arguments->date, &arguments->has_date);
    options.flag("--true-size", arguments->true_size);
    options.value("--paper", arguments->paper, &arguments->has_paper);
  };
  command.run = [arguments] { return run_draw(*arguments); };
  return command;
}

}  // namespace leeway
