#include "geometry/areas/contour.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "geometry/plane/vector.h"

namespace leeway {
namespace {

std::vector<double> values_of(const Steps& x, const Steps& y, double (*f)(double, double)) {
  std::vector<double> values;
  for (int k = 0; k < y.count; ++k) {
    for (int i = 0; i < x.count; ++i) values.push_back(f(x.at(i), y.at(k)));
  }
  return values;
}

double length(const std::vector<Point>& line) {
  double sum = 0;
  for (std::size_t i = 1; i < line.size(); ++i) sum += distance(line[i - 1], line[i]);
  return sum;
}

TEST(Contour, OfAPlaneIsOneStraightLine) {
  const Steps x{0, 10, 11};
  const Steps y{0, 20, 5};
  const auto lines = contour_lines(x, y, values_of(x, y, [](double u, double) { return u; }), 3.25);
  ASSERT_EQ(lines.size(), 1u);
  for (const Point p : lines[0]) EXPECT_DOUBLE_EQ(p.x, 3.25);
  EXPECT_DOUBLE_EQ(length(lines[0]), 20);
}

TEST(Contour, OfAConeIsACircleThatCloses) {
  const Steps x{-12, 12, 97};
  const auto lines =
      contour_lines(x, x, values_of(x, x, [](double u, double v) { return std::hypot(u, v); }), 9);
  ASSERT_EQ(lines.size(), 1u);
  EXPECT_EQ(lines[0].front(), lines[0].back());
  EXPECT_NEAR(length(lines[0]), 2 * std::numbers::pi * 9, 0.05);
  for (const Point p : lines[0]) EXPECT_NEAR(norm(p), 9, 0.01);
}

// Two hills: below the saddle one line around both, above it one around each.
TEST(Contour, OfTwoHillsPartsAtTheSaddle) {
  const Steps x{-6, 6, 61};
  const auto hills = values_of(x, x, [](double u, double v) {
    return std::exp(-(u - 2) * (u - 2) - v * v) + std::exp(-(u + 2) * (u + 2) - v * v);
  });
  EXPECT_EQ(contour_lines(x, x, hills, 0.02).size(), 1u);
  EXPECT_EQ(contour_lines(x, x, hills, 0.5).size(), 2u);
  EXPECT_TRUE(contour_lines(x, x, hills, 5).empty());
}

TEST(Contour, TwoWaysThroughACellAreDecidedByItsMean) {
  const Steps x{0, 1, 2};
  const std::vector<double> values{1, 0, 0, 1};  // high at the lower left and the upper right
  const auto apart = contour_lines(x, x, values, 0.6);
  const auto joined = contour_lines(x, x, values, 0.4);
  ASSERT_EQ(apart.size(), 2u);
  ASSERT_EQ(joined.size(), 2u);
  // Above the mean the high corners are cut off, each by a line about it.
  EXPECT_LT(distance(0.5 * (apart[0].front() + apart[0].back()), {0, 0}), 0.5);
  EXPECT_GT(distance(0.5 * (joined[0].front() + joined[0].back()), {0, 0}), 0.5);
}

}  // namespace
}  // namespace leeway
