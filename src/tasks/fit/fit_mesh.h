#pragma once
// One mesh: whether it works, and what it is worth.

#include <cmath>
#include <functional>
#include <optional>
#include <vector>

#include "leeway/limits.h"
#include "leeway/regions.h"
#include "model/limits/ticks.h"
#include "model/regions/reachable_lines.h"

namespace leeway {

// How many columns (or rows) a mesh of some width has: a number, or as many as keep the spacing.
class LineCount {
 public:
  static LineCount fixed(int count) { return LineCount(count, 0); }
  static LineCount spaced(double spacing) { return LineCount(0, spacing); }

  // At least 2, and never more than a mesh may have points: check `exactly_over` first.
  int over(double length) const;
  // The same without that end.
  double exactly_over(double length) const;
  bool always_the_same() const { return count_ > 0; }

 private:
  LineCount(int count, double spacing) : count_(count), spacing_(spacing) {}

  int count_;
  double spacing_;
};

// Values that a side may take, in increasing order.
using SideChoices = std::vector<double>;

class MoveGround;

struct FitProblem {
  const Limits* limits = nullptr;
  const Regions* regions = nullptr;
  const MultiPolygon* printable = nullptr;  // what counts as covered
  std::vector<ReachableLine> lines;         // reachable, and not in the regions
  // How far the reachable region may fall short of the positions that are reachable.
  double shortfall = 0;
  const MoveGround* moves = nullptr;  // where the moves over a mesh have to be clear
  bool skip_outside_bed = false;
  bool inside = false;  // the whole rectangle must lie in the reachable region
  LineCount columns = LineCount::fixed(2);
  LineCount rows = LineCount::fixed(2);
  SideChoices lefts;
  SideChoices rights;
  // Either the same multiples of `step`, or one of the two is a single value.
  SideChoices fronts;
  SideChoices backs;
  double step = 0;
  Point centre;  // of the bed
  // Pieces of work after which equal meshes are equal enough: the best so far is taken.
  long most_for_ties = 300'000;
  std::function<void()> breathe;  // called for each piece of work: see work()

  // A block of meshes bounded, a point or a mesh evaluated, a row of choices looked through.
  void work() const {
    if (breathe) breathe();
  }
};

// A mesh whose points are all reachable, and whose moves are clear where the problem asks for it.
struct FoundMesh {
  Box bounds;
  int columns = 0;
  int rows = 0;
  double area = 0;          // of the printable region inside, rounded to 1e-6 mm2
  double least_leeway = 0;  // of any limit at any point
  double off_centre = 0;    // from the middle of the bounds to `centre`, rounded to 1e-6

  // The larger area; of equal ones the larger least leeway; of equal ones the more centred.
  bool better_than(const FoundMesh& other) const;
};

// The mesh over given bounds, when it works; its area is left at 0. With
// skip_outside_bed, points off the bed do not count, but each side of the mesh must keep its
// middle point (or middle two). `failed`, when given, is told a point that is not reachable, if
// that is what stops it.
struct LatticePlace {
  int column = 0;
  int row = 0;
};
std::optional<FoundMesh> mesh_over(const FitProblem& problem, const Box& bounds,
                                   LatticePlace* failed = nullptr);

// What areas and distances are rounded to before they are compared.
inline double to_millionths(double value) {
  // The library's rounding is a call, and areas are compared very often. Beyond, ticks are not
  // exact.
  constexpr double kExactAsTicks = 1e9;
  return std::abs(value) < kExactAsTicks ? rounded_to_ticks(value)
                                         : std::round(value * 1e6) / 1e6 + 0.0;
}

// From the middle of the bounds to a point, rounded.
double off_centre(const Box& bounds, Point centre);

// Whether line `i` of `lines` is the middle one, or one of the middle two.
bool is_middle(int i, int lines);

// The lines 0 to lines - 1, the outer ones first: they are the likeliest to fail.
std::vector<int> inward_from_ends(int lines);

}  // namespace leeway
