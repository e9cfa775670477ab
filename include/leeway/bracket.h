#pragma once
// `bracket`: where the probe may sit.

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "leeway/check.h"
#include "leeway/error.h"
#include "leeway/limits.h"
#include "leeway/rig.h"
#include "leeway/setup.h"
#include "leeway/tolerance.h"

namespace leeway {

// One requested point of one of the setups.
struct BracketPoint {
  std::size_t setup = 0;  // index
  bool of_grid = false;
  std::string name;  // "grid 3,1", the point's own, or "home": to be printed, never to tell by
  Point probe;       // held where it is, whatever the offset
};

// A point that no offset can serve, and the limit of the probe's own place that says so.
struct PointOutOfReach {
  BracketPoint point;
  std::uint32_t limit = 0;  // index into the setup's Limits
  double leeway = 0;
  double guard = 0;
};

// What stops, or first would stop, an offset.
struct BracketStop {
  std::size_t setup = 0;
  LimitInfo limit;                    // of travel, head or mount
  std::optional<BracketPoint> point;  // not for limits of the mount
  double leeway = 0;
  double guard = 0;
};

// A side of the window: how far it goes, and what would stop an offset just beyond.
struct BracketSide {
  double at = 0;  // mm
  BracketStop stop;
};

struct BracketWindow {
  bool empty = true;
  double area = 0;            // mm2; 0 too where the window is a line or a point
  std::optional<Box> bounds;  // nothing when empty
  // In whole micrometres, on the safe side; no polygon where the window is a line or a point.
  MultiPolygon region;
  std::vector<BracketSide> sides;  // left, right, front, back; none when empty
};

// The leeway of an offset is how far it may move in any direction before a point within
// reach of some offset is not reachable any more, or the mount does not allow it. Outside the
// window it is minus the way to the nearest offset that works; minus infinity where there is none.
// In mm, rounded to 1e-6.
struct BracketOffset {
  Point offset;
  double leeway = 0;
  std::optional<double>
      coverage;                   // as in BracketTrade; nothing where a setup has nothing printable
  std::size_t blocked_moves = 0;  // of all setups: points alone make the window
};

// One choice of the trade-off between leeway and coverage.
struct BracketTrade {
  Point offset;
  double leeway = 0;    // of that offset
  double coverage = 0;  // the share of the printable area (coverage_map.h), the least of all setups
};

struct BracketChoice {
  BracketTrade trade;
  std::size_t blocked_moves = 0;  // of all setups
};

// The trade-off: rising in leeway, falling in coverage, from the most coverage to the most leeway.
// For each whole tenth of a millimetre of leeway it has the best offset found with at least that, by
// branch and bound down to squares of 0.15 mm. On 300 random setups no offset of a lattice was better
// by more than 0.1 mm of leeway and 0.16 % of the printable area.
struct BracketTradeOff {
  std::vector<BracketTrade> curve;
  BracketChoice most_coverage;
  std::optional<BracketChoice> knee;  // where more leeway begins to cost much; none on a line
  BracketChoice most_leeway;
};

struct BracketPresent {
  Point offset;
  bool inside = false;              // the window
  double leeway = 0;                // outside it that of the way to `nearest`, as it is told
  std::optional<BracketStop> stop;  // what leaves it least
  std::size_t blocked_moves = 0;
  std::optional<double> coverage;
  std::vector<std::string> overlaps;  // parts of its own head that the probe sits in
};

// Where no offset reaches every point: the one that reaches most. What it misses is the least set
// of points to leave out where `at_most` is `reached`.
struct BracketMost {
  Point offset;
  double leeway = 0;        // with the points that it reaches
  std::size_t reached = 0;  // of those within reach of some offset
  std::size_t at_most = 0;  // no offset reaches more
  std::vector<BracketPoint> missed;
};

// How much smaller the grids must be for the window to open: each side moved inward by so much.
// Nothing where no amount helps.
struct BracketShrink {
  std::optional<double> all;  // all four sides
  std::optional<double> x;    // left and right only
  std::optional<double> y;    // front and back only
};

// What an offset covers, and what a millimetre of it costs: the share of the printable area that
// the probe can reach (coverage_map.h), there and 1 mm to each side of there.
struct BracketCover {
  double share = 0;
  double left = 0;
  double right = 0;
  double front = 0;
  double back = 0;
};

// What a number of a machine does to an end of the window. Uncertainties are not looked at.
struct BracketInfluence {
  enum class Of {
    travel,
    bed,  // where the grid's margins are from its edges
    obstacle,
    clearance,
    obstacle_height,
    part,
    underside,
    trigger_height,
    body,  // of the probe
    envelope
  };
  enum class Edge { left, right, front, back, radius, none };

  std::size_t setup = 0;
  Of of = Of::travel;
  std::string name;        // of the obstacle or part
  Edge edge = Edge::none;  // of its shape
  std::size_t end = 0;     // of the window: left, right, front, back
  // mm that the end moves to the right, or to the back, where the number grows by 1 mm; of a height
  // what a whole mm makes of it, to the side on which that is more.
  double moves = 0;
};

struct BracketSetup {
  std::string name;
  std::size_t points = 0;   // asked for and not skipped
  std::size_t skipped = 0;  // left out, off the bed
  Point offset;             // its own
  std::optional<double> leeway_at_best;
  std::optional<BracketCover> cover;  // with its own offset; nothing where nothing is printable
  std::optional<BracketCover> cover_at_best;
};

struct BracketResult {
  std::vector<BracketSetup> setups;
  std::vector<Rig> rigs;                      // a setup's own, in the same order
  std::size_t points = 0;                     // of all setups
  std::vector<PointOutOfReach> out_of_reach;  // the rest of the result is about the other points
  Tolerance tolerance;                        // that was taken off
  BracketWindow window;
  std::vector<BracketInfluence> influences;  // the five that move an end of it most
  BracketPresent present;                    // the first setup's offset
  std::optional<BracketOffset> best;         // nothing when the window is empty
  // Nothing when it is empty, or where a setup has nothing printable.
  std::optional<BracketTradeOff> trade_off;
  std::optional<double> leeway_wanted;
  std::optional<BracketChoice> asked;    // with at least that leeway, if there is one
  std::optional<BracketOffset> nearest;  // to the present one, itself when that is inside
  std::vector<BracketPoint> conflict;    // when empty: points with no common offset, all needed
  bool mount_alone = false;              // when empty: the mount by itself leaves no place
  std::optional<BracketMost> most;       // when empty; nothing where no offset reaches any
  std::optional<BracketShrink> shrink;   // when empty and there is a grid
};

struct BracketOptions {
  Tolerance tolerance;           // taken off the window, and so off every answer
  std::optional<double> leeway;  // mm: wanted of `asked`
  bool influences = true;        // look for those too: most of the work
  Progress progress;
};

// What is asked for cannot be looked for; the message is a sentence for the user.
class BracketRefused : public Error {
 public:
  using Error::Error;
};

// The window of offsets with which every requested point that any offset can serve is reachable
// (guards taken off), common to all setups and cut with their mounts. The probe positions that are
// asked for are held: those given for the nozzle are converted with the setup's own offset first.
//
// `best` has the most leeway, to within 0.02 mm, and of those that have as much the most coverage;
// `nearest` is nearest to the present offset to
// within 0.02 mm (0.4 mm where a corner of the window is a needle); both in hundredths of a
// millimetre where those do, and both verified by the limits themselves. `conflict` cannot do
// without any of its points; for a convex travel and no obstacles it has at most three (Helly's
// theorem: Danzer, Gruenbaum and Klee, "Helly's theorem and its relatives", 1963; from memory).
// Windows thinner than 0.003 mm may be called empty unless every travel is a rectangle. `most` is
// exact but for squares of a micrometre and for very many points: then `at_most` is more.
//
// Throws BracketRefused when nothing is asked for, and what Limits and Regions throw.
BracketResult bracket(std::span<const Setup> setups, const BracketOptions& options = {});

// Whether there is a window, an offset with the leeway that was wanted, and no point out of reach
// with any offset.
bool all_well(const BracketResult& result);

}  // namespace leeway
