#pragma once

#include <algorithm>
#include <cmath>

namespace leeway {

// ln(e^a + e^b), of numbers whose powers may be too small to hold.
inline double log_sum(double a, double b) {
  const double most = std::max(a, b);
  return most + std::log(std::exp(a - most) + std::exp(b - most));
}

}  // namespace leeway
