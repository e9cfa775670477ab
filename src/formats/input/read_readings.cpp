#include "leeway/read_readings.h"

#include <fmt/format.h>

#include "formats/input/csv_table.h"

namespace leeway {
namespace {

const CsvKind kReadingsKind = {
    {"nozzle_x", "nozzle_y", "probe_x", "probe_y", "label"},
    4,
    "readings",
    "no-readings",
    "nozzle_x, nozzle_y, probe_x and probe_y in the first line, and label if you like",
    "a pair a line",
    kMostReadings};
constexpr std::size_t kLabel = 4;

}  // namespace

ReadReadings read_readings(const SourceFile& source) {
  CsvTable table(source, kReadingsKind);
  ReadReadings read;
  for (std::size_t row = 0; row < table.rows().size(); ++row) {
    const auto nozzle_x = table.number(row, 0);
    const auto nozzle_y = table.number(row, 1);
    const auto probe_x = table.number(row, 2);
    const auto probe_y = table.number(row, 3);
    if (!nozzle_x || !nozzle_y || !probe_x || !probe_y) continue;
    Reading reading;
    reading.nozzle_over = {*nozzle_x, *nozzle_y};
    reading.probe_over = {*probe_x, *probe_y};
    const std::optional<CsvCell>& label = table.rows()[row][kLabel];
    reading.label = label && !label->text.empty() ? label->text : fmt::format("row {}", row + 1);
    read.readings.push_back(std::move(reading));
  }
  read.faults = table.faults();
  if (!read.faults.empty()) read.readings.clear();
  return read;
}

}  // namespace leeway
