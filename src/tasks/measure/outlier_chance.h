#pragma once
// How often a reading stands out by chance.

#include <array>
#include <cstddef>
#include <optional>

namespace leeway {

// Of `pairs` readings, each with an offset in x and in y that are normally distributed and
// independent: the greatest size of any modified z-score (statistics.h) is at least
// `score[i]` in a fraction kChances[i] of all sets. From a simulation (see the .cpp).
struct ChanceRow {
  std::size_t pairs = 0;
  std::array<double, 9> score;
};

inline constexpr std::array<double, 9> kChances = {0.5,  0.2,   0.1,   0.05, 0.02,
                                                   0.01, 0.005, 0.002, 0.001};

// Rising in `pairs`, from 3 to 101. With an odd number of pairs scores come out higher than with
// the even ones beside it, so that beyond 15 the rows are odd.
const std::array<ChanceRow, 18>& chance_rows();

// In what fraction of sets of so many pairs, none of them a mistake, any score is as far from 0 as
// this: at most the returned one of kChances, or 1 where it is more than the first of them.
// Between two rows the one with the greater chance counts. Nothing outside the rows.
std::optional<double> chance_of_score(std::size_t pairs, double score);

}  // namespace leeway
