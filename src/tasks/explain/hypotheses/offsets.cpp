// Signs and axes of the offset; one that was never entered, or is another part's.

#include "tasks/explain/hypotheses/mistake_table.h"

#include <cmath>
#include <numbers>

namespace leeway {
namespace {

void signs_and_axes(Trials& trials) {
  const Point o = trials.setup().probe.offset;
  if (o.x != 0) trials.add_offset(Mistake::sign_of_x, {-o.x, o.y});
  if (o.y != 0) trials.add_offset(Mistake::sign_of_y, {o.x, -o.y});
  if (o.x != 0 && o.y != 0) trials.add_offset(Mistake::both_signs, -o);
  if (std::abs(o.x) == std::abs(o.y)) return;
  trials.add_offset(Mistake::axes_swapped, {o.y, o.x});
  // Who stands at a side takes right for the back, or for the front.
  trials.add_offset(Mistake::axes_from_side, {o.y, -o.x}, 0.5);
  trials.add_offset(Mistake::axes_from_side, {-o.y, o.x}, 0.5);
}

// Places all round, each for as much of the plane as is nearest to it, in mm2.
template <typename Visit>
void places_around(double nearest, double farthest, const Visit& visit) {
  constexpr int kDirections = 24;
  constexpr double kRing = 5;
  for (double by = nearest; by <= farthest; by += kRing) {
    const double area = 2 * std::numbers::pi * by * kRing / kDirections;
    for (int i = 0; i < kDirections; ++i) {
      const double angle = 2 * std::numbers::pi * i / kDirections;
      visit(Point{std::round(by * std::cos(angle)), std::round(by * std::sin(angle))}, area);
    }
  }
}

// 0, 0, or twice the same small number, as examples have it.
void never_entered(Trials& trials) {
  const Point o = trials.setup().probe.offset;
  const double small = std::max(std::abs(o.x), std::abs(o.y));
  if (small > 10 || std::abs(o.x) != std::abs(o.y)) return;
  const double as_often = small == 0 ? 0.8 : 0.02;
  places_around(12, 67, [&](Point at, double area) {
    trials.add_offset(Mistake::offset_left_at_zero, at, as_often * area, Unknown::offset);
  });
}

// Off by as much as parts of a head are apart: any such way, with the same chance.
void of_another_part(Trials& trials) {
  const Point o = trials.setup().probe.offset;
  if (o == Point{0, 0}) return;
  constexpr double kFarthest = 42;
  places_around(7, kFarthest, [&](Point by, double area) {
    trials.add_offset(Mistake::offset_elsewhere, o + by,
                      area / (std::numbers::pi * kFarthest * kFarthest), Unknown::nothing);
  });
}

}  // namespace

void add_offsets(Trials& trials) {
  signs_and_axes(trials);
  never_entered(trials);
  of_another_part(trials);
}

}  // namespace leeway
