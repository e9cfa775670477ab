// Margins counted from something else, exchanged, forgotten or halved.

#include "tasks/explain/hypotheses/mistake_table.h"

#include <array>
#include <cmath>

#include "model/limits/ticks.h"

namespace leeway {
namespace {

constexpr GridSide kGridSides[] = {GridSide::left, GridSide::right, GridSide::front,
                                   GridSide::back};

std::array<double, 4> numbers(const Margins& m) { return {m.left, m.right, m.front, m.back}; }

void other_base(Trials& trials, const Margins& margins) {
  const bool from_travel = margins.from == Margins::From::travel;
  trials.add(from_travel ? Mistake::margins_from_travel : Mistake::margins_from_bed,
             {GridMarginsFrom{from_travel ? Margins::From::bed : Margins::From::travel}});
}

void exchanged(Trials& trials, const Margins& margins) {
  if (margins.left != margins.right) {
    trials.add(Mistake::margins_exchanged, {GridMargin{GridSide::left, margins.right},
                                            GridMargin{GridSide::right, margins.left}});
  }
  if (margins.front != margins.back) {
    trials.add(Mistake::margins_exchanged, {GridMargin{GridSide::front, margins.back},
                                            GridMargin{GridSide::back, margins.front}});
  }
}

// A side without margin lacks it; which it was is not known: that of another side, or a usual one.
// A small one may be half of what was meant.
void one_of_them(Trials& trials, const Margins& margins) {
  const std::array<double, 4> sides = numbers(margins);
  for (std::size_t i = 0; i < sides.size(); ++i) {
    if (sides[i] == 0) {
      for (double meant = 5; meant <= 60; meant += 5) {
        trials.add(Mistake::one_margin, {GridMargin{kGridSides[i], meant}}, 5);
      }
    } else {
      trials.add(Mistake::one_margin, {GridMargin{kGridSides[i], 2 * sides[i]}}, 0.2);
    }
  }
}

}  // namespace

void add_margins(Trials& trials) {
  const Margins* margins = trials.margins();
  if (margins == nullptr) return;
  other_base(trials, *margins);
  exchanged(trials, *margins);
  one_of_them(trials, *margins);
}

}  // namespace leeway
