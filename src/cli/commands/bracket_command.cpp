#include "cli/commands/bracket_command.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <memory>

#include "cli/failure.h"
#include "cli/output_file.h"
#include "cli/setup_input.h"
#include "cli/terminal.h"
#include "formats/text/numbers.h"
#include "formats/typed/typed_values.h"
#include "leeway/read_candidates.h"
#include "leeway/read_probe.h"
#include "leeway/write_bracket.h"

namespace leeway {
namespace {

constexpr const char* kBracketHelpBegins =
    R"(Usage: leeway bracket SETUP... [--map X0..X1/N,Y0..Y1/N] [--candidates FILE]
                      [--probe FILE]... [--leeway MM] [--tolerance MM]
                      [--format FORMAT] [--output FILE]

Where may the probe sit? Finds every offset from nozzle to probe with which all requested
points are reachable (the window), the nearest of them to the present one, and those to choose from:
the best by coverage for every leeway, of which the one of most coverage, the one of most leeway
and the one between them are named. The points are held where the probe shall be; those asked for
the nozzle are converted with the setup's present offset first.

  SETUP...         one setup, or several for one bracket that suits them all; - reads
                   standard input
  --map X0..X1/N,Y0..Y1/N
                   the share of the printable area that the probe can reach, at N offsets
                   in x by N in y; of several setups the least. Left out are offsets outside
                   the window (without one, those that the mount and the head do not allow)
  --map points     the same of how many of the points each offset reaches, around the head;
                   points,X0..X1/N,Y0..Y1/N elsewhere
  --tolerance MM   what printing and fitting the bracket may be off, in any direction, or X,Y
                   along each: taken off the window, and so off every answer
  --leeway MM      name the offset too that covers most with at least so much leeway
  --candidates FILE
                   compare brackets: a table with the header name,x,y, an offset a line;
                   a column probe may name the file of another kind of probe
  --probe FILE     another kind of probe, from a file such as those of profiles/probes; may
                   be repeated. Each candidate is tried with each of them; without
                   candidates they are compared where each has most leeway
)";

constexpr const char* kBracketHelpEnds =
    R"(  --format FORMAT  text (the default), json, markdown, csv (of the map, else of the
                   candidates), or svg (a map; without --map around what is on it)
  --output FILE    write to FILE, whole or not at all, instead of standard output
  -h, --help       this text

Examples:
  leeway bracket examples/godwit-front-probe.json
  leeway bracket examples/curlew-clips.json examples/godwit-all-well.json
  leeway bracket examples/curlew-clips.json --format svg --output map.svg
  leeway bracket examples/curlew-clips.json --map -60..60/121,-50..50/101
  leeway bracket examples/godwit-side-bracket.json --candidates examples/brackets.csv
  leeway bracket examples/godwit-new-bracket.json --probe profiles/probes/inductive-m18.json

Exit status:
  0  some offset reaches every point (of all setups), with the leeway asked for
  1  no offset does
  2  a setup, the candidates or the options are of no use, or the output cannot be written
  3  a fault of the program itself

Before a bracket goes onto a machine: power off, nozzle cold, and let the machine's manual
come first. Check by hand, slowly, that nothing of it meets the bed, the clips or the frame.
)";

const std::vector<std::string_view> kBracketFormats{"text", "json", "markdown", "csv", "svg"};
using BracketWriter = void (*)(const BracketReport&, const TextSink&);
constexpr BracketWriter kBracketWriters[] = {write_bracket_text, write_bracket_json,
                                             write_bracket_markdown, write_bracket_csv,
                                             write_bracket_svg};

constexpr double kFarthestOffset = 1e5;  // mm

struct BracketArguments {
  std::vector<std::string> setups;
  SetupArguments shared;  // format, output, numbers
  std::string map;
  bool has_map = false;
  std::string candidates;
  bool has_candidates = false;
  std::string leeway;
  bool has_leeway = false;
  std::string tolerance;
  bool has_tolerance = false;
  std::vector<std::string> probes;

  bool compares() const { return has_candidates || !probes.empty(); }
};

// What of a map is asked for.
struct MapAsked {
  bool points = false;
  std::optional<MapSteps> steps;  // nothing: around what there is
};

[[noreturn]] void refuse_map(const std::string& typed, const std::string& why) {
  throw OptionFault(
      fmt::format("the option \"--map\" takes X0..X1/N,Y0..Y1/N, such as -60..60/121,-50..50/101, "
                  "not \"{}\"{} (see `leeway help bracket`)",
                  typed, why));
}

Steps steps_of(std::string_view text, const std::string& typed) {
  const std::size_t slash = std::min(text.find('/'), text.size());
  const std::optional<TypedRange> range = range_in(text.substr(0, slash));
  const std::optional<double> number =
      slash == text.size() ? std::nullopt : typed_number(text.substr(slash + 1));
  if (!range || !number) refuse_map(typed, range_hint(typed));
  const double count = *number;
  if (count != std::floor(count) || count < 1 || count > static_cast<double>(kMostMapOffsets)) {
    refuse_map(typed, fmt::format(": N is a whole number from 1 to {}", kMostMapOffsets));
  }
  if (std::abs(range->from) > kFarthestOffset || std::abs(range->to) > kFarthestOffset) {
    refuse_map(typed, ": an offset is at most 100000 mm either way");
  }
  const bool rising = count > 1 ? range->from < range->to : range->from == range->to;
  if (!rising) {
    refuse_map(typed, count > 1 ? ": the first bound is the smaller one"
                                : ": with a single step both bounds are the same");
  }
  return {range->from, range->to, static_cast<int>(count)};
}

MapAsked map_steps(const std::string& typed) {
  std::vector<std::string_view> parts = split_typed(typed, ',');
  MapAsked asked;
  if (!parts.empty() && parts.front() == "points") {
    asked.points = true;
    parts.erase(parts.begin());
    if (parts.empty()) return asked;
  }
  if (parts.size() != 2) refuse_map(typed, range_hint(typed));
  const Steps x = steps_of(parts[0], typed);
  const Steps y = steps_of(parts[1], typed);
  if (static_cast<long>(x.count) * y.count > kMostMapOffsets) {
    refuse_map(typed, fmt::format(": at most {} offsets in all", kMostMapOffsets));
  }
  asked.steps = {x, y};
  return asked;
}

double leeway_of(const std::string& typed) {
  const std::optional<double> mm = typed_number(typed);
  if (mm && *mm >= 0 && *mm <= kFarthestOffset) return *mm;
  throw OptionFault(fmt::format(
      "the option \"--leeway\" takes millimetres from 0 to {:.0f}, such as 2.5, not \"{}\" (see "
      "`leeway help bracket`)",
      kFarthestOffset, typed));
}

Tolerance tolerance_of(const std::string& typed) {
  constexpr double kMost = 100;  // mm
  std::vector<double> numbers;
  for (const std::string_view part : split_typed(typed, ',')) {
    const std::optional<double> mm = typed_number(part);
    if (mm && *mm >= 0 && *mm <= kMost) numbers.push_back(*mm);
  }
  if (numbers.size() != split_typed(typed, ',').size() || numbers.size() > 2) {
    throw OptionFault(fmt::format(
        "the option \"--tolerance\" takes millimetres from 0 to {:.0f}, such as 0.3, or 0.3,0.2 "
        "along x and y, not \"{}\" (see `leeway help bracket`)",
        kMost, typed));
  }
  if (numbers.size() == 1) return {numbers[0], {}};
  return {0, {numbers[0], numbers[1]}};
}

void check_bracket(const BracketArguments& arguments) {
  SetupArguments one = arguments.shared;
  one.has_setup = !arguments.setups.empty();
  if (one.has_setup) one.setup = arguments.setups.front();
  check_arguments(one, "bracket");
  if (arguments.has_candidates && arguments.candidates.empty()) {
    throw OptionFault("the option \"--candidates\" needs the name of a file");
  }
  if (std::count(arguments.probes.begin(), arguments.probes.end(), "") > 0) {
    throw OptionFault("the option \"--probe\" needs the name of a file");
  }
  std::size_t from_input = arguments.has_candidates && arguments.candidates == "-" ? 1 : 0;
  for (const auto& names : {arguments.setups, arguments.probes}) {
    from_input += static_cast<std::size_t>(std::count(names.begin(), names.end(), "-"));
  }
  if (from_input > 1) throw OptionFault("standard input can be read only once");
  if (arguments.shared.format == "csv" && !arguments.has_map && !arguments.compares()) {
    throw OptionFault("the format csv is for \"--map\", \"--candidates\" or \"--probe\"");
  }
  if (arguments.shared.force && !arguments.shared.numbers.has_save) {
    throw OptionFault("\"--force\" goes with \"--save\"");
  }
}

// Nothing when one of them has faults, which are then told; those of all.
std::optional<std::vector<Setup>> load_setups(const BracketArguments& arguments, DiskFiles& files,
                                              Outputs& outputs) {
  std::vector<Setup> setups;
  bool sound = true;
  const auto load = [&](const SetupArguments& one) {
    std::optional<Setup> setup = load_setup(one, files, outputs);
    sound = sound && setup.has_value();
    if (setup) setups.push_back(*std::move(setup));
  };
  if (arguments.setups.empty()) load(arguments.shared);
  for (const std::string& name : arguments.setups) {
    SetupArguments one;
    one.setup = name;
    load(one);
  }
  if (!sound) return std::nullopt;
  return setups;
}

// As for setups. A probe without a name goes by its file's.
std::optional<std::vector<Probe>> load_probes(const std::vector<std::string>& names,
                                              DiskFiles& files) {
  std::vector<Probe> probes;
  bool sound = true;
  for (const std::string& name : names) {
    ReadProbe read = read_probe(files.setup(name), files.finder());
    for (const Fault& fault : read.faults) write_error_line(message(fault));
    sound = sound && read.probe;
    if (!read.probe) continue;
    if (read.probe->name.empty()) read.probe->name = name;
    probes.push_back(*std::move(read.probe));
  }
  if (!sound) return std::nullopt;
  return probes;
}

// Throws OptionFault where nothing is printable.
CoverageMap map_over(const std::vector<Setup>& setups, const MapAsked& asked,
                     const BracketReport& report, const Tolerance& tolerance) {
  ProgressLine line("Looking at offsets");
  const Progress progress = [&](double done) {
    line.show(done);
    return true;
  };
  const MapSteps& steps = *asked.steps;
  if (asked.points) return points_map(setups, steps.x, steps.y, tolerance, progress);
  CommonMap common = map_with_window(setups, report.window ? &report.window->window : nullptr,
                                     steps, tolerance, progress);
  if (!common.map) {
    throw OptionFault(
        fmt::format("\"{}\" has no printable area, so that there is nothing to "
                    "cover (see `leeway check --format json`)",
                    setups[common.unprintable].name));
  }
  return *std::move(common.map);
}

MapSteps map_of(const BracketReport& report) {
  std::vector<Point> offsets;
  for (const RankedCandidate& ranked : report.candidates) {
    offsets.push_back(ranked.candidate.offset);
  }
  return map_around(report.setups, report.window ? report.window->window.bounds : std::nullopt,
                    offsets);
}

bool any_asks(const std::vector<Setup>& setups) {
  return std::any_of(setups.begin(), setups.end(),
                     [](const Setup& setup) { return asks_for_points(setup.request); });
}

BracketResult window_of(const std::vector<Setup>& setups, BracketOptions options) {
  ProgressLine progress("Looking for offsets");
  options.progress = [&](double done) {
    progress.show(done);
    return true;
  };
  return bracket(setups, options);
}

// Those of the table, with the probes.
std::vector<RankedCandidate> compared(const std::vector<Setup>& setups,
                                      const std::vector<Candidate>& candidates,
                                      const std::vector<Probe>& probes,
                                      const Tolerance& tolerance) {
  if (candidates.size() * probes.size() > kMostCandidates) {
    throw OptionFault(fmt::format("{} candidates with {} probes each are more than {}",
                                  candidates.size(), probes.size(), kMostCandidates));
  }
  ProgressLine progress("Comparing");
  CandidateOptions options;
  options.tolerance = tolerance;
  options.progress = [&](double done) {
    progress.show(done);
    return true;
  };
  return rank_candidates(setups, with_probes(setups, candidates, probes, options), options);
}

int run_bracket(const BracketArguments& arguments) {
  check_bracket(arguments);
  const BracketWriter write =
      kBracketWriters[format_index(arguments.shared.format, kBracketFormats)];
  MapAsked map;
  if (arguments.has_map) map = map_steps(arguments.map);
  BracketOptions options;
  if (arguments.has_tolerance) options.tolerance = tolerance_of(arguments.tolerance);
  if (arguments.has_leeway) options.leeway = leeway_of(arguments.leeway);

  DiskFiles files;
  Outputs outputs;
  const std::optional<std::vector<Setup>> setups = load_setups(arguments, files, outputs);
  ReadCandidates candidates;
  if (arguments.has_candidates) {
    candidates = read_candidates(files.setup(arguments.candidates), files.finder());
    for (const Fault& fault : candidates.faults) write_error_line(message(fault));
  }
  const std::optional<std::vector<Probe>> probes = load_probes(arguments.probes, files);
  if (!setups || !candidates.faults.empty() || !probes) return kUnusable;
  refuse_own_input(files, arguments.shared.output);

  BracketReport report;
  report.setups = *setups;
  if (any_asks(*setups) || (!arguments.has_map && !arguments.has_candidates)) {
    report.window = window_of(*setups, options);
  }
  if (arguments.compares()) {
    report.candidates = compared(*setups, candidates.candidates, *probes, options.tolerance);
  }
  if (!map.steps && (arguments.has_map || arguments.shared.format == "svg")) {
    map.steps = map_of(report);
  }
  if (map.points && !any_asks(*setups)) {
    throw OptionFault("\"--map points\" is for a setup that asks for points");
  }
  if (map.steps) report.map = map_over(*setups, map, report, options.tolerance);

  // Only now, so that long work that is broken off leaves nothing behind.
  Output& output = outputs.open(arguments.shared.output);
  outputs.finish([&] {
    write(report, result_sink(output, arguments.shared.format, arguments.shared.has_output));
  });
  if (!report.window) return kAllWell;
  return all_well(*report.window) ? kAllWell : kNotSo;
}

}  // namespace

Command bracket_command() {
  static const std::string help =
      std::string(kBracketHelpBegins) + kSetupNumbersHelp + kBracketHelpEnds;
  const auto arguments = std::make_shared<BracketArguments>();
  Command command;
  command.name = "bracket";
  command.gist = "where the probe may sit, and what each millimetre costs";
  command.help = help.c_str();
  command.add_options = [arguments](Options& options) {
    options.arguments("setups", arguments->setups);
    arguments->shared.declare_without_setup(options);
    options.value("--map", arguments->map, &arguments->has_map);
    options.value("--tolerance", arguments->tolerance, &arguments->has_tolerance);
    options.value("--leeway", arguments->leeway, &arguments->has_leeway);
    options.value("--candidates", arguments->candidates, &arguments->has_candidates);
    options.values("--probe", arguments->probes);
  };
  command.run = [arguments] { return run_bracket(*arguments); };
  return command;
}

}  // namespace leeway
