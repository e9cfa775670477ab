#pragma once
// Seeded chance: the same numbers with every library.

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <random>

namespace leeway {

class Rolls {
 public:
  explicit Rolls(std::uint64_t seed) : engine_(seed * 0x9E3779B97F4A7C15u + 1) {}

  int below(int n) { return static_cast<int>(engine_() % static_cast<std::uint64_t>(n)); }
  bool percent(int share) { return below(100) < share; }
  double sign() { return percent(50) ? -1 : 1; }
  double unit() { return static_cast<double>(engine_() >> 11) / 9007199254740992.0; }
  // A multiple of `step` in [low, high].
  double of(double low, double high, double step) {
    const int steps = std::max(0, static_cast<int>(std::floor((high - low) / step + 1e-9)));
    return std::round((low + step * below(steps + 1)) * 1000) / 1000;
  }
  // Small numbers as often as large ones: uniform in the logarithm, a multiple of `step`.
  double log_of(double low, double high, double step) {
    return std::round(low * std::pow(high / low, unit()) / step) * step;
  }

 private:
  std::mt19937_64 engine_;
};

}  // namespace leeway
