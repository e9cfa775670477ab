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

// A table with a header: nozzle_x, nozzle_y, probe_x, probe_y and perhaps label and edge, in any
// order; separated by commas, semicolons or tabs; lines that begin with # are comments; text may
// stand in double quotes (RFC 4180, within one line). A decimal comma will do where semicolons or
// tabs separate.
//
// A row with an edge (left, right, front or back) holds where the nozzle was as the probe switched,
// coming from that side. The rows of a label are one reading: the middle of left and right is its
// x, the middle of front and back its y; with one of the two it tells only that. Without an edge a
// row is a reading of its own.
ReadReadings read_readings(const SourceFile& source);

}  // namespace leeway
