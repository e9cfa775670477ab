// The offset from paired readings, against worked examples of the GUM (JCGM 100:2008).

#include "leeway/measure.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <random>

#include "tasks/measure/outlier_chance.h"

namespace leeway {
namespace {

// Readings with given offsets, the dots along a diagonal.
std::vector<Reading> readings_of(const std::vector<double>& x, const std::vector<double>& y) {
  std::vector<Reading> out;
  for (std::size_t i = 0; i < x.size(); ++i) {
    const Point dot{10.0 * static_cast<double>(i % 5), 7.0 * static_cast<double>(i / 5)};
    out.push_back({"dot " + std::to_string(i + 1), dot, dot - Point{x[i], y[i]}});
  }
  return out;
}

// JCGM 100, 4.4.3 and Table 1: twenty temperatures, mean 100.145, s 1.489, u 0.333; more digits
// computed.
TEST(Measure, GumTemperatures) {
  const std::vector<double> t = {96.90,  98.18,  98.25,  98.61,  99.03,  99.49,  99.56,
                                 99.74,  99.89,  100.07, 100.33, 100.42, 100.68, 100.95,
                                 101.11, 101.20, 101.57, 101.84, 102.36, 102.72};
  const MeasureResult result = measure(readings_of(t, t));
  const AxisMeasure& x = result.axes[0];
  EXPECT_NEAR(x.offset, 100.145, 1e-12);
  EXPECT_NEAR(*x.standard_deviation, 1.48884448305954444, 1e-12);
  EXPECT_NEAR(*x.standard_uncertainty, 0.332915747204667543, 1e-12);
  EXPECT_EQ(*x.degrees_of_freedom, 19);
  EXPECT_NEAR(*x.coverage_factor, 2.09302405440831, 1e-12);
  EXPECT_NEAR(*x.expanded_uncertainty, 0.696800666990685, 1e-10);
  EXPECT_NEAR(*result.correlation, 1, 1e-12);
  EXPECT_EQ(result.axes[1].offset, x.offset);
}

// JCGM 100, H.2, Table H.2: five joint readings of V and I, taken as x and y.
TEST(Measure, GumJointReadings) {
  const MeasureResult result = measure(
      readings_of({5.007, 4.994, 5.005, 4.990, 4.999}, {19.663, 19.639, 19.640, 19.685, 19.678}));
  EXPECT_NEAR(result.axes[0].offset, 4.999, 1e-12);
  EXPECT_NEAR(*result.axes[0].standard_uncertainty, 0.00320936130717624, 1e-12);
  EXPECT_NEAR(result.axes[1].offset, 19.661, 1e-12);
  EXPECT_NEAR(*result.axes[1].standard_uncertainty, 0.00947100839404126, 1e-12);
  EXPECT_NEAR(*result.correlation, -0.3553112198, 1e-9);
}

// Student's sleep data (Biometrika 6, 1908; from memory), as pairs: mean -1.58, u 0.38896, and the
// 95 % interval from -2.45989 to -0.70011.
TEST(Measure, StudentsPairs) {
  const std::vector<double> a = {0.7, -1.6, -0.2, -1.2, -0.1, 3.4, 3.7, 0.8, 0.0, 2.0};
  const std::vector<double> b = {1.9, 0.8, 1.1, 0.1, -0.1, 4.4, 5.5, 1.6, 4.6, 3.4};
  std::vector<Reading> readings;
  for (std::size_t i = 0; i < a.size(); ++i) readings.push_back({"", {a[i], 0}, {b[i], 0}});
  const AxisMeasure x = measure(readings).axes[0];
  EXPECT_NEAR(x.offset, -1.58, 1e-12);
  EXPECT_NEAR(*x.standard_uncertainty, 0.388958723888395, 1e-12);
  EXPECT_NEAR(x.offset - *x.expanded_uncertainty, -2.45988576327698, 1e-9);
  EXPECT_NEAR(x.offset + *x.expanded_uncertainty, -0.700114236723017, 1e-9);
}

TEST(Measure, OffsetIsNozzleLessProbe) {
  const MeasureResult result =
      measure({{"a", {100, 100}, {138.5, 88}}, {"b", {50, 60}, {88.5, 48}}});
  EXPECT_EQ(result.offset(), (Point{-38.5, 12}));
}

// A reading carries r / sqrt(12), a pair r / sqrt(6), and more pairs do not average it out.
TEST(Measure, ResolutionAddsInQuadrature) {
  MeasureOptions options;
  options.resolution = 0.3;
  const std::vector<double> values = {1, 1.2, 0.9, 1.1};
  const AxisMeasure with = measure(readings_of(values, values), options).axes[0];
  const AxisMeasure without = measure(readings_of(values, values)).axes[0];
  const double u = *without.standard_uncertainty;
  EXPECT_NEAR(*with.standard_uncertainty, std::sqrt(u * u + 0.09 / 6), 1e-15);
  // Welch-Satterthwaite (JCGM 100, G.2b) with infinite degrees of freedom for the second.
  EXPECT_NEAR(*with.degrees_of_freedom,
              std::pow(*with.standard_uncertainty, 4) / (std::pow(u, 4) / 3), 1e-9);
  EXPECT_EQ(*without.degrees_of_freedom, 3);
}

TEST(Measure, OfASinglePairOnlyTheResolutionIsKnown) {
  const std::vector<Reading> one = {{"a", {10, 10}, {12, 9}}};
  const MeasureResult bare = measure(one);
  EXPECT_EQ(bare.offset(), (Point{-2, 1}));
  EXPECT_FALSE(bare.uncertainty());
  EXPECT_FALSE(bare.axes[0].standard_deviation);
  MeasureOptions options;
  options.resolution = 0.1;
  const MeasureResult result = measure(one, options);
  EXPECT_NEAR(result.uncertainty()->x, 0.1 / std::sqrt(6.0), 1e-15);
  EXPECT_TRUE(std::isinf(*result.axes[0].degrees_of_freedom));
  EXPECT_NEAR(*result.axes[0].coverage_factor, 1.95996398454005, 1e-10);
  EXPECT_FALSE(result.axes[0].standard_deviation);
}

TEST(Measure, ShowsOutliersAndDropsThemByHandOnly) {
  const std::vector<double> x = {1.0, 1.1, 0.9, 1.05, 3.0, 0.95};
  const std::vector<double> y = {2.0, 2.1, 1.9, 2.05, 2.0, 1.95};
  const std::vector<Reading> readings = readings_of(x, y);
  const MeasureResult all = measure(readings);
  ASSERT_EQ(all.outliers.size(), 1u);
  EXPECT_EQ(all.outliers[0].reading, 4u);
  EXPECT_EQ(all.outliers[0].axis, 0);
  EXPECT_EQ(all.pairs, 6u);
  MeasureOptions options;
  options.dropped = {false, false, false, false, true, false};
  const MeasureResult without = measure(readings, options);
  EXPECT_EQ(without.pairs, 5u);
  EXPECT_EQ(without.dropped, 1u);
  EXPECT_TRUE(without.outliers.empty());
  EXPECT_NEAR(without.axes[0].offset, 1.0, 1e-12);
}

// A tilted axis: the offset in y grows by 1 mm in 100 along x.
TEST(Measure, FindsTrends) {
  std::mt19937_64 engine(5);
  std::normal_distribution<double> noise(0, 0.02);
  std::vector<Reading> readings;
  for (int i = 0; i < 12; ++i) {
    const Point dot{static_cast<double>((i * 7) % 12) * 15, static_cast<double>((i * 5) % 12) * 12};
    const Point offset{-30 + noise(engine), 5 + 0.01 * dot.x + noise(engine)};
    readings.push_back({"", dot, dot - offset});
  }
  bool found = false;
  for (const Trend& trend : measure(readings).trends) {
    if (trend.axis == 1 && trend.along == Trend::Along::x) {
      found = true;
      EXPECT_NEAR(trend.slope, 0.01, 0.001);
      EXPECT_LT(trend.p, 1e-6);
    } else if (trend.axis == 0) {
      EXPECT_GT(trend.p, MeasureResult::kSuspicion);
    }
  }
  EXPECT_TRUE(found);
}

// Without any trend a p below 0.01 comes up once in a hundred.
TEST(Measure, PIsWhatItSays) {
  std::mt19937_64 engine(1);
  std::normal_distribution<double> noise(0, 0.1);
  int tests = 0;
  int below = 0;
  for (int run = 0; run < 2000; ++run) {
    std::vector<double> x;
    std::vector<double> y;
    for (int i = 0; i < 8; ++i) {
      x.push_back(noise(engine));
      y.push_back(noise(engine));
    }
    for (const Trend& trend : measure(readings_of(x, y)).trends) {
      ++tests;
      if (trend.p < 0.05) ++below;
    }
  }
  EXPECT_NEAR(static_cast<double>(below) / tests, 0.05, 0.01);
}

// The 95 % interval holds the truth in 95 of 100 (JCGM 100, G.3), also with three pairs.
TEST(Measure, ExpandedUncertaintyHoldsTheTruth) {
  std::mt19937_64 engine(2);
  std::normal_distribution<double> noise(0, 0.1);
  int held = 0;
  constexpr int kRuns = 4000;
  for (int run = 0; run < kRuns; ++run) {
    std::vector<double> x;
    for (int i = 0; i < 3; ++i) x.push_back(noise(engine));
    const AxisMeasure axis = measure(readings_of(x, x)).axes[0];
    if (std::abs(axis.offset) <= *axis.expanded_uncertainty) ++held;
  }
  EXPECT_NEAR(static_cast<double>(held) / kRuns, 0.95, 0.015);
}

// By hand: without dot 5 the mean of x is 5.0 / 5 and of y 10.0 / 5.
TEST(Measure, SaysWhatTheOffsetIsWithoutWhatStandsOut) {
  const std::vector<Reading> readings =
      readings_of({1.0, 1.1, 0.9, 1.05, 3.0, 0.95}, {2.0, 2.1, 1.9, 2.05, 2.0, 1.95});
  MeasureOptions options;
  const MeasureResult asked = measure(readings, options);
  EXPECT_TRUE(asked.undecided());
  ASSERT_TRUE(asked.offset_without);
  EXPECT_NEAR(asked.offset_without->x, 1.0, 1e-12);
  EXPECT_NEAR(asked.offset_without->y, 2.0, 1e-12);
  // Away from the median 1.025 by 0.025, 0.075, 0.125, 0.025, 1.975, 0.075: 0.075 is in the middle.
  EXPECT_NEAR(asked.outliers[0].score, 0.6745 * 1.975 / 0.075, 1e-9);
  // Of six pairs 17.8 is beyond what one set of 50 reaches and within what one of 100 does not.
  EXPECT_EQ(asked.outliers[0].chance, chance_of_score(6, asked.outliers[0].score));
  EXPECT_FALSE(asked.outliers[0].kept);
  options.kept = {false, false, false, false, true, false};
  const MeasureResult kept = measure(readings, options);
  EXPECT_FALSE(kept.undecided());
  EXPECT_FALSE(kept.offset_without);
  ASSERT_EQ(kept.outliers.size(), 1u);
  EXPECT_TRUE(kept.outliers[0].kept);
  EXPECT_EQ(kept.offset(), asked.offset());
}

// Tenths that differ by one last digit: the resolution explains it.
TEST(Measure, TheResolutionMakesNothingStandOut) {
  const std::vector<double> tenths = {1.0, 1.0, 1.0, 1.0, 1.1, 1.0};
  MeasureOptions options;
  EXPECT_TRUE(measure(readings_of(tenths, tenths), options).undecided());
  options.resolution = 0.1;
  EXPECT_FALSE(measure(readings_of(tenths, tenths), options).undecided());
  EXPECT_TRUE(measure(readings_of({1.0, 1.0, 1.0, 1.0, 1.2, 1.0}, tenths), options).undecided());
}

// The middle of two edges. By hand: a probe 38 to the left and 12 behind that switches 5.35 before
// the middle of the square on either side.
TEST(Measure, TheMiddleOfTwoEdgesIsWhereTheProbeIs) {
  EXPECT_NEAR(over_edge(148.2, 158.9), 153.55, 1e-12);
  EXPECT_EQ(over_edge(-3, 7), 2);
  EXPECT_EQ(over_edge(1e6, 1e6), 1e6);
}

// Readings that tell of one axis only count there.
TEST(Measure, ReadingsMayTellOfOneAxis) {
  std::vector<Reading> readings = {{"a", {100, 50}, {138, 0}, {true, false}},
                                   {"b", {60, 50}, {98.2, 0}, {true, false}},
                                   {"c", {100, 70}, {0, 58.1}, {false, true}},
                                   {"d", {100, 90}, {138.1, 78}}};
  const double nan = std::numeric_limits<double>::quiet_NaN();
  readings[0].probe_over.y = nan;  // means nothing there
  const MeasureResult result = measure(readings);
  EXPECT_EQ(result.pairs, 4u);
  EXPECT_EQ(result.axes[0].pairs, 3u);
  EXPECT_EQ(result.axes[1].pairs, 2u);
  EXPECT_NEAR(result.axes[0].offset, -38.1, 1e-12);  // of 38, 38.2 and 38.1
  EXPECT_NEAR(*result.axes[0].standard_deviation, 0.1, 1e-12);
  EXPECT_NEAR(result.axes[1].offset, 11.95, 1e-12);  // of 11.9 and 12
  EXPECT_FALSE(result.correlation);
}

std::string refused(const std::vector<Reading>& readings, const MeasureOptions& options = {}) {
  try {
    measure(readings, options);
  } catch (const InvalidReadings& invalid) {
    return invalid.what();
  }
  return "";
}

TEST(Measure, RefusesWhatIsNoLength) {
  const double inf = std::numeric_limits<double>::infinity();
  const double nan = std::numeric_limits<double>::quiet_NaN();
  const std::vector<Reading> good = readings_of({1, 2, 3}, {1, 2, 3});
  EXPECT_EQ(refused(good), "");
  for (const double bad : {nan, inf, -inf, 1.1e6}) {
    for (int which = 0; which < 4; ++which) {
      std::vector<Reading> readings = good;
      Point& point = which < 2 ? readings[1].nozzle_over : readings[1].probe_over;
      (which % 2 == 0 ? point.x : point.y) = bad;
      EXPECT_EQ(refused(readings),
                "reading 2 of 3 holds what is no length of at most 1e6 mm either way");
      MeasureOptions options;
      options.dropped = {false, true, false};
      EXPECT_EQ(refused(readings, options), "") << "a dropped one means nothing";
    }
    MeasureOptions options;
    options.resolution = bad;
    EXPECT_EQ(refused(good, options), "the resolution is no length of 0 to 1e6 mm");
  }
  MeasureOptions below;
  below.resolution = -0.1;
  EXPECT_NE(refused(good, below), "");
  EXPECT_EQ(refused({}), "no reading tells the offset in x");
  EXPECT_EQ(refused({{"a", {1, 1}, {2, 2}, {true, false}}}), "no reading tells the offset in y");
}

}  // namespace
}  // namespace leeway
