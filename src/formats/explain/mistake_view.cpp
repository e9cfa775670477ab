#include "formats/explain/mistake_view.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "formats/text/change_text.h"
#include "formats/text/numbers.h"
#include "formats/text/words.h"
#include "geometry/plane/assert.h"

namespace leeway {

std::string chance_words(double probability) {
  const double whole = std::round(100 * probability);
  return whole >= 100 ? "over 99 %" : whole < 1 ? "under 1 %" : fmt::format("{:.0f} %", whole);
}

namespace {

bool changes_offset(const MistakeFound& mistake) {
  return changes_any<ProbeOffset>(mistake.changes);
}
bool changes_bed(const MistakeFound& mistake) { return changes_any<BedShape>(mistake.changes); }
bool changes_travel(const MistakeFound& mistake) {
  return changes_any<TravelShape>(mistake.changes);
}

void say_machine(const MistakeFound& mistake, const Setup& setup, std::vector<std::string>& parts) {
  const Setup& changed = mistake.changed;
  const auto instead = [&](const char* what, const std::string& to, const std::string& from) {
    parts.push_back(fmt::format("{} {} instead of {}", what, to, from));
  };
  if (changes_offset(mistake)) {
    instead("offset", pair(changed.probe.offset), pair(setup.probe.offset));
  }
  if (changes_bed(mistake)) {
    instead("bed", shape_words(changed.machine.bed), shape_words(setup.machine.bed));
  }
  if (changes_travel(mistake)) {
    instead("travel", shape_words(changed.machine.travel), shape_words(setup.machine.travel));
  }
  if (changes_any<SpotShape>(mistake.changes)) {
    instead("sensing area", shape_words(changed.probe.spot), shape_words(setup.probe.spot));
  }
  if (changes_any<OffsetUncertainty>(mistake.changes)) {
    instead("uncertainty of the offset", pair(changed.probe.offset_uncertainty),
            pair(setup.probe.offset_uncertainty));
  }
  if (changes_any<BedUncertainty>(mistake.changes)) {
    instead("uncertainty of the bed", decimal(changed.machine.bed_uncertainty),
            decimal(setup.machine.bed_uncertainty));
  }
  if (changes_any<TravelUncertainty>(mistake.changes)) {
    instead("uncertainty of the travel", decimal(changed.machine.travel_uncertainty),
            decimal(setup.machine.travel_uncertainty));
  }
}

const char* whose(Frame frame) { return frame == Frame::probe ? "probe" : "nozzle"; }

void say_grid(const MistakeFound& mistake, const Setup& setup, std::vector<std::string>& parts) {
  const std::optional<Grid>& grid = mistake.changed.request.grid;
  if (!grid || !setup.request.grid) return;
  const Grid& before = *setup.request.grid;
  if (grid->columns != before.columns || grid->rows != before.rows) {
    parts.push_back(fmt::format("{} columns and {} rows instead of {} and {}", grid->columns,
                                grid->rows, before.columns, before.rows));
  }
  if (!(grid->extent == before.extent)) {
    const Box box = grid_bounds(*grid, mistake.changed.machine);
    parts.push_back(fmt::format("a grid over {}", shape_words(box)));
  }
  if (grid->frame != before.frame) {
    parts.push_back(fmt::format("the grid's numbers taken for the {}", whose(grid->frame)));
  }
}

// "offset 38.5, 12 instead of -38.5, 12"
std::string change_words(const MistakeFound& mistake, const Setup& setup) {
  std::vector<std::string> parts;
  say_machine(mistake, setup, parts);
  say_grid(mistake, setup, parts);
  if (changes_any<HomeFrame>(mistake.changes)) {
    parts.push_back(fmt::format("the homing point taken for the {}",
                                whose(mistake.changed.request.home->frame)));
  }
  if (parts.empty()) parts.push_back("the points' numbers taken otherwise");
  return joined(parts);
}

// Whether the number is a guess of ours that works, not one that follows from those stated.
bool is_example(Mistake mistake) {
  switch (mistake) {
    case Mistake::travel_equals_bed:
    case Mistake::print_area_as_travel:
    case Mistake::travel_begins_at_zero:
    case Mistake::offset_left_at_zero:
    case Mistake::offset_elsewhere:
    case Mistake::one_margin:
    case Mistake::bed_size:
      return true;
    default:
      return false;
  }
}

std::string origin_words(Mistake mistake) {
  return mistake == Mistake::origin_at_centre
             ? "The machine's origin may be at the centre of the bed, "
               "and some numbers counted from "
               "its corner"
             : "The machine's origin may be at a corner of the bed, "
               "and some numbers counted from "
               "its centre";
}

// Whether what is changed becomes larger.
bool is_larger(const MistakeFound& mistake, const Setup& setup) {
  const auto size = [](const Setup& s) {
    const auto ends = [](const Box& b) {
      return std::abs(b.x0) + std::abs(b.x1) + std::abs(b.y0) + std::abs(b.y1);
    };
    double sum = std::abs(s.probe.offset.x) + std::abs(s.probe.offset.y) +
                 ends(bounding_box(s.machine.bed)) + ends(bounding_box(s.machine.travel));
    if (!s.request.grid) return sum;
    if (const Margins* m = std::get_if<Margins>(&s.request.grid->extent)) {
      return sum + m->left + m->right + m->front + m->back;
    }
    return sum + ends(std::get<Box>(s.request.grid->extent));
  };
  return size(mistake.changed) > size(setup);
}

// The supposition alone, with capital.
std::string supposition(const MistakeFound& mistake, const Setup& setup) {
  switch (mistake.mistake) {
    case Mistake::sign_of_x:
      return "The sign of the offset in x may be the wrong one";
    case Mistake::sign_of_y:
      return "The sign of the offset in y may be the wrong one";
    case Mistake::both_signs:
      return "Both signs of the offset may be the wrong ones (as if counted from probe to nozzle)";
    case Mistake::axes_swapped:
      return "The two numbers of the offset may have changed places";
    case Mistake::frame:
      return "Numbers for the probe and numbers for the nozzle may have been mixed up";
    case Mistake::margins_from_travel:
      return "The margins may be meant from the edges of the bed, not from the ends of the "
             "travel";
    case Mistake::margins_from_bed:
      return "The margins may be meant from the ends of the travel, not from the edges of the "
             "bed";
    case Mistake::origin_at_centre:
    case Mistake::origin_at_corner:
      return origin_words(mistake.mistake);
    case Mistake::travel_equals_bed:
      return "The travel is given as the size of the bed; the machine may go further";
    case Mistake::travel_beyond_bed:
      return "The travel is given as larger than the bed; it may end with the bed";
    case Mistake::offset_left_at_zero:
      return "The offset is 0, 0; it may never have been filled in";
    case Mistake::inches:
      return is_larger(mistake, setup)
                 ? "A number may be in inches"
                 : "A number may have been turned from inches into mm though it was in mm";
    case Mistake::decimal_point:
      return "A decimal point may be in the wrong place";
    case Mistake::columns_and_rows_exchanged:
      return "Columns and rows may have changed places";
    case Mistake::axes_from_side:
      return "The offset may be given as seen from a side of the machine, with left and right "
             "taken for front and back";
    case Mistake::home_frame:
      return "The homing point may be given for the probe where it was taken for the nozzle, or "
             "the other way round";
    case Mistake::margins_exchanged:
      return "Two margins may have changed places";
    case Mistake::one_margin:
      return "A margin may have been forgotten, or halved";
    case Mistake::counted_from_back:
      return "Y may have been counted from the back";
    case Mistake::print_area_as_travel:
      return "The travel may be given as the area that is printed on; the machine may go further";
    case Mistake::travel_begins_at_zero:
      return "The travel is given as beginning at 0; it may begin before, at a negative number";
    case Mistake::travel_size_as_end:
      return "The travel may be given by its size where its end was asked, or the other way round";
    case Mistake::offset_elsewhere:
      return "The offset may have been measured from another part of the head than the nozzle, or "
             "to another place than where the probe senses";
    case Mistake::bounds_exchanged:
      return "The x and the y of the bounds may have changed places";
    case Mistake::bed_size:
      return "The bed may be stated too small or too large";
    case Mistake::diameter_as_radius:
      return "The diameter of the sensing area may be given as its radius";
    case Mistake::uncertainty_scale:
      return "An uncertainty may be given ten or a hundred times too large (as a percentage, say)";
    case Mistake::width_and_depth_exchanged:
      break;
  }
  return "Width and depth may have changed places";
}

bool by_observed(const ExplainResult& result) {
  return !result.mistakes.empty() && result.mistakes.front().of_observed;
}

}  // namespace

bool nothing_stands_out(const ExplainResult& result) {
  if (result.mistakes.empty()) return false;
  return std::max(result.asked_too_much, result.mistakes.front().probability) < kStandsOut;
}

std::string nothing_stands_out_sentence() {
  return "Nothing that we know stands out as the reason.";
}

bool too_much_first(const ExplainResult& result) {
  return result.mistakes.empty() || result.asked_too_much >= result.mistakes.front().probability;
}

std::string too_much_sentence(const ExplainResult& result) {
  constexpr double kLeastWorthSaying = 0.05;
  const double p = result.asked_too_much;
  const char* what = by_observed(result)
                         ? "the numbers are right, and what was seen has another reason."
                     : result.groups.empty()
                         ? "the numbers are right, and the grid is meant to stick out of the bed."
                     : result.contradicted.empty()
                         ? "the numbers are right, and more is asked for than the probe reaches."
                         : "the numbers are right, what was seen is not so, and more is asked for "
                           "than the probe reaches.";
  const bool nothing_weighed = result.groups.empty() && result.mistakes.empty();
  if (p < kLeastWorthSaying || nothing_weighed) return "";
  if (p >= MistakeFound::kLikely) return fmt::format("Likely ({}): {}", chance_words(p), what);
  if (too_much_first(result)) {
    const char* how = p >= 0.5 ? "Most probably" : "Perhaps";
    return fmt::format("{} ({}): {}", how, chance_words(p), what);
  }
  return fmt::format("Or else ({}): {}", chance_words(p), what);
}

namespace {

std::string all_failing(std::size_t n) {
  return n == 1   ? "the point that fails would be reachable"
         : n == 2 ? "both points that fail would be reachable"
                  : fmt::format("all {} points that fail would be reachable", n);
}

// What undoing it would do, as a clause.
std::string effect_words(const MistakeFound& mistake) {
  if (mistake.of_observed) return "all would be as it was seen";
  if (mistake.of_left_out) {
    return "the grid would leave out no more points than the bed's shape explains";
  }
  const std::string repairs = mistake.fixes == mistake.of ? all_failing(mistake.of)
                              : mistake.fixes == 0
                                  ? "no point that fails would be reachable for that alone"
                                  : fmt::format("{} of the {} that fail would be reachable",
                                                mistake.fixes, counted(mistake.of, "point"));
  const char* rest =
      mistake.fixes > 0 && mistake.fixes < mistake.of ? "; the rest has another cause" : "";
  if (mistake.breaks == 0) return repairs + rest;
  return fmt::format("{}, but {} that {} reachable now would not be{}", repairs, mistake.breaks,
                     mistake.breaks == 1 ? "is" : "are", rest);
}

}  // namespace

std::string mistake_sentence(const MistakeFound& mistake, const Setup& setup) {
  return fmt::format("{} ({}): {}: with {}{}, {}.", mistake.likely ? "Likely" : "Perhaps",
                     chance_words(mistake.probability), supposition(mistake, setup),
                     change_words(mistake, setup), is_example(mistake.mistake) ? ", say" : "",
                     effect_words(mistake));
}

std::string mistakes_lead(const ExplainResult& result) {
  LEEWAY_ASSERT(!result.mistakes.empty());
  if (nothing_stands_out(result)) {
    return nothing_stands_out_sentence() +
           " What is least improbable (to be checked at the machine)";
  }
  const bool in_part = std::any_of(result.mistakes.begin(), result.mistakes.end(),
                                   [](const MistakeFound& m) { return m.fixes < m.of; });
  const char* what = in_part ? "it, or for a part of it" : "it";
  if (result.mistakes.size() == 1) {
    return fmt::format(
        "A mistake that would account for {} (a guess, to be checked at the machine)", what);
  }
  return fmt::format(
      "Mistakes that would account for {}, any one of them (guesses, to be checked at the machine)",
      what);
}

std::string no_mistake_sentence(const ExplainResult& result) {
  const std::string says = "No single mistake that we know repairs all of it.";
  // Where it is said that the numbers are right, and how sure that is, there is no more to say.
  return too_much_sentence(result).empty()
             ? says + " That does not show that the numbers are right."
             : says;
}

}  // namespace leeway
