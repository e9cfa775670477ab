#include "tasks/measure/outlier_chance.h"

#include <algorithm>
#include <cmath>

namespace leeway {

// Made by tests/tasks/measure/outlier_chance_test.cpp with LEEWAY_TABULATE=SETS in the environment,
// which says how many sets a row is made of: here 2,000,000. Rounded up.
const std::array<ChanceRow, 18>& chance_rows() {
  static constexpr std::array<ChanceRow, 18> kRows = {{
      {3, {{3.44, 10.3, 21.4, 43.8, 112, 224, 448, 1130, 2300}}},
      {4, {{2.52, 4.6, 6.81, 9.89, 16, 22.8, 32.2, 51.4, 72.9}}},
      {5, {{2.8, 5.22, 7.8, 11.5, 18.6, 26.5, 37.6, 60.2, 84.7}}},
      {6, {{2.57, 4.1, 5.48, 7.17, 10.1, 12.9, 16.3, 22.2, 28.2}}},
      {7, {{2.68, 4.31, 5.78, 7.58, 10.7, 13.7, 17.5, 24, 30.4}}},
      {8, {{2.59, 3.84, 4.88, 6.07, 7.93, 9.64, 11.8, 15, 18.1}}},
      {9, {{2.66, 3.95, 5.03, 6.27, 8.22, 10.1, 12.2, 15.6, 18.8}}},
      {10, {{2.61, 3.7, 4.56, 5.5, 6.91, 8.15, 9.54, 11.7, 13.7}}},
      {11, {{2.66, 3.77, 4.65, 5.6, 7.07, 8.34, 9.77, 12, 14}}},
      {12, {{2.63, 3.61, 4.35, 5.14, 6.3, 7.28, 8.37, 9.99, 11.4}}},
      {13, {{2.66, 3.66, 4.41, 5.22, 6.41, 7.41, 8.5, 10.2, 11.7}}},
      {14, {{2.65, 3.54, 4.21, 4.9, 5.89, 6.71, 7.61, 8.95, 10.1}}},
      {15, {{2.68, 3.59, 4.26, 4.96, 5.96, 6.79, 7.69, 9.02, 10.2}}},
      {21, {{2.72, 3.48, 4.01, 4.54, 5.27, 5.84, 6.46, 7.3, 7.98}}},
      {31, {{2.78, 3.42, 3.85, 4.26, 4.8, 5.22, 5.65, 6.23, 6.68}}},
      {41, {{2.84, 3.41, 3.78, 4.14, 4.6, 4.94, 5.29, 5.76, 6.14}}},
      {61, {{2.92, 3.42, 3.74, 4.04, 4.42, 4.7, 4.98, 5.34, 5.61}}},
      {101, {{3.04, 3.48, 3.75, 4, 4.31, 4.54, 4.77, 5.07, 5.29}}},
  }};
  return kRows;
}

std::optional<double> chance_of_score(std::size_t pairs, double score) {
  const auto& rows = chance_rows();
  if (pairs < rows.front().pairs || pairs > rows.back().pairs) return std::nullopt;
  const auto above =
      std::lower_bound(rows.begin(), rows.end(), pairs,
                       [](const ChanceRow& row, std::size_t n) { return row.pairs < n; });
  const ChanceRow& other = above->pairs == pairs ? *above : *(above - 1);
  double chance = 1;
  for (std::size_t i = 0; i < kChances.size(); ++i) {
    if (std::abs(score) >= std::max(above->score[i], other.score[i])) chance = kChances[i];
  }
  return chance;
}

}  // namespace leeway
