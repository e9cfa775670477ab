#include "geometry/spread.h"

#include <array>

namespace leeway {
namespace {

constexpr int kLooks = 72;
constexpr double kStep = 6.28318530717958648 / kLooks;

Point direction(double angle) { return {std::cos(angle), std::sin(angle)}; }

std::array<Point, kLooks> make_looks() {
  std::array<Point, kLooks> looks;
  for (int i = 0; i < kLooks; ++i) looks[static_cast<std::size_t>(i)] = direction(i * kStep);
  return looks;
}

}  // namespace

double Spread::within_disc(Point v) const {
  if (same_all_round()) return most();
  const double length = std::sqrt(v.x * v.x + v.y * v.y);
  if (length <= kNoise) return most();
  static const std::array<Point, kLooks> looks = make_looks();
  const auto reach_along = [&](Point m) { return v.x * m.x + v.y * m.y + along(m); };
  const auto reach = [&](double angle) { return reach_along(direction(angle)); };
  // The function has at most a few tops: look around, then close in on the best.
  double best = std::atan2(v.y, v.x);
  double most_reach = reach(best);
  for (int i = 0; i < kLooks; ++i) {
    if (const double here = reach_along(looks[static_cast<std::size_t>(i)]); here > most_reach) {
      most_reach = here;
      best = i * kStep;
    }
  }
  double low = best - kStep;
  double high = best + kStep;
  // The top is flat: an angle off by d costs the length times d^2 / 2. After 28 times d is 1e-6.
  for (int i = 0; i < 28; ++i) {
    const double third = (high - low) / 3;
    if (reach(low + third) >= reach(high - third)) {
      high -= third;
    } else {
      low += third;
    }
  }
  return std::max({most_reach, reach((low + high) / 2)}) - length;
}

}  // namespace leeway
