#pragma once
// Reading a kind of probe from a file of its own, with every fault of the files at once.

#include <optional>
#include <vector>

#include "leeway/fault.h"
#include "leeway/read_setup.h"
#include "leeway/setup.h"

namespace leeway {

struct ReadProbe {
  std::optional<Probe> probe;  // nothing when there are faults; its offset is 0, 0 if not stated
  std::vector<Fault> faults;   // in the order of the files' lines
};

// Reads a probe file as a setup may name it (profiles/README.md), and the profiles that it names.
// It need not state an offset, which depends on the bracket. It never throws for what a file holds.
ReadProbe read_probe(const SourceFile& source, const FileFinder& finder);

}  // namespace leeway
