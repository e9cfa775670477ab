#pragma once
// Which random setups a test looks at. From the environment:
//   LEEWAY_SEED    the run's seed (default 1); every failure names it
//   LEEWAY_SETUPS  how many setups in all (default LEEWAY_DEFAULT_SETUPS)
//   LEEWAY_SHARD   "2/4": the third quarter of them only, counted from 0
//   LEEWAY_CASE    one setup alone, to repeat a failure

#include <cstdint>
#include <string>

#include "leeway/setup.h"

namespace leeway::judges {

struct CaseRange {
  std::uint64_t seed = 1;
  std::uint64_t first = 0;
  std::uint64_t end = 0;
};

// Throws std::runtime_error for values that are no numbers: a run that tests nothing must fail.
CaseRange cases_to_look_at();

// "LEEWAY_SEED=1 LEEWAY_CASE=17", to be put before the command.
std::string how_to_repeat(const CaseRange& run, std::uint64_t index);

// The setup as a file that `leeway check` reads. Numbers keep every bit.
std::string setup_file(const Setup& setup);

}  // namespace leeway::judges
