#pragma once
// What each millimetre of the offset costs in coverage.

#include <optional>
#include <span>
#include <vector>

#include "leeway/bracket.h"
#include "leeway/progress.h"
#include "leeway/setup.h"
#include "leeway/tolerance.h"

namespace leeway {

inline constexpr long kMostMapOffsets = 4'000'000;

// The share of the printable area that the probe can reach, at every offset of a lattice:
//   area(P and S and (N + o)) / area(P)
// with P the printable region, S the positions at which the probe can sense (its body's limits
// included), N the positions the nozzle may take while it does, o the offset. Guards are not taken
// off.
struct CoverageMap {
  Steps x;
  Steps y;
  std::vector<double> coverage;  // 0 to 1; a row for each y, x varying fastest
  double printable_area = 0;     // mm2
  std::vector<char> open;        // likewise, whether an offset is of use; empty: all are
  std::size_t points = 0;  // of a map of points: how many are asked for; the shares are theirs

  bool is_open(int column, int row) const {
    return open.empty() || open[static_cast<std::size_t>(row) * static_cast<std::size_t>(x.count) +
                                static_cast<std::size_t>(column)] != 0;
  }

  double at(int column, int row) const {
    return coverage[static_cast<std::size_t>(row) * static_cast<std::size_t>(x.count) +
                    static_cast<std::size_t>(column)];
  }
};

// Exact areas, not a raster: of the regions as polygons in whole micrometres, and of a disc of
// travel as a true disc. Nothing when nothing is printable. `progress` is called row by row.
// Throws BracketRefused (bracket.h) where the offsets do not rise, lie beyond 1e6 mm, or are more
// than kMostMapOffsets; and what Limits and Regions throw.
std::optional<CoverageMap> coverage_map(const Setup& setup, const Steps& x, const Steps& y,
                                        const Progress& progress = {});

// Of several setups the least share at each offset.
struct CommonMap {
  std::optional<CoverageMap> map;
  std::size_t unprintable = 0;  // where there is none: the first setup with nothing to print
};
// REQUIRES: setups. Throws as coverage_map does.
CommonMap common_coverage_map(std::span<const Setup> setups, const Steps& x, const Steps& y,
                              const Progress& progress = {});

// What closes an offset of a map.
enum class MapOpens {
  in_window,  // all but those with which all points within reach of some offset are reachable
  on_mount    // what the mounts and the heads do not allow
};
// Fills in which offsets of a map are open. REQUIRES: setups. Throws as bracket() does.
void open_map(CoverageMap& map, std::span<const Setup> setups, MapOpens opens,
              const Tolerance& tolerance = {}, const Progress& progress = {});

// How many of the points that are asked for each offset reaches, as shares of all; guard bands
// kept, of all setups together. Open is where mounts and heads allow. Throws BracketRefused where
// nothing is asked for, and as coverage_map does.
CoverageMap points_map(std::span<const Setup> setups, const Steps& x, const Steps& y,
                       const Tolerance& tolerance = {}, const Progress& progress = {});

// The offsets worth a map: around the nozzle, the heads, mounts and offsets of the setups, the
// window and some more offsets; about `steps` in the longer direction, in half millimetres or more.
struct MapSteps {
  Steps x;
  Steps y;
};
MapSteps map_around(std::span<const Setup> setups, const std::optional<Box>& window,
                    const std::vector<Point>& more = {}, int steps = 120);

// The map at these offsets with what goes with a window: open in it, or where it is empty, or there
// is none, on the mounts. REQUIRES and throws as common_coverage_map and open_map do.
CommonMap map_with_window(std::span<const Setup> setups, const BracketWindow* window,
                          const MapSteps& steps, const Tolerance& tolerance = {},
                          const Progress& progress = {});

// Where the probe of one setup may sit that states a mount: the window if it asks for points, and
// the map that goes with it. Neither without a mount. Throws as bracket() and map_with_window do.
struct MountPlaces {
  std::optional<BracketResult> window;
  std::optional<CoverageMap> map;
};
MountPlaces places_on_mount(const Setup& setup, const Progress& progress = {});

}  // namespace leeway
