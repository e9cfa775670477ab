#include "cli/commands/measure_command.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <memory>

#include "cli/failure.h"
#include "cli/output_file.h"
#include "cli/setup_input.h"
#include "formats/text/numbers.h"
#include "formats/typed/typed_values.h"
#include "leeway/read_readings.h"
#include "leeway/rewrite_setup.h"
#include "leeway/write_measure.h"

namespace leeway {
namespace {

constexpr const char* kMeasureHelp =
    R"(Usage: leeway measure READINGS [--resolution MM] [--drop LABEL]... [--keep LABEL]...
                      [--write SETUP --force] [--format FORMAT] [--output FILE]

The offset from nozzle to probe and its uncertainty, from paired readings. Mark a dot on the
bed. Bring the nozzle over it and note X and Y; bring the probe over the same dot and note
X and Y again. Repeat at several dots, spread over the bed.

  READINGS         a table, a pair a line, with the header
                     nozzle_x,nozzle_y,probe_x,probe_y
                   and label and edge if you like, in any order; separated by commas,
                   semicolons or tabs; lines with # in front are comments; - is standard
                   input
  --resolution MM  the last digit that the controller shows, or the finest step you can
                   move by: it adds to the uncertainty
  --drop LABEL     leave a reading out (its label, or "row 3"); may be repeated
  --keep LABEL     this one stands out and is right all the same; may be repeated
  --write SETUP    put the offset, its uncertainty and, where few pairs ask for more than 2,
                   the coverage factor into this setup file; all else in it stays as it
                   stands; refused while a reading stands out that is neither dropped nor
                   kept
  --force          goes with --write: yes, change that file
  --format FORMAT  text (the default), json or markdown
  --output FILE    write to FILE, whole or not at all, instead of standard output
  -h, --help       this text

A probe without a tip to see: lay down a flat square of what it senses, its middle marked.
Bring the nozzle over the mark. Then let the probe come slowly over the square from the left
until it switches and note X; from the right, note X; from the front and from the back, note
Y. The middle of two sides counts. A row for each, with the side you came from as its edge:
  label,edge,nozzle_x,nozzle_y,probe_x,probe_y
  middle,left,115,105,148.2,
  middle,right,115,105,158.9,
  middle,front,115,105,,87.7
  middle,back,115,105,,98.4

Examples:
  leeway measure examples/godwit-readings.csv --resolution 0.1
  leeway measure examples/godwit-readings.csv --drop "back right" --format json
  leeway measure readings.csv --resolution 0.05 --write mine.json --force

Exit status:
  0  the offset is measured
  1  a reading stands out, so that --write did not write
  2  the readings, the setup or the options are of no use, or the output cannot be written
  3  a fault of the program itself

Before your hands go near the head: nozzle cold, and power off where the work allows. Move
slowly, keep fingers out of its reach, and let the machine's manual come first.
)";

using MeasureWriter = void (*)(const MeasureResult&, const std::vector<Reading>&,
                               const MeasureOptions&, const TextSink&);

const std::vector<std::string_view> kMeasureFormats{"text", "json", "markdown"};
constexpr MeasureWriter kMeasureWriters[] = {write_measure_text, write_measure_json,
                                             write_measure_markdown};

struct MeasureArguments {
  std::string readings;
  bool has_readings = false;
  std::string resolution;
  std::vector<std::string> drop;
  std::vector<std::string> keep;
  std::string write;
  bool has_write = false;
  bool force = false;
  std::string format = "text";
  std::string output;
  bool has_output = false;
};

// By its label, or by its row where no label is like that. `what`: "drop".
std::size_t named_reading(const std::string& label, const std::vector<Reading>& readings,
                          const char* what) {
  std::vector<std::size_t> found;
  for (std::size_t i = 0; i < readings.size(); ++i) {
    if (readings[i].label == label) found.push_back(i);
  }
  for (std::size_t i = 0; found.empty() && i < readings.size(); ++i) {
    if (label == fmt::format("row {}", readings[i].row)) found.push_back(i);
  }
  if (found.size() > 1) {
    throw OptionFault(
        fmt::format("{} readings are called \"{}\"; {} them by their rows, such as "
                    "\"row {}\"",
                    found.size(), label, what, readings[found.front()].row));
  }
  if (found.empty()) {
    std::vector<std::string_view> labels;
    for (const Reading& reading : readings) labels.push_back(reading.label);
    throw OptionFault(
        fmt::format("there is no reading \"{}\" to {}{}", label, what, suggestion(label, labels)));
  }
  return found.front();
}

// An axis that only dropped readings tell of.
void require_both_axes(const MeasureOptions& options, const std::vector<Reading>& readings) {
  for (std::size_t axis = 0; axis < 2; ++axis) {
    bool told = false;
    for (std::size_t i = 0; i < readings.size(); ++i) {
      told = told || (!options.dropped[i] && readings[i].tells[axis]);
    }
    if (!told) {
      throw OptionFault(fmt::format("all readings that tell of {} are dropped; one must stay",
                                    axis == 0 ? "x" : "y"));
    }
  }
}

MeasureOptions measure_options(const MeasureArguments& arguments,
                               const std::vector<Reading>& readings) {
  MeasureOptions options;
  if (!arguments.resolution.empty()) {
    const std::optional<double> resolution = typed_number(arguments.resolution);
    if (!resolution || *resolution < 0 || *resolution > 1000) {
      throw OptionFault(fmt::format(
          "the option \"--resolution\" takes a number of mm from 0 to 1000, not \"{}\"{} "
          "(see `leeway measure --help`)",
          arguments.resolution, number_hint(arguments.resolution)));
    }
    options.resolution = *resolution;
  }
  options.dropped.assign(readings.size(), false);
  options.kept = options.dropped;
  for (const std::string& label : arguments.drop) {
    options.dropped[named_reading(label, readings, "drop")] = true;
  }
  for (const std::string& label : arguments.keep) {
    const std::size_t reading = named_reading(label, readings, "keep");
    if (options.dropped[reading]) {
      throw OptionFault(fmt::format("\"{}\" cannot be dropped and kept", label));
    }
    options.kept[reading] = true;
  }
  if (std::find(options.dropped.begin(), options.dropped.end(), false) == options.dropped.end()) {
    throw OptionFault("all readings are dropped; at least one must stay");
  }
  require_both_axes(options, readings);
  return options;
}

// The setup to change: its text, after it was found to be without faults.
struct SetupFile {
  DiskFiles files;
  std::string text;
  double coverage_factor = 2;
};

bool load_to_change(const MeasureArguments& arguments, Outputs& outputs, SetupFile& file) {
  if (!arguments.has_write) {
    if (arguments.force) throw OptionFault("\"--force\" goes with \"--write\"");
    return true;
  }
  if (arguments.write.empty() || arguments.write == "-") {
    throw OptionFault("the option \"--write\" needs the name of a setup file");
  }
  SetupArguments setup;
  setup.setup = arguments.write;
  const std::optional<Setup> now = load_setup(setup, file.files, outputs, &file.text);
  if (!now) return false;
  file.coverage_factor = now->coverage_factor;
  if (!arguments.force) {
    throw OptionFault(
        fmt::format("\"{}\" would be changed; \"--force\" allows it", arguments.write));
  }
  return true;
}

// What goes into the setup. A coverage factor that is there and greater stays: someone chose it.
MeasuredProbe probe_to_write(const MeasureResult& result, const SetupFile& setup) {
  std::optional<MeasuredProbe> probe = measured_probe(result);
  if (!probe) {
    throw OptionFault("a single pair without \"--resolution\" has no uncertainty to write");
  }
  if (probe->uncertainty.x <= 0 || probe->uncertainty.y <= 0) {
    throw OptionFault("readings that all agree have no uncertainty to write: say \"--resolution\"");
  }
  if (std::abs(probe->offset.x) > 1e6 || std::abs(probe->offset.y) > 1e6) {
    throw OptionFault("an offset of more than 1e6 mm is of no use in a setup");
  }
  if (probe->coverage_factor && *probe->coverage_factor <= setup.coverage_factor) {
    probe->coverage_factor.reset();
  }
  return *probe;
}

std::string written_words(const std::string& path, const MeasuredProbe& probe,
                          const MeasureResult& result, const SetupFile& setup) {
  std::string out = fmt::format("\"{}\" now has \"offset\": [{}], \"offset_uncertainty\": [{}]",
                                path, pair(probe.offset), pair(probe.uncertainty));
  if (probe.coverage_factor) {
    out += fmt::format(" and \"coverage_factor\": {} (it was {})", decimal(*probe.coverage_factor),
                       decimal(setup.coverage_factor));
  } else if (measured_probe(result)->coverage_factor) {
    out += fmt::format("; its \"coverage_factor\" stays {}", decimal(setup.coverage_factor));
  }
  return out;
}

// What is said besides the result, once it is out.
void tell_written(const MeasureArguments& arguments, const MeasureResult& result,
                  const SetupFile& setup, const std::optional<MeasuredProbe>& probe,
                  bool comments_lost) {
  if (!arguments.has_write) return;
  if (!probe) {
    complain(
        fmt::format("\"{}\" was not written: a reading stands out; say \"--drop\" or \"--keep\" "
                    "with its label",
                    arguments.write));
    return;
  }
  complain(written_words(arguments.write, *probe, result, setup));
  if (comments_lost) {
    complain(
        fmt::format("comments inside the old numbers are no longer in \"{}\"", arguments.write));
  }
}

int run_measure(const MeasureArguments& arguments) {
  if (!arguments.has_readings) {
    throw OptionFault("`leeway measure` needs readings (see `leeway measure --help`)");
  }
  if (arguments.has_output && arguments.output.empty()) {
    throw OptionFault("the option \"--output\" needs the name of a file");
  }
  const MeasureWriter write = kMeasureWriters[format_index(arguments.format, kMeasureFormats)];
  DiskFiles files;
  const ReadReadings read = read_readings(files.setup(arguments.readings));
  for (const Fault& fault : read.faults) write_error_line(message(fault));
  if (!read.faults.empty()) return kUnusable;
  const MeasureOptions options = measure_options(arguments, read.readings);
  Outputs outputs;
  SetupFile setup;
  if (!load_to_change(arguments, outputs, setup)) return kUnusable;
  refuse_own_input(files, arguments.output);
  refuse_own_input(setup.files, arguments.output);

  const MeasureResult result = measure(read.readings, options);
  Output& output = outputs.open(arguments.output);
  bool comments_lost = false;
  std::optional<MeasuredProbe> probe;
  if (arguments.has_write && !result.undecided()) {
    probe = probe_to_write(result, setup);
    const Rewritten changed =
        rewrite_offset(setup.text, probe->offset, probe->uncertainty, probe->coverage_factor);
    outputs.keep(arguments.write, changed.text);
    comments_lost = changed.comments_lost;
  }
  outputs.finish([&] {
    write(result, read.readings, options,
          result_sink(output, arguments.format, arguments.has_output));
  });
  tell_written(arguments, result, setup, probe, comments_lost);
  return arguments.has_write && !probe ? kNotSo : kAllWell;
}

}  // namespace

Command measure_command() {
  const auto arguments = std::make_shared<MeasureArguments>();
  Command command;
  command.name = "measure";
  command.gist = "the offset and its uncertainty from paired readings";
  command.help = kMeasureHelp;
  command.add_options = [arguments](Options& options) {
    options.argument("readings", arguments->readings, arguments->has_readings);
    options.value("--resolution", arguments->resolution);
    options.values("--drop", arguments->drop);
    options.values("--keep", arguments->keep);
    options.value("--write", arguments->write, &arguments->has_write);
    options.flag("--force", arguments->force);
    options.value("--format", arguments->format);
    options.value("--output", arguments->output, &arguments->has_output);
  };
  command.run = [arguments] { return run_measure(*arguments); };
  return command;
}

}  // namespace leeway
