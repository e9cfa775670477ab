// Poles of inaccessibility against incircles known in closed form: r = area / semiperimeter
// (Euclid, Elements IV.4; Heron's formula), r = a sqrt(3) / 6 for the equilateral triangle,
// the apothem of a regular hexagon, half the width of a ring.

#include "geometry/areas/pole.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "geometry/plane/vector.h"

namespace leeway {
namespace {

Ring regular(int n, double radius, Point centre = {}) {
  Ring ring;
  for (int i = 0; i < n; ++i) {
    const double angle = 2 * std::numbers::pi * i / n;
    ring.push_back(centre + radius * Point{std::cos(angle), std::sin(angle)});
  }
  return ring;
}

void expect_pole(const MultiPolygon& region, double radius, std::optional<Point> centre = {}) {
  for (const double tolerance : {0.01, 1e-5}) {
    const std::optional<Pole> pole = pole_of_inaccessibility(region, tolerance);
    ASSERT_TRUE(pole);
    EXPECT_LE(pole->distance, radius + 1e-9);
    EXPECT_GE(pole->distance, radius - tolerance);
    if (centre && tolerance < 1e-4) {
      EXPECT_NEAR(distance(pole->at, *centre), 0, 1e-3);
    }
  }
}

TEST(Pole, IncircleOfThe345Triangle) { expect_pole({{{{0, 0}, {4, 0}, {0, 3}}, {}}}, 1, {{1, 1}}); }

// Area 84, semiperimeter 21; the foot of the altitude 12 divides the side 14 into 5 and 9, and the
// tangent point is s - 15 = 6 from the first corner.
TEST(Pole, IncircleOfThe131415Triangle) {
  expect_pole({{{{0, 0}, {14, 0}, {5, 12}}, {}}}, 4, {{6, 4}});
}

TEST(Pole, IncircleOfTheEquilateralTriangle) {
  expect_pole({{regular(3, 10), {}}}, 5, {{0, 0}});  // half the circumradius
}

TEST(Pole, ApothemOfTheHexagon) {
  expect_pole({{regular(6, 20, {30, -4}), {}}}, 20 * std::sqrt(3.0) / 2, {{30, -4}});
}

TEST(Pole, HalfTheWidthOfARing) {
  // A hole that is a polygon around its circle leaves a little less.
  const int n = 360;
  const double across = std::cos(std::numbers::pi / n);
  const std::optional<Pole> pole =
      pole_of_inaccessibility({{regular(n, 100), {regular(n, 40 / across)}}}, 1e-3);
  ASSERT_TRUE(pole);
  EXPECT_NEAR(pole->distance, 30, 0.01);
  EXPECT_NEAR(norm(pole->at), 70, 0.02);
}

TEST(Pole, TakesTheLargerOfTwoParts) {
  expect_pole({{{{0, 0}, {10, 0}, {10, 10}, {0, 10}}, {}},
               {{{100, 0}, {112, 0}, {112, 12}, {100, 12}}, {}}},
              6, {{106, 6}});
}

TEST(Pole, OfNothingIsNothing) { EXPECT_FALSE(pole_of_inaccessibility({})); }

double from_rectangle(Point p) { return std::min({p.x - 20, 80 - p.x, p.y - 10, 50 - p.y}); }

TEST(NearestWith, IsWhereItShouldBe) {
  const Box box{0, 100, 0, 100};
  const auto inside = nearest_with(box, from_rectangle, 5, {50, 30}, 0.01);
  ASSERT_TRUE(inside);
  EXPECT_EQ(*inside, (Point{50, 30}));
  const auto beside = nearest_with(box, from_rectangle, 5, {50, 90}, 0.01);
  ASSERT_TRUE(beside);
  EXPECT_GE(from_rectangle(*beside), 5);
  EXPECT_NEAR(distance(*beside, {50, 90}), 45, 0.01);
  const auto corner = nearest_with(box, from_rectangle, 5, {3, 3}, 0.01);
  ASSERT_TRUE(corner);
  EXPECT_GE(from_rectangle(*corner), 5);
  EXPECT_NEAR(distance(*corner, {3, 3}), std::hypot(22, 12), 0.01);
  EXPECT_FALSE(nearest_with(box, from_rectangle, 20.1, {50, 30}, 0.01));
}

}  // namespace
}  // namespace leeway
