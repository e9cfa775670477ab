#include "geometry/areas/area_sums.h"

#include <gtest/gtest.h>

#include <random>

#include "leeway/regions.h"

namespace leeway {
namespace {

// A triangle, in either winding, and a square with a hole.
const MultiPolygon kRegion{
    {{{0, 0}, {0, 30}, {40, 0}}, {}},
    {{{50, 0}, {100, 0}, {100, 50}, {50, 50}}, {{{60, 10}, {90, 10}, {90, 20}, {60, 20}}}}};

TEST(AreaSums, OfATriangleAndASquareWithAHole) {
  const AreaSums sums(kRegion, {0, 15, 60});
  EXPECT_EQ(sums.left_of(-1), (std::vector<double>{0, 0, 0}));
  const std::vector<double> triangle = sums.left_of(45);
  EXPECT_NEAR(triangle[0], 0, 1e-12);
  EXPECT_NEAR(triangle[1], 450, 1e-12);  // 600 less the quarter above half height
  EXPECT_NEAR(triangle[2], 600, 1e-12);
  const std::vector<double> all = sums.left_of(200);
  EXPECT_NEAR(all[2], 600 + 2500 - 300, 1e-9);
  EXPECT_NEAR(all[1] - triangle[1], 50 * 15 - 30 * 5, 1e-9);
}

TEST(AreaSums, AgreeWithClippedAreas) {
  std::mt19937_64 engine(3);
  std::uniform_real_distribution<double> along(-10, 110);
  for (int i = 0; i < 200; ++i) {
    const auto [x0, x1] = std::minmax({along(engine), along(engine)});
    const auto [y0, y1] = std::minmax({along(engine), along(engine)});
    const AreaSums sums(kRegion, {y0, y1});
    const std::vector<double> left = sums.left_of(x0);
    const std::vector<double> right = sums.left_of(x1);
    EXPECT_NEAR(right[1] - left[1] - right[0] + left[0], area_within(kRegion, {x0, x1, y0, y1}),
                1e-9);
  }
}

}  // namespace
}  // namespace leeway
