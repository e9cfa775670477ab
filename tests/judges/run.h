#pragma once
// Which random setups a test looks at. From the environment:
//   LEEWAY_SEED    the run's seed (default 1); every failure names it
//   LEEWAY_SETUPS  how many setups in all (default LEEWAY_DEFAULT_SETUPS)
//   LEEWAY_SHARD   "2/4": the third quarter of them only, counted from 0
//   LEEWAY_CASE    one setup alone, to repeat a failure

#include <cstdint>
#include <string>

#include "leeway/limits.h"
#include "leeway/setup.h"

namespace leeway::judges {

struct CaseRange {
  std::uint64_t seed = 1;
  std::uint64_t first = 0;
  std::uint64_t end = 0;

  bool repeats_one() const { return end - first == 1; }
};

// Throws std::runtime_error for values that are no numbers: a run that tests nothing must fail.
CaseRange cases_to_look_at();

// Calls `look` with each `every`th case of the run, or with the one that is to be repeated. Returns
// how many setups were refused for their detail.
template <class Look>
std::size_t look_at_cases(const CaseRange& run, std::uint64_t every, Look look) {
  std::size_t too_detailed = 0;
  for (std::uint64_t i = run.first; i < run.end; ++i) {
    if (i % every != 0 && !run.repeats_one()) continue;
    try {
      look(i);
    } catch (const SetupTooDetailed&) {
      ++too_detailed;
    }
  }
  return too_detailed;
}

// "LEEWAY_SEED=1 LEEWAY_CASE=17", to be put before the command.
std::string how_to_repeat(const CaseRange& run, std::uint64_t index);

// The setup as a file that `leeway check` reads. Numbers keep every bit.
std::string setup_file(const Setup& setup);

}  // namespace leeway::judges
