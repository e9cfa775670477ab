#pragma once
// `explain`: why points fail, which single mistake would account for it, what would remedy it.

#include <cstdint>
#include <optional>
#include <utility>
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
  axes_from_side,  // as who stands at a side of the machine sees them
  frame,
  home_frame,
  margins_from_travel,  // counted from the travel, where the bed was meant
  margins_from_bed,
  margins_exchanged,  // left and right, or front and back
  one_margin,         // forgotten, or half of what was meant
  origin_at_centre,   // it is at the bed's centre; numbers were counted from a corner
  origin_at_corner,
  counted_from_back,
  travel_equals_bed,  // though it goes further
  print_area_as_travel,
  travel_beyond_bed,      // though it ends with the bed
  travel_begins_at_zero,  // though it begins before
  travel_size_as_end,     // a size where an end was asked, or an end where a size was
  offset_left_at_zero,
  offset_elsewhere,  // measured from or to another part of the head
  inches,
  decimal_point,
  columns_and_rows_exchanged,
  width_and_depth_exchanged,
  bounds_exchanged,
  bed_size,
  diameter_as_radius,
  uncertainty_scale,  // a percentage, or a decade off
};

// "sign of x", "axes swapped", ...
const char* word(Mistake mistake);

// A single mistake that would account for failing points: a hypothesis.
struct MistakeFound {
  Mistake mistake = Mistake::sign_of_x;
  std::size_t fixes = 0;   // of the points that fail, those that would be reachable
  std::size_t of = 0;      // points that fail
  std::size_t breaks = 0;  // points that are reachable, and would fail or be left out
  bool of_observed =
      false;  // nothing fails: these are observations that the numbers do not explain
  bool of_left_out = false;  // nothing fails: these are points that the grid leaves out
  Changes changes;
  Setup changed;
  // Of all that would account for what is asked and stated: the other mistakes, and that the
  // request is simply too large. From kLikely on it is called likely, where it accounts for all of
  // it and breaks nothing.
  double probability = 0;
  bool likely = false;

  static constexpr double kLikely = 0.9;
};

// What somebody can look at without moving anything by power.
enum class QuestionKind { probe_sideways, probe_lengthways, zero, travel, margins, numbers };

// What may be seen: two answers to each question, in their order.
enum class Answer {
  probe_left,
  probe_right,
  probe_front,
  probe_behind,
  zero_at_corner,
  zero_at_centre,
  travel_goes_further,  // past the edge of the bed, on some side
  travel_ends_with_bed,
  margins_from_bed,
  margins_from_travel,
  numbers_for_probe,
  numbers_for_nozzle,
};

// "probe-left", ...
const char* word(Answer answer);

// All of them, in their order.
const std::vector<Answer>& all_answers();

// The two answers to one question; nothing where no question has both.
std::optional<std::pair<Answer, Answer>> contradicting(const std::vector<Answer>& answers);

// The best explanation that `explain` has with an answer: a mistake, or that too much is asked for.
struct PossibleAnswer {
  Answer answer = Answer::probe_left;
  std::optional<Mistake> mistake;
  double probability = 0;
};

struct Question {
  QuestionKind kind = QuestionKind::probe_sideways;
  std::vector<PossibleAnswer> answers;
};

// What a controller did when it was told to probe a point: refuse it, or not. A place of the grid
// (column and row from 1), else a named point or kHomeIndex, else a position that is meant for
// `frame`.
struct Observed {
  std::int32_t column = 0;
  std::int32_t row = 0;
  std::optional<std::int32_t> name_index;
  Point at;
  Frame frame = Frame::probe;
  bool accepted = false;
};

// An answer that is not as the setup has it.
struct Contradicted {
  Answer seen = Answer::probe_left;
  Answer stated = Answer::probe_right;
};

// Two of them of one position that was both refused and accepted, by their indices; nothing where
// there are none. REQUIRES: places that are asked for.
std::optional<std::pair<std::size_t, std::size_t>> contradicting(
    const std::vector<Observed>& observed, const Setup& setup);

struct Remedy {
  // In the order in which they are told: the smallest change first.
  enum class Parameter {
    one_side,
    home,
    offset_uncertainty,
    edge_distance,
    fewer_points,
    margins,
    bounds,
    offset,
    travel,
    bed,
  };
  Parameter parameter = Parameter::margins;
  Changes changes;
  std::size_t still_failing = 0;  // points that are not of the mesh, and that it cannot remedy
  // Parameter::travel and bed: how much further it would have to go on each side.
  UncoveredStrips further;
  std::size_t blocked_moves = 0;  // with it; 0 where moves are not judged
};

// "margins", "bounds", "offset", ...
const char* word(Remedy::Parameter parameter);

// Remedies cost most of the time: each is a search of its own, some run `fit`.
struct ExplainOptions {
  bool remedies = true;
  // What has been looked at already, and what the controller did. REQUIRES: nothing contradicting,
  // places that are asked for. What is said twice counts once.
  std::vector<Answer> answers;
  std::vector<Observed> observed;
  std::optional<Setup> before;  // what the setup was: what its changes did is told as well
  Progress progress;
};

// What a setup was before it was changed, and what that did. Points are compared place by place;
// where the grid has other columns or rows, only how many fail.
struct ChangedSince {
  Setup before;
  std::size_t points = 0;   // asked for before
  std::size_t failing = 0;  // of these
  std::size_t repaired = 0;
  std::size_t broken = 0;
};

struct ExplainResult {
  CheckResult check;
  std::optional<ChangedSince> since;  // with ExplainOptions::before
  std::vector<Contradicted> contradicted;
  std::vector<FailingGroup> groups;    // the largest shortfall first
  std::vector<MistakeFound> mistakes;  // best first, at most kMostMistakes
  // The probability that the numbers are right and more is asked for than the probe reaches. What
  // is left of 1 after this and the mistakes shown is for other mistakes.
  double asked_too_much = 0;
  std::optional<Question> question;   // whose answer would tell most
  std::vector<Remedy> remedies;       // each verified by running the check
  std::vector<std::size_t> tightest;  // points, when all are reachable: up to three

  static constexpr std::size_t kMostMistakes = 3;
};

// Throws as check and fit do, and Stopped (progress.h).
//
//   const ExplainResult result = explain(Rig(setup));
//   for (const FailingGroup& group : result.groups) ...  // empty when all are reachable
ExplainResult explain(const Rig& rig, const ExplainOptions& options = {});

}  // namespace leeway
