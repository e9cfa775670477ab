#pragma once
// `walk`: a way that carries the probe over the points that it can reach, lifted, to be watched.
//
//   const WalkResult result = walk(rig);
//   if (!result.stops.empty()) write_walk_program(result, rig, {}, sink);
//
// All lengths are mm. Nothing is probed, homed or heated.

#include <cstdint>
#include <optional>
#include <vector>

#include "leeway/check.h"
#include "leeway/error.h"
#include "leeway/progress.h"
#include "leeway/rig.h"

namespace leeway {

// Nobody watches more.
inline constexpr std::size_t kMostWalkStops = 1000;
// What the nozzle is kept above the least safe height where no height is asked for.
inline constexpr double kWalkHeightAbove = 5;
// And above the bed in any case, whatever is safe by the numbers.
inline constexpr double kLeastWalkHeight = 1;

// in_turn: the corners of the grid, then the tightest, then all others. all: in one short order.
enum class WalkPoints : std::uint8_t { in_turn, corners, tightest, all, home };

struct WalkOptions {
  WalkPoints points = WalkPoints::in_turn;
  std::optional<double> height;  // of the nozzle above the bed; rounded up to thousandths
  std::optional<Point> from;     // where the nozzle stands; nothing: it is put at the first stop
  Progress progress;
};

// Places of the nozzle are whole thousandths, as the program says them; verdicts are of those.
struct WalkStop {
  std::size_t point = 0;   // index into WalkResult::check
  std::vector<Point> via;  // where the nozzle goes on its way to it, where the straight one is not
                           // clear at any height
  Point nozzle;
  Point probe;
  Finding finding;  // reachable
};

// A point that is not walked over.
struct WalkLeftOut {
  enum class Why : std::uint8_t { not_reachable, rounding, no_way };
  std::size_t point = 0;
  Why why = Why::not_reachable;
};

struct WalkResult {
  CheckResult check;
  std::vector<WalkStop> stops;
  std::optional<Point> from;          // where the nozzle stands before, in thousandths
  std::vector<WalkLeftOut> left_out;  // of the points asked for
  // Above the middle of the bed, with the way there; nothing where no clear way leads to it.
  std::optional<WalkStop> end;
  double height = 0;  // of the nozzle above the bed, all the way
  double least = 0;   // it may not be lower: the least safe height, and kLeastWalkHeight
  SafeHeight safe;    // of this way; its least height is there
};

// There are too many points to watch.
class WalkRefused : public Error {
 public:
  using Error::Error;
};

// The height that was asked for is not safe.
class WalkHeightTooLow : public WalkRefused {
 public:
  explicit WalkHeightTooLow(double least)
      : WalkRefused("the height is below the least safe one"), least_(least) {}
  double least() const { return least_; }  // in whole thousandths

 private:
  double least_;
};

// Only points that are reachable as printed are walked over. Each straight move is clear at the
// height, with guard bands (MoveLimits). The way over a group of points is never longer than that
// in the order of the check. No stops where no point is reachable. Throws WalkRefused,
// InvalidSetup, SetupTooDetailed, OverlayFault and Stopped.
WalkResult walk(const Rig& rig, const WalkOptions& options = {});

}  // namespace leeway
