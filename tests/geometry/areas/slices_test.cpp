#include "geometry/areas/slices.h"

#include <gtest/gtest.h>

#include <random>

#include "geometry/distance/field.h"
#include "geometry/random_polygons.h"

namespace leeway {
namespace {

const MultiPolygon kSquareWithHole{
    {{{0, 0}, {100, 0}, {100, 80}, {0, 80}}, {{{40, 30}, {40, 50}, {60, 50}, {60, 30}}}}};

TEST(Slices, SomewhereAndThroughoutOfASquareWithAHole) {
  const Slices slices(kSquareWithHole);
  EXPECT_EQ(slices.somewhere(10, 20), (Intervals{{0, 80}}));
  EXPECT_EQ(slices.throughout(10, 20), (Intervals{{0, 80}}));
  EXPECT_EQ(slices.somewhere(45, 55), (Intervals{{0, 30}, {50, 80}}));
  EXPECT_EQ(slices.throughout(45, 55), (Intervals{{0, 30}, {50, 80}}));
  EXPECT_EQ(slices.somewhere(30, 70), (Intervals{{0, 80}}));
  EXPECT_EQ(slices.throughout(30, 70), (Intervals{{0, 30}, {50, 80}}));
}

TEST(Slices, TouchingAnEdgeIsInside) {
  const Slices slices(kSquareWithHole);
  EXPECT_EQ(slices.throughout(0, 40), (Intervals{{0, 80}}));
  EXPECT_EQ(slices.throughout(60, 100), (Intervals{{0, 80}}));
  EXPECT_EQ(slices.somewhere(100, 120), (Intervals{{0, 80}}));
  EXPECT_TRUE(slices.throughout(99, 101).empty() ||
              slices.throughout(99, 101).front().low == slices.throughout(99, 101).front().high);
  EXPECT_TRUE(slices.somewhere(100.5, 120).empty());
}

// What strips say against single positions, judged by the signed distance.
TEST(Slices, AgreeWithSignedDistances) {
  std::mt19937_64 engine(7);
  std::uniform_real_distribution<double> along(-5, 105);
  const MultiPolygon region{{{{0, 0}, {100, 10}, {90, 100}, {50, 60}, {5, 95}}, {}},
                            {{{40, 75}, {60, 75}, {50, 90}}, {}}};
  const FieldPtr inside = inside_polygons(region);
  const Slices slices(region);
  int seen = 0;
  for (int i = 0; i < 400; ++i) {
    const double x0 = along(engine);
    const double x1 = x0 + std::abs(along(engine)) / 10 + 0.01;
    const double y = along(engine);
    bool some = false;
    bool all = true;
    double nearest = 1e9;
    for (int k = 0; k <= 400; ++k) {
      const double d = inside->distance({x0 + (x1 - x0) * k / 400, y});
      some = some || d >= 0;
      all = all && d >= 0;
      nearest = std::min(nearest, std::abs(d));
    }
    if (nearest < 0.1) continue;  // too near to a boundary for samples to tell
    ++seen;
    const auto holds = [y](const Intervals& in) {
      return std::any_of(in.begin(), in.end(),
                         [y](const Interval& v) { return y >= v.low && y <= v.high; });
    };
    EXPECT_EQ(holds(slices.somewhere(x0, x1)), some) << x0 << " " << x1 << " " << y;
    EXPECT_EQ(holds(slices.throughout(x0, x1)), all) << x0 << " " << x1 << " " << y;
  }
  EXPECT_GT(seen, 100);
}

TEST(Intervals, AreSets) {
  const Intervals a{{0, 10}, {20, 30}};
  const Intervals b{{5, 22}, {30, 40}};
  EXPECT_EQ(intersection(a, b), (Intervals{{5, 10}, {20, 22}, {30, 30}}));
  EXPECT_EQ(united(a, b), (Intervals{{0, 40}}));
  EXPECT_EQ(complement(a, -5, 35), (Intervals{{-5, 0}, {10, 20}, {30, 35}}));
  EXPECT_EQ(complement({}, 0, 1), (Intervals{{0, 1}}));
  EXPECT_EQ(widened(a, 5), (Intervals{{-5, 35}}));
  EXPECT_EQ(widened(a, 1), (Intervals{{-1, 11}, {19, 31}}));
}

}  // namespace
}  // namespace leeway
