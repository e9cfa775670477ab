#include "tasks/measure/statistics.h"

#include <algorithm>
#include <boost/math/distributions/students_t.hpp>
#include <cmath>
#include <limits>
#include <stdexcept>

#include "geometry/plane/assert.h"

namespace leeway {
namespace {

// In double throughout: long double would be prepared for at every start of the program, and is not
// the same everywhere.
using StudentsT = boost::math::students_t_distribution<
    double, boost::math::policies::policy<boost::math::policies::promote_double<false>>>;

// Neumaier's sum: what rounding loses is kept and added at the end.
template <typename Value>
double sum(std::size_t count, const Value& value) {
  double total = 0;
  double lost = 0;
  for (std::size_t i = 0; i < count; ++i) {
    const double next = value(i);
    const double now = total + next;
    lost += std::abs(total) >= std::abs(next) ? (total - now) + next : (next - now) + total;
    total = now;
  }
  return total + lost;
}

// The page's engine is built without Boost's own exceptions, which need streams and locales.
double computed(double value) {
  if (!std::isfinite(value)) throw std::domain_error("Student's t can't be computed");
  return value;
}

double square(double v) { return v * v; }

// The sum of products of deviations from the means, corrected for what rounding left of their sums
// (Chan, Golub and LeVeque, The American Statistician 37 (1983) 242-247).
double products(const std::vector<double>& a, const std::vector<double>& b) {
  const double mean_a = mean(a);
  const double mean_b = mean(b);
  const std::size_t n = a.size();
  const double all = sum(n, [&](std::size_t i) { return (a[i] - mean_a) * (b[i] - mean_b); });
  const double left_a = sum(n, [&](std::size_t i) { return a[i] - mean_a; });
  const double left_b = sum(n, [&](std::size_t i) { return b[i] - mean_b; });
  return all - left_a * left_b / static_cast<double>(n);
}

}  // namespace

double mean(const std::vector<double>& values) {
  LEEWAY_ASSERT(!values.empty());
  const auto n = static_cast<double>(values.size());
  const double first = sum(values.size(), [&](std::size_t i) { return values[i]; }) / n;
  return first + sum(values.size(), [&](std::size_t i) { return values[i] - first; }) / n;
}

double standard_deviation(const std::vector<double>& values) {
  LEEWAY_ASSERT(values.size() >= 2);
  return std::sqrt(std::max(0.0, products(values, values)) /
                   static_cast<double>(values.size() - 1));
}

double correlation(const std::vector<double>& a, const std::vector<double>& b) {
  LEEWAY_ASSERT(a.size() == b.size() && a.size() >= 2);
  const double both = std::sqrt(products(a, a)) * std::sqrt(products(b, b));
  if (!(both > 0)) return std::numeric_limits<double>::quiet_NaN();
  return std::clamp(products(a, b) / both, -1.0, 1.0);
}

double median(std::vector<double> values) {
  std::sort(values.begin(), values.end());
  const std::size_t half = values.size() / 2;
  return values.size() % 2 == 1 ? values[half] : (values[half - 1] + values[half]) / 2;
}

std::vector<double> modified_z_scores(const std::vector<double>& values, double least_scale) {
  const double middle = median(values);
  std::vector<double> away;
  for (const double v : values) away.push_back(std::abs(v - middle));
  double scale = median(away) / 0.6745;
  // Readings are decimals: what their differences lose in binary is no deviation.
  constexpr double kNothing = 1e-9;
  if (scale < kNothing) scale = 1.2533 * mean(away);
  scale = std::max(scale, least_scale);
  std::vector<double> scores(values.size(), 0.0);
  if (scale < kNothing) return scores;
  for (std::size_t i = 0; i < values.size(); ++i) scores[i] = (values[i] - middle) / scale;
  return scores;
}

Line fitted_line(const std::vector<double>& x, const std::vector<double>& y) {
  LEEWAY_ASSERT(x.size() == y.size() && x.size() >= 3);
  const double xx = products(x, x);
  LEEWAY_ASSERT(xx > 0);
  Line line;
  line.slope = products(x, y) / xx;
  line.intercept = mean(y) - line.slope * mean(x);
  line.degrees_of_freedom = static_cast<double>(x.size()) - 2;
  const double rest = sum(
      x.size(), [&](std::size_t i) { return square(y[i] - line.intercept - line.slope * x[i]); });
  line.slope_uncertainty = std::sqrt(rest / line.degrees_of_freedom / xx);
  // Readings are decimals: a rest of nothing but rounding is none.
  const double noise = 1e-9 / std::sqrt(xx);
  if (std::abs(line.slope) <= noise) return line;
  if (line.slope_uncertainty <= noise) {
    line.p = 0;
    return line;
  }
  const StudentsT distribution(line.degrees_of_freedom);
  const double t = std::abs(line.slope / line.slope_uncertainty);
  line.p = computed(2 * boost::math::cdf(boost::math::complement(distribution, t)));
  return line;
}

double t_factor(double probability, double degrees_of_freedom) {
  const StudentsT distribution(degrees_of_freedom);
  return computed(
      boost::math::quantile(boost::math::complement(distribution, (1 - probability) / 2)));
}

}  // namespace leeway
