#pragma once
// The grid drawn in characters, back at the top, as one stands before the machine.

#include <string>

#include "leeway/write_check.h"

namespace leeway {

// Grids with more columns or rows are drawn in groups, each shown by its worst verdict.
inline constexpr int kMostPlanColumns = 30;
inline constexpr int kMostPlanRows = 25;

// 'o', '~' or 'X', coloured where wanted. The characters tell the verdicts apart without colour.
std::string verdict_mark(Verdict verdict, bool color);

// The brief plan has a shorter title and no blank lines below.
struct PlanOptions {
  bool color = false;
  bool brief = false;
  int most_rows = kMostPlanRows;
};

// Writes nothing without a grid or when all of its points were left out.
void write_plan(const CheckResult& result, const Setup& setup, const PlanOptions& options,
                const TextSink& sink);

}  // namespace leeway
