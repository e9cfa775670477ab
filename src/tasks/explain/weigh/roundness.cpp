#include "tasks/explain/weigh/roundness.h"

#include <cmath>

namespace leeway {
namespace {

// Classes of numbers, the roundest first: multiples of a step that are in no class before. A class
// with `share` of all numbers that are written and `of_mm` of the numbers that could be, in each
// millimetre, has share / of_mm for each of its numbers.
struct RoundClass {
  double step;
  double chosen;
  double measured;
  double of_mm;
};
constexpr RoundClass kRoundClasses[] = {{10, 0.4, 0.15, 0.1},  {5, 0.22, 0.13, 0.1},
                                        {1, 0.25, 0.4, 0.8},   {0.5, 0.07, 0.15, 1},
                                        {0.1, 0.045, 0.13, 8}, {0.01, 0.01, 0.035, 90}};
constexpr double kFiner = 1e-5;

template <typename Share>
double log_of_class(double value, const Share& share) {
  for (const RoundClass& round : kRoundClasses) {
    const double steps = value / round.step;
    if (std::abs(steps - std::round(steps)) * round.step < 1e-4) {
      return std::log(share(round) / round.of_mm);
    }
  }
  return std::log(kFiner);
}

}  // namespace

double log_roundness(double value) {
  return log_of_class(value, [](const RoundClass& round) { return round.chosen; });
}

double log_measured_roundness(double value) {
  return log_of_class(value, [](const RoundClass& round) { return round.measured; });
}

}  // namespace leeway
