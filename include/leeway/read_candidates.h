#pragma once
// Named brackets from text, with every fault at once.

#include <vector>

#include "leeway/candidates.h"
#include "leeway/fault.h"
#include "leeway/read_setup.h"

namespace leeway {

struct ReadCandidates {
  std::vector<Candidate> candidates;
  std::vector<Fault> faults;  // when not empty, the candidates are of no use
};

//   name, x, y
//   left of the fan, -38.5, 12
//
// A table with a header: x and y, the offset from nozzle to probe in mm, and name, in any order;
// separated and commented as readings are (read_readings.h). No two have the same name. A column
// `probe` may name the file of a kind of probe, found by `finder` from the table's own folder;
// empty for the setup's own.
ReadCandidates read_candidates(const SourceFile& source, const FileFinder& finder);

}  // namespace leeway
