#pragma once
// Which grid: what `fit` finds for several counts of columns and rows, side by side.

#include <optional>
#include <string>
#include <vector>

#include "leeway/fit.h"

namespace leeway {

inline constexpr std::size_t kMostCompared = 1000;

// What is looked for each time, in place of the same in FitOptions.
struct GridWanted {
  std::optional<int> columns, rows;
  std::optional<double> spacing;
};

// What is found for one of them.
struct ComparedGrid {
  GridWanted wanted;
  std::optional<FitMesh> mesh;  // nothing when nothing fits
  bool moves_judged = false;    // whether a travel height is stated
  bool moves_clear = true;      // nothing said against them; so too where they were not judged
  std::optional<double> least_height;   // of the nozzle for all moves; nothing when none is enough
  std::optional<FitLimiting> limiting;  // when nothing fits
  std::optional<double> most_kept;      // FitResult::most_kept
  std::string refused;                  // why it could not be looked for, in words
};

// Each is what `fit` answers for it, with the same options. Best first: those that fit and whose
// moves are clear, by coverage, then by leeway after guard, then by fewer points; then those whose
// moves are not; then those that do not fit, as they were wanted. Spacings that give the same mesh
// as one before are left out. Throws what `fit` throws, FitRefused only where each is refused.
std::vector<ComparedGrid> compare_grids(const Rig& rig, const std::vector<GridWanted>& wanted,
                                        const FitOptions& options = {});

// The best of the grids with one more or fewer column or row, where it covers kNotableShare more of
// what can be printed and its moves are clear. Nothing where a spacing decides, where nothing fits,
// and for grids of more than kMostForNeighbours points, as it takes four more fits. Throws what
// `fit` throws, but for FitRefused.
inline constexpr double kNotableShare = 0.03;
inline constexpr int kMostForNeighbours = 2500;
std::optional<FitMesh> better_neighbour(const Rig& rig, const FitResult& result,
                                        const FitOptions& options);

}  // namespace leeway
