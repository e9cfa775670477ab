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
    R"(Usage: leeway measure READINGS [--resolution MM] [--drop LABEL]...
                      [--write SETUP --force] [--format FORMAT] [--output FILE]

The offset from nozzle to probe and its uncertainty, from paired readings. Mark a dot on the
bed. Bring the nozzle over it and note X and Y; bring the probe over the same dot and note
X and Y again. Repeat at several dots, spread over the bed.

  READINGS         a table, a pair a line, with the header
                     nozzle_x,nozzle_y,probe_x,probe_y
                   and label if you like, in any order; separated by commas, semicolons or
                   tabs; lines with # in front are comments; - is standard input
  --resolution MM  the last digit that the controller shows, or the finest step you can
                   move by: it adds to the uncertainty
  --drop LABEL     leave a reading out (its label, or "row 3"); may be repeated
  --write SETUP    put the offset and its uncertainty into this setup file; all else in
                   it stays as it stands
  --force          goes with --write: yes, change that file
  --format FORMAT  text (the default), json or markdown
  --output FILE    write to FILE, whole or not at all, instead of standard output
  -h, --help       this text

Examples:
  leeway measure examples/godwit-readings.csv --resolution 0.1
  leeway measure examples/godwit-readings.csv --drop "back right" --format json
  leeway measure readings.csv --resolution 0.05 --write mine.json --force

Exit status:
  0  the offset is measured
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
  std::string write;
  bool has_write = false;
  bool force = false;
  std::string format = "text";
  std::string output;
  bool has_output = false;
};

// By its label, or by its row where no label is like that.
void drop(const std::string& label, const std::vector<Reading>& readings, MeasureOptions& options) {
  std::vector<std::size_t> found;
  for (std::size_t i = 0; i < readings.size(); ++i) {
    if (readings[i].label == label) found.push_back(i);
  }
  for (std::size_t i = 0; found.empty() && i < readings.size(); ++i) {
    if (label == fmt::format("row {}", i + 1)) found.push_back(i);
  }
  if (found.size() > 1) {
    throw OptionFault(
        fmt::format("{} readings are called \"{}\"; drop them by their rows, such as "
                    "\"row {}\"",
                    found.size(), label, found.front() + 1));
  }
  if (found.empty()) {
    std::vector<std::string_view> labels;
    for (const Reading& reading : readings) labels.push_back(reading.label);
    throw OptionFault(
        fmt::format("there is no reading \"{}\" to drop{}", label, suggestion(label, labels)));
  }
  options.dropped[found.front()] = true;
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
  for (const std::string& label : arguments.drop) drop(label, readings, options);
  if (std::find(options.dropped.begin(), options.dropped.end(), false) == options.dropped.end()) {
    throw OptionFault("all readings are dropped; at least one must stay");
  }
  return options;
}

// The setup to change: its text, after it was found to be without faults.
struct SetupFile {
  DiskFiles files;
  std::string text;
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
  if (!load_setup(setup, file.files, outputs, &file.text)) return false;
  if (!arguments.force) {
    throw OptionFault(
        fmt::format("\"{}\" would be changed; \"--force\" allows it", arguments.write));
  }
  return true;
}

Rewritten changed_setup(const std::string& text, const MeasureResult& result) {
  const std::optional<MeasuredProbe> probe = measured_probe(result);
  if (!probe) {
    throw OptionFault("a single pair without \"--resolution\" has no uncertainty to write");
  }
  if (probe->uncertainty.x <= 0 || probe->uncertainty.y <= 0) {
    throw OptionFault("readings that all agree have no uncertainty to write: say \"--resolution\"");
  }
  if (std::abs(probe->offset.x) > 1e6 || std::abs(probe->offset.y) > 1e6) {
    throw OptionFault("an offset of more than 1e6 mm is of no use in a setup");
  }
  return rewrite_offset(text, probe->offset, probe->uncertainty);
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
  if (arguments.has_write) {
    const Rewritten changed = changed_setup(setup.text, result);
    outputs.keep(arguments.write, changed.text);
    comments_lost = changed.comments_lost;
  }
  outputs.finish([&] {
    write(result, read.readings, options,
          result_sink(output, arguments.format, arguments.has_output));
  });
  if (comments_lost) {
    complain(
        fmt::format("comments inside the old numbers are no longer in \"{}\"", arguments.write));
  }
  return kAllWell;
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
    options.value("--write", arguments->write, &arguments->has_write);
    options.flag("--force", arguments->force);
    options.value("--format", arguments->format);
    options.value("--output", arguments->output, &arguments->has_output);
  };
  command.run = [arguments] { return run_measure(*arguments); };
  return command;
}

}  // namespace leeway
