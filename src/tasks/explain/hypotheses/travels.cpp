// The travel given as the bed, as the area that is printed on, or with one of its ends wrong.

#include "tasks/explain/hypotheses/mistake_table.h"

#include <algorithm>
#include <cmath>

#include "model/limits/ticks.h"
#include "tasks/explain/weigh/machine_likelihood.h"
#include "tasks/explain/weigh/reach.h"

namespace leeway {
namespace {

bool about(double a, double b) { return std::abs(a - b) < 0.5; }  // mm

bool same(const Box& a, const Box& b) {
  return about(a.x0, b.x0) && about(a.x1, b.x1) && about(a.y0, b.y0) && about(a.y1, b.y1);
}

bool inside(const Box& a, const Box& b) {
  return a.x0 >= b.x0 && a.x1 <= b.x1 && a.y0 >= b.y0 && a.y1 <= b.y1;
}

// Further on the sides that fail, by what is lacking and then some: how far is not known. Each
// guess stands for a range, in mm, of each such side. How far the others go may not be known
// either: `of_other_sides` is what each of them is worth then.
void longer(Trials& trials, Mistake mistake, const Box& travel, double share,
            double of_other_sides) {
  Setup at_least = trials.setup();
  at_least.machine.travel = travel;
  const Sides short_by = lacking_travel(at_least);
  struct Guess {
    double more, stands_for;
  };
  for (const Guess& guess : {Guess{1, 2}, {4, 4}, {9, 7}, {18, 10}, {32, 20}}) {
    Box to = travel;
    double weight = share;
    const auto push = [&](double lacking, double& end, double way) {
      if (lacking <= 0) {
        weight *= of_other_sides;
        return;
      }
      end = rounded_to_ticks(end + way * (std::ceil(lacking) - 1 + guess.more));
      weight *= guess.stands_for;
    };
    push(short_by.left, to.x0, -1);
    push(short_by.right, to.x1, 1);
    push(short_by.front, to.y0, -1);
    push(short_by.back, to.y1, 1);
    // Where only the travel itself does, it is the bed: no guess.
    const bool no_guess = to == travel;
    trials.add(mistake, {TravelShape{to}}, weight, no_guess ? Unknown::nothing : Unknown::travel);
    if (no_guess) return;
  }
}

void ends(Trials& trials) {
  const Box* stated = std::get_if<Box>(&trials.setup().machine.travel);
  if (stated == nullptr) return;
  const Box t = *stated;
  const auto add_box = [&](Mistake mistake, const Box& box) {
    if (!box.empty()) trials.add(mistake, {TravelShape{box}});
  };
  // The end was written where a size was asked, or a size where the end was.
  for (const double way : {-1.0, 1.0}) {
    add_box(Mistake::travel_size_as_end, {t.x0, t.x1 + way * t.x0, t.y0, t.y1 + way * t.y0});
    if (t.x0 != 0 && t.y0 != 0) {
      add_box(Mistake::travel_size_as_end, {t.x0, t.x1 + way * t.x0, t.y0, t.y1});
      add_box(Mistake::travel_size_as_end, {t.x0, t.x1, t.y0, t.y1 + way * t.y0});
    }
  }
}

// Travel that begins at 0 may begin before: by how much is not known.
void negative_end(Trials& trials) {
  const Box* stated = std::get_if<Box>(&trials.setup().machine.travel);
  if (stated == nullptr) return;
  const Sides short_by = lacking_travel(trials.setup());
  const bool x = stated->x0 == 0 && short_by.left > 0;
  const bool y = stated->y0 == 0 && short_by.front > 0;
  if (!x && !y) return;
  struct Guess {
    double more, stands_for;
  };
  for (const Guess& guess : {Guess{1, 2}, {4, 4}, {9, 7}, {18, 10}}) {
    Box to = *stated;
    double weight = 1;
    if (x) to.x0 = -(std::ceil(short_by.left) - 1 + guess.more), weight *= guess.stands_for;
    if (y) to.y0 = -(std::ceil(short_by.front) - 1 + guess.more), weight *= guess.stands_for;
    trials.add(Mistake::travel_begins_at_zero, {TravelShape{to}}, weight, Unknown::travel);
  }
}

}  // namespace

void add_travels(Trials& trials) {
  const Box bed = trials.bed();
  const Box travel = trials.travel();
  if (same(bed, travel)) {
    longer(trials, Mistake::travel_equals_bed, bed, 1, 1 / kShareEndsWithBed);
  } else if (inside(travel, bed)) {
    const bool even = about(travel.x0 - bed.x0, bed.x1 - travel.x1) &&
                      about(travel.y0 - bed.y0, bed.y1 - travel.y1);
    longer(trials, Mistake::print_area_as_travel, bed, even ? 1e-2 : 1e-5, 1);
  } else if (inside(bed, travel)) {
    // What was stated instead is anybody's guess, as travels are.
    const double as_stated = std::exp(log_travel(trials.setup().machine, Unknown::nothing));
    trials.add(Mistake::travel_beyond_bed, {TravelShape{trials.setup().machine.bed}}, as_stated);
  }
  ends(trials);
  negative_end(trials);
}

}  // namespace leeway
