#include "leeway/coverage_map.h"
#include "tasks/bracket/coverage_map_of_sets.h"

#include <algorithm>

#include "geometry/areas/shifted_overlap.h"
#include "leeway/bracket.h"
#include "leeway/validate.h"
#include "tasks/go_on.h"

namespace leeway {
namespace {

bool are_offsets(const Steps& steps) {
  const bool finite =
      in_range(steps.from, NumberRange::length) && in_range(steps.to, NumberRange::length);
  return finite && steps.count >= 1 && (steps.count == 1 || steps.from < steps.to);
}

}  // namespace

std::optional<CoverageMap> coverage_map(const Setup& setup, const Steps& x, const Steps& y,
                                        const Progress& progress) {
  if (!are_offsets(x) || !are_offsets(y) ||
      static_cast<std::int64_t>(x.count) * y.count > kMostMapOffsets) {
    throw BracketRefused(
        "the offsets to look at must rise, be at most 1e6 mm either way, and at most " +
        std::to_string(kMostMapOffsets) + " in all");
  }
  return coverage_map(cover_sets(Rig(setup)), x, y, progress);
}

std::optional<CoverageMap> coverage_map(const CoverSets& sets, const Steps& x, const Steps& y,
                                        const Progress& progress) {
  if (sets.printable_area <= 0) return std::nullopt;
  CoverageMap map{x, y, {}, sets.printable_area};
  const std::size_t columns = static_cast<std::size_t>(x.count);
  map.coverage.resize(columns * static_cast<std::size_t>(y.count));
  const ShiftedOverlap moved(sets.ground, sets.travel ? sets.blocked : sets.nozzle);
  std::optional<DiscOverlap> disc;
  if (sets.travel) disc.emplace(sets.ground, sets.travel->radius);
  for (int row = 0; row < y.count; ++row) {
    go_on(progress, static_cast<double>(row) / y.count);
    const std::span<double> shares =
        std::span(map.coverage).subspan(static_cast<std::size_t>(row) * columns, columns);
    moved.row(x, y.at(row), shares);
    for (int column = 0; column < x.count; ++column) {
      double& share = shares[static_cast<std::size_t>(column)];
      if (disc) {
        share = disc->area(sets.travel->center + Point{x.at(column), y.at(row)}) - share;
      }
      share = std::clamp(share / sets.printable_area, 0.0, 1.0);
    }
  }
  return map;
}

}  // namespace leeway
