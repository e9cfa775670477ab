#include "geometry/spread.h"

namespace leeway {

double Spread::within_disc(Point v) const {
  if (same_all_round()) return most();
  const double length = std::sqrt(v.x * v.x + v.y * v.y);
  if (length <= kNoise) return most();
  const auto reach = [&](double angle) {
    const Point m{std::cos(angle), std::sin(angle)};
    return v.x * m.x + v.y * m.y + along(m);
  };
  // The function has at most a few tops: look around, then close in on the best.
  constexpr int kLooks = 72;
  constexpr double kStep = 6.28318530717958648 / kLooks;
  double best = std::atan2(v.y, v.x);
  double most_reach = reach(best);
  for (int i = 0; i < kLooks; ++i) {
    if (const double here = reach(i * kStep); here > most_reach) {
      most_reach = here;
      best = i * kStep;
    }
  }
  double low = best - kStep;
  double high = best + kStep;
  for (int i = 0; i < 40; ++i) {
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
