#pragma once
// `explain`: why points fail, which single mistake would account for it, what would remedy it.

#include <cstdint>
#include <vector>

#include "leeway/change.h"
#include "leeway/check.h"
#include "leeway/fit.h"

namespace leeway {

// Points that fail for the same limit.
struct FailingGroup {
  std::uint32_t limit = 0;
  std::vector<std::size_t> points;  // indices into CheckResult::points, worst first
  double largest_shortfall = 0;     // guard less leeway where marginal, else minus the leeway
};

enum class Mistake {
  sign_of_x,
  sign_of_y,
  both_signs,
  axes_swapped,
  frame,
  margins_from_travel,  // counted from the travel, where the bed was meant
  margins_from_bed,
  origin_at_centre,  // it is at the bed's centre; numbers were counted from a corner
  origin_at_corner,
  travel_equals_bed,  // though it goes further
  travel_beyond_bed,  // though it ends with the bed
  offset_left_at_zero,
  inches,
  decimal_point,
  columns_and_rows_exchanged,
  width_and_depth_exchanged,
};

// "sign of x", "axes swapped", ...
const char* word(Mistake mistake);

// A single mistake that would account for failing points: a hypothesis.
struct MistakeFound {
  Mistake mistake = Mistake::sign_of_x;
  std::size_t fixes = 0;  // failing points fewer, after the change
  std::size_t of = 0;     // failing points before
  Changes changes;
  Setup changed;
  bool likely = false;  // it fixes all, leaves a likely setup, and what fails is far out of reach
  double rank = 0;      // the larger the better; only for comparing
};

struct Remedy {
  enum class Parameter { margins, bounds, offset, travel, fewer_points, edge_distance };
  Parameter parameter = Parameter::margins;
  Changes changes;
  std::size_t still_failing = 0;  // points that are not of the mesh, and that it cannot remedy
  // Parameter::travel: how much further it would have to go on each side.
  UncoveredStrips further;
};

// "margins", "bounds", "offset", ...
const char* word(Remedy::Parameter parameter);

// Remedies cost most of the time: each is a search of its own, some run `fit`.
struct ExplainOptions {
  bool remedies = true;
  Progress progress;
};

struct ExplainResult {
  CheckResult check;
  std::vector<FailingGroup> groups;    // the largest shortfall first
  std::vector<MistakeFound> mistakes;  // best first, at most kMostMistakes
  std::vector<Remedy> remedies;        // each verified by running the check
  std::vector<std::size_t> tightest;   // points, when all are reachable: up to three

  static constexpr std::size_t kMostMistakes = 3;
};

// `limits` are those of the same setup. Throws as check and fit do, and Stopped (progress.h).
//
//   const ExplainResult result = explain(setup, Limits(setup));
//   for (const FailingGroup& group : result.groups) ...  // empty when all are reachable
ExplainResult explain(const Rig& rig, const ExplainOptions& options = {});

}  // namespace leeway
