#include "formats/drawing/axes.h"

#include <gtest/gtest.h>

#include <cmath>

namespace leeway {
namespace {

TEST(Ticks, AreAtOneTwoOrFiveTimesAPowerOfTen) {
  EXPECT_DOUBLE_EQ(tick_step(1, 48), 50);
  EXPECT_DOUBLE_EQ(tick_step(3, 48), 20);
  EXPECT_DOUBLE_EQ(tick_step(5, 48), 10);
  EXPECT_DOUBLE_EQ(tick_step(48, 48), 1);
  EXPECT_DOUBLE_EQ(tick_step(0.001, 48), 50'000);
  for (double scale = 1e-4; scale < 1e4; scale *= 1.07) {
    const double step = tick_step(scale, 48);
    EXPECT_GE(step * scale, 48 * (1 - 1e-9)) << scale;
    EXPECT_LE(step * scale, 48 * 2.5 * (1 + 1e-9)) << scale;
    const double digit = step / std::pow(10, std::floor(std::log10(step) + 1e-9));
    EXPECT_TRUE(std::abs(digit - 1) < 1e-9 || std::abs(digit - 2) < 1e-9 ||
                std::abs(digit - 5) < 1e-9)
        << step;
  }
}

TEST(Ticks, LieWithinTheirEnds) {
  EXPECT_EQ(ticks(-5, 25, 10), (std::vector<double>{0, 10, 20}));
  EXPECT_EQ(ticks(-20, 0, 20), (std::vector<double>{-20, 0}));
  EXPECT_TRUE(ticks(1, 9, 10).empty());
  EXPECT_LE(ticks(0, 1e9, 1).size(), 1000u);
  EXPECT_EQ(tick_text(-20, 20), "-20");
  EXPECT_EQ(tick_text(0.5, 0.5), "0.5");
}

}  // namespace
}  // namespace leeway
