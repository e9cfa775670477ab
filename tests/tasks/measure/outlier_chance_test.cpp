// How often a reading stands out by chance: the table against a simulation of its own.
//
// With LEEWAY_TABULATE=2000000 in the environment the rows are made anew and printed (minutes).

#include "tasks/measure/outlier_chance.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <random>

#include "tasks/measure/statistics.h"

namespace leeway {
namespace {

// The greatest size of a score in each of so many sets, rising.
std::vector<double> greatest_scores(std::size_t pairs, std::size_t sets, std::uint64_t seed) {
  std::mt19937_64 engine(seed);
  std::normal_distribution<double> normal;
  std::vector<double> values(pairs);
  std::vector<double> greatest(sets);
  for (double& most : greatest) {
    for (int axis = 0; axis < 2; ++axis) {
      for (double& value : values) value = normal(engine);
      for (const double score : modified_z_scores(values)) most = std::max(most, std::abs(score));
    }
  }
  std::sort(greatest.begin(), greatest.end());
  return greatest;
}

// Three digits, rounded up.
double rounded_up(double value) {
  const double step = std::pow(10, std::floor(std::log10(value)) - 2);
  return std::ceil(value / step) * step;
}

void print_row(std::size_t pairs, const std::vector<double>& scores) {
  std::printf("{%zu, {{", pairs);
  const auto n = static_cast<double>(scores.size());
  for (std::size_t i = 0; i < kChances.size(); ++i) {
    const double score = scores[scores.size() - static_cast<std::size_t>(kChances[i] * n)];
    std::printf("%s%g", i > 0 ? ", " : "", rounded_up(score));
  }
  std::printf("}}},\n");
}

// Of N sets N p are expected, with the standard deviation sqrt(N p (1 - p)); five of them.
TEST(OutlierChance, TheTableIsWhatASimulationGives) {
  const char* tabulate = std::getenv("LEEWAY_TABULATE");
  const std::size_t sets = tabulate != nullptr ? std::strtoull(tabulate, nullptr, 10) : 10'000;
  for (const ChanceRow& row : chance_rows()) {
    const std::vector<double> scores = greatest_scores(row.pairs, sets, 1000 + row.pairs);
    if (tabulate != nullptr) {
      print_row(row.pairs, scores);
      continue;
    }
    for (std::size_t i = 0; i < kChances.size(); ++i) {
      const double p = kChances[i];
      const auto n = static_cast<double>(sets);
      const auto above = static_cast<double>(
          scores.end() - std::lower_bound(scores.begin(), scores.end(), row.score[i]));
      const double spread = 5 * std::sqrt(p * (1 - p) / n);
      EXPECT_LE(above / n, p + spread) << row.pairs << " pairs, " << p;
      // Three digits that are rounded up are at most 1 % more.
      EXPECT_GE(above / n, 0.93 * p - spread) << row.pairs << " pairs, " << p;
    }
  }
}

// Of three values with gaps g <= h between them the greatest score is 0.6745 h / g. The direction
// of three normal values less their mean is uniform on a circle, where each order of the three has
// a sixth; at the angle a into it the gaps are as sin(a) to sin(60 degrees - a). So h / g is at
// least R with the probability 6 / pi * atan(sqrt(3) / (2 R + 1)) (by hand).
TEST(OutlierChance, OfThreePairsByHand) {
  for (std::size_t i = 0; i < kChances.size(); ++i) {
    const double ratio = chance_rows().front().score[i] / 0.6745;
    const double axis = 6 / std::acos(-1.0) * std::atan(std::sqrt(3.0) / (2 * ratio + 1));
    const double either = 1 - (1 - axis) * (1 - axis);
    EXPECT_NEAR(either, kChances[i], 0.05 * kChances[i]) << ratio;
  }
}

TEST(OutlierChance, NeverSaysLessThanTheTable) {
  EXPECT_FALSE(chance_of_score(2, 9));
  EXPECT_FALSE(chance_of_score(102, 9));
  for (const ChanceRow& row : chance_rows()) {
    EXPECT_EQ(chance_of_score(row.pairs, 0.5), 1);
    for (std::size_t i = 0; i < kChances.size(); ++i) {
      EXPECT_EQ(chance_of_score(row.pairs, row.score[i]), kChances[i]);
      EXPECT_EQ(chance_of_score(row.pairs, -row.score[i]), kChances[i]);
      EXPECT_GT(*chance_of_score(row.pairs, row.score[i] - 0.01), kChances[i]);
    }
  }
  for (std::size_t n = 16; n < 21; ++n) {
    for (const double score : {3.6, 5.0, 8.0, 20.0}) {
      EXPECT_EQ(*chance_of_score(n, score),
                std::max(*chance_of_score(15, score), *chance_of_score(21, score)));
    }
  }
}

}  // namespace
}  // namespace leeway
