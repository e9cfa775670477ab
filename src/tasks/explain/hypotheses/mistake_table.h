#pragma once
// Every mistake that is weighed: one row each.

#include <vector>

#include "tasks/explain/hypotheses/trials.h"

namespace leeway {

struct MistakeRow {
  Mistake mistake;
  const char* word;
  // How often it is made, against the others (common practice, no source).
  double prior;
};

// In the order of `Mistake`.
const std::vector<MistakeRow>& mistake_table();

// "The numbers are right, and the request is too large", in the same measure.
inline constexpr double kPriorTooMuch = 12;
// A mistake that is none of the table.
inline constexpr double kPriorOther = 0.5;

// All that apply to the setup.
std::vector<MistakeTrial> mistake_trials(const Setup& setup);

// The families, each in the file of its name.
void add_offsets(Trials& trials);
void add_frames(Trials& trials);
void add_margins(Trials& trials);
void add_origins(Trials& trials);
void add_travels(Trials& trials);
void add_units(Trials& trials);
void add_exchanges(Trials& trials);
void add_beds(Trials& trials);
void add_probes(Trials& trials);

}  // namespace leeway
