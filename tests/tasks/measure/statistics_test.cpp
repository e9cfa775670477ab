// Statistics against the NIST StRD, NIST TN 1297 (JCGM 100, Table G.2) and worked examples of the
// GUM.

#include "tasks/measure/statistics.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

#include "tasks/strd_data.h"

namespace leeway {
namespace {

// The log relative error: how many digits agree; 15 where all do.
double digits(double found, double certified) {
  if (found == certified) return 15;
  return std::min(15.0, -std::log10(std::abs(found - certified) / std::abs(certified)));
}

std::vector<double> accuracy_set(double base) {
  std::vector<double> values{base + 0.2};
  for (int i = 0; i < 500; ++i) {
    values.push_back(base + 0.1);
    values.push_back(base + 0.3);
  }
  return values;
}

// Certified mean and standard deviation, and the digits that a double can give: what the decimals
// lose in binary caps NumAcc3 and NumAcc4 (computed).
TEST(Statistics, MeanAndDeviationToTheCertifiedDigits) {
  struct Set {
    const char* name;
    std::vector<double> values;
    double mean, deviation;
    double mean_digits, deviation_digits;
  };
  const Set sets[] = {{"Lew", kLew, -177.435000000000, 277.332168044316, 14, 14},
                      {"Lottery", kLottery, 518.958715596330, 291.699727470969, 14, 14},
                      {"Mavro", kMavro, 2.00185600000000, 0.000429123454003053, 14, 12},
                      {"Michelso", kMichelso, 299.852400000000, 0.0790105478190518, 14, 12},
                      {"NumAcc1", {10000001, 10000003, 10000002}, 10000002, 1, 15, 15},
                      {"NumAcc2", accuracy_set(1), 1.2, 0.1, 13.5, 14},
                      {"NumAcc3", accuracy_set(1e6), 1000000.2, 0.1, 13.5, 9},
                      {"NumAcc4", accuracy_set(1e7), 10000000.2, 0.1, 13.5, 8}};
  for (const Set& set : sets) {
    EXPECT_GE(digits(mean(set.values), set.mean), set.mean_digits) << set.name;
    EXPECT_GE(digits(standard_deviation(set.values), set.deviation), set.deviation_digits)
        << set.name;
  }
  EXPECT_EQ(kLew.size(), 200u);
  EXPECT_EQ(kLottery.size(), 218u);
  EXPECT_EQ(kMavro.size(), 50u);
  EXPECT_EQ(kMichelso.size(), 100u);
}

// StRD Norris, linear regression of lower difficulty: 11 digits of what is certified.
TEST(Statistics, NorrisLine) {
  const Line line = fitted_line(kNorrisX, kNorrisY);
  EXPECT_GE(digits(line.intercept, -0.262323073774029), 11);
  EXPECT_GE(digits(line.slope, 1.00211681802045), 13);
  EXPECT_GE(digits(line.slope_uncertainty, 0.000429796848199937), 11);
  EXPECT_EQ(line.degrees_of_freedom, 34);
}

// JCGM 100:2008, H.3: the calibration of a thermometer; s(y2) = 0.00067, and y2 = 0.00218. More
// digits computed from its data.
TEST(Statistics, GumThermometerLine) {
  const std::vector<double> t = {21.521, 22.012, 22.512, 23.003, 23.507, 23.999,
                                 24.513, 25.002, 25.503, 26.010, 26.511};
  const std::vector<double> b = {-0.171, -0.169, -0.166, -0.159, -0.164, -0.165,
                                 -0.156, -0.157, -0.159, -0.161, -0.160};
  const Line line = fitted_line(t, b);
  EXPECT_NEAR(line.slope, 0.00218269773988728, 1e-15);
  EXPECT_NEAR(line.slope_uncertainty, 0.000667938773227832, 1e-14);
  EXPECT_NEAR(line.intercept + 20 * line.slope, -0.171203790131350, 1e-12);
  EXPECT_EQ(line.degrees_of_freedom, 9);
}

// NIST TN 1297, Table B.1, which is JCGM 100's Table G.2: two decimals. One cell is misprinted: 35
// degrees of freedom at 90 % are 1.6895725, printed 1.70. The columns 68.27, 95.45 and 99.73 are
// erf(k / sqrt 2).
TEST(Statistics, StudentsTAgainstTheTable) {
  std::size_t cells = 0;
  for (const auto& row : kStudentsT) {
    const double p[] = {std::erf(1 / std::sqrt(2)), 0.90, 0.95,
                        std::erf(std::sqrt(2)),     0.99, std::erf(3 / std::sqrt(2))};
    for (std::size_t k = 0; k < 6; ++k) {
      if (row[0] == 35 && k == 1) continue;
      ++cells;
      EXPECT_NEAR(t_factor(p[k], row[0]), row[k + 1], 0.00500001) << row[0] << " " << p[k];
    }
  }
  EXPECT_GE(cells, 160u);
}

// Sixteen digits, computed with 40.
TEST(Statistics, StudentsTToManyDigits) {
  EXPECT_GE(digits(t_factor(0.95, 1), 12.7062047361747), 14);
  EXPECT_GE(digits(t_factor(0.95, 9), 2.262157162798206), 14);
  EXPECT_GE(digits(t_factor(0.99, 30), 2.749995653567225), 14);
  const double normal = t_factor(0.95, std::numeric_limits<double>::infinity());
  EXPECT_GE(digits(normal, 1.95996398454005), 13);
}

// Student, Biometrika 6 (1908): the difference is far from 0 with p = 0.00283. As a line with the
// two drugs at 0 and 1 it is another test; so a plain relation: t of a line is r sqrt(n - 2) /
// sqrt(1 - r^2), and its p is Student's.
TEST(Statistics, SlopeAndCorrelationTellTheSame) {
  const std::vector<double> a = {0.7, -1.6, -0.2, -1.2, -0.1, 3.4, 3.7, 0.8, 0.0, 2.0};
  const std::vector<double> b = {1.9, 0.8, 1.1, 0.1, -0.1, 4.4, 5.5, 1.6, 4.6, 3.4};
  const double r = correlation(a, b);
  const Line line = fitted_line(a, b);
  const double t = r * std::sqrt(8.0) / std::sqrt(1 - r * r);
  EXPECT_NEAR(line.slope / line.slope_uncertainty, t, 1e-12);
  // A factor for the probability 1 - p gives t back.
  EXPECT_NEAR(t_factor(1 - line.p, 8), t, 1e-9);
}

// JCGM 100:2008, H.2: correlation -0.36 of V and I.
TEST(Statistics, GumCorrelation) {
  EXPECT_NEAR(
      correlation({5.007, 4.994, 5.005, 4.990, 4.999}, {19.663, 19.639, 19.640, 19.685, 19.678}),
      -0.3553112198, 1e-10);
}

TEST(Statistics, CorrelationOfWhatDoesNotVaryIsNone) {
  EXPECT_TRUE(std::isnan(correlation({1, 1, 1}, {1, 2, 3})));
}

// 0.6745 (x - median) / MAD, by hand: median 3, MAD 1.
TEST(Statistics, ModifiedZScores) {
  const std::vector<double> scores = modified_z_scores({1, 2, 3, 4, 25});
  EXPECT_NEAR(scores[4], 0.6745 * 22, 1e-12);
  EXPECT_NEAR(scores[0], -0.6745 * 2, 1e-12);
  // More than half alike: by the mean absolute deviation, here 1/5 of 10.
  const std::vector<double> alike = modified_z_scores({5, 5, 5, 5, 15});
  EXPECT_NEAR(alike[4], 10 / (1.2533 * 2), 1e-12);
  EXPECT_EQ(modified_z_scores({5, 5, 5}), (std::vector<double>{0, 0, 0}));
}

}  // namespace
}  // namespace leeway
