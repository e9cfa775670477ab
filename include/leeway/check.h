#pragma once
// `check`: a verdict for every requested point.
//
//   const Rig rig(setup);  // throws InvalidSetup
//   const CheckResult result = check(rig);
//   if (result.verdict == Verdict::reachable) ...
//
// All lengths are mm. A point exactly on a limit has leeway 0 and is inside.

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "leeway/limits.h"
#include "leeway/progress.h"
#include "leeway/regions.h"
#include "leeway/rig.h"
#include "leeway/setup.h"

namespace leeway {

inline constexpr std::int32_t kHomeIndex = -1;

// One requested point. A grid point has column and row (from 1, front left), the others have
// column and row 0 and `name_index` into the setup's named points, or kHomeIndex.
struct CheckedPoint {
  Point probe;
  Finding finding;
  std::int32_t column = 0;
  std::int32_t row = 0;
  std::int32_t name_index = 0;
  bool has_nearest = false;
  Point nearest;  // closest probe position of the reachable region, itself verified reachable
};

// A straight move between two points that would run into something.
struct BlockedMove {
  std::size_t from = 0;  // indices into CheckResult::points
  std::size_t to = 0;
  MoveStop stop;
};

// The straight moves: over the grid in serpentine order, then to the named points, then home.
// Points that are unreachable are left out, as a controller refuses them.
struct CheckedMoves {
  std::size_t count = 0;
  bool judged = false;               // whether the setup states a travel height
  std::vector<BlockedMove> blocked;  // those that are not clear at that height
  bool drags = false;                // that height drags the probe, or a part of the head, along
  SafeHeight safe;                   // of all of them, stated height or not

  // Nothing is said against them; so too where they were not judged.
  bool clear() const { return blocked.empty() && !drags; }
};

// How far the printable region's bounding box sticks out of the grid's on each side; >= 0.
struct UncoveredStrips {
  double left = 0;
  double right = 0;
  double front = 0;
  double back = 0;
};

// What of the printable region the grid's bounds hold. Its points need not be reachable.
struct Coverage {
  std::optional<double> fraction;  // of the printable area; nothing when that is 0
  UncoveredStrips uncovered;
};

// Area in mm2. `why_empty` is a sentence, there only when the region has no area.
struct RegionSummary {
  RegionKind kind = RegionKind::bed;
  double area = 0;
  std::optional<Box> bounds;
  std::optional<std::string> why_empty;
};

// Of all requested points, home among them. Those that the grid leaves out are only `skipped`.
struct Counts {
  std::size_t points = 0;
  std::size_t reachable = 0;
  std::size_t marginal = 0;
  std::size_t unreachable = 0;
  std::size_t skipped = 0;
};

struct CheckResult {
  std::string setup;
  std::optional<Verdict> verdict;  // the worst of all points; nothing when none was asked for
  Counts counts;
  std::vector<RegionSummary>
      regions;                       // those that CheckOptions asks for, in the order of RegionKind
  std::optional<Coverage> coverage;  // nothing without a grid
  std::vector<CheckedPoint> points;  // grid row by row from the front left, named, home
  CheckedMoves moves;
  // The parts of its own head that the probe overlaps with this offset, seen from above, by name;
  // "nozzle" first. Decides nothing, and wants a second look: one of the outlines, or the offset,
  // cannot be right.
  std::vector<std::string> probe_overlaps;
};

// Regions cost most of the time of a small setup.
enum class RegionsWanted {
  all,
  empty,  // those that are empty; the reachable one in any case where no point was judged
  none,
};

struct CheckOptions {
  RegionsWanted regions = RegionsWanted::all;
  Progress progress;
};

// Throws InvalidSetup (validate.h), SetupTooDetailed (limits.h), OverlayFault (geometry.h) and
// Stopped (progress.h). What the rig has computed already, limits and regions, is not computed
// again.
CheckResult check(const Rig& rig, const CheckOptions& options = {});

// Whether there is nothing to mend: every point reachable and no move blocked; where none was asked
// for, that some could be (which only a result that tells of the reachable region can deny).
bool all_well(const CheckResult& result);

// "grid 3,1".
std::string grid_point_name(std::int32_t column, std::int32_t row);

// That, the point's own name, or "home".
std::string point_name(const Setup& setup, const CheckedPoint& point);

}  // namespace leeway
