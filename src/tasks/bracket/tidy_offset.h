#pragma once
// Offsets that somebody would write down.

#include <algorithm>
#include <cmath>
#include <optional>
#include <vector>

#include "model/limits/ticks.h"

namespace leeway {

// Of the offsets around `place`, in hundredths or, where none of those will do, in thousandths, the
// first in an order that will do; else the place itself, if that does.
template <typename Order, typename WillDo>
std::optional<Point> tidy_offset(Point place, const Order& before, const WillDo& will_do) {
  struct Search {
    double step;
    int around;
  };
  const auto to_step = [](double mm, double step) {
    return rounded_to_ticks(std::round(mm / step) * step);
  };
  // The last one for corners so sharp that there is nothing near their tip.
  for (const auto& [step, around] : {Search{0.01, 2}, Search{0.001, 2}, Search{0.01, 40}}) {
    std::vector<Point> near;
    for (int i = -around; i <= around; ++i) {
      for (int k = -around; k <= around; ++k) {
        near.push_back({to_step(place.x + i * step, step), to_step(place.y + k * step, step)});
      }
    }
    std::stable_sort(near.begin(), near.end(), before);
    for (const Point offset : near) {
      if (will_do(offset)) return offset;
    }
  }
  const Point as_it_is = rounded_to_ticks(place);
  if (will_do(as_it_is)) return as_it_is;
  return std::nullopt;
}

}  // namespace leeway
