#pragma once
// Paired readings from text, with every fault at once.

#include <vector>

#include "leeway/fault.h"
#include "leeway/measure.h"
#include "leeway/read_setup.h"

namespace leeway {

inline constexpr std::size_t kMostReadings = 100'000;

struct ReadReadings {
  std::vector<Reading> readings;
  std::vector<Fault> faults;  // when not empty, the readings are of no use
};

// A table with a header: nozzle_x, nozzle_y, probe_x, probe_y and perhaps label, in any order;
// separated by commas, semicolons or tabs; lines that begin with # are comments; text may stand in
// double quotes (RFC 4180, within one line). A decimal comma will do where semicolons or tabs
// separate.
ReadReadings read_readings(const SourceFile& source);

}  // namespace leeway
