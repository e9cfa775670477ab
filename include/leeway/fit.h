#pragma once
// `fit`: the bounds of a mesh that are right, and a homing point.

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "leeway/change.h"
#include "leeway/check.h"
#include "leeway/error.h"
#include "leeway/limits.h"
#include "leeway/mesh_numbers.h"
#include "leeway/regions.h"
#include "leeway/rig.h"
#include "leeway/setup.h"

namespace leeway {

inline constexpr double kFinestStep = 0.05;  // mm
inline constexpr long kMostBounds = 40'000;  // values that one side may take
// Of one mesh: every point of very many meshes is looked at.
inline constexpr long kMostMeshPoints = 100'000;

struct FitSides {
  std::optional<double> left, right, front, back;  // mm, where the probe shall be
};

struct FitOptions {
  double step = 0.5;  // mm; whole hundredths, at least kFinestStep
  // Each in place of the request's. Spacing: as few columns and rows as keep to it, at least 2.
  std::optional<int> columns, rows;
  std::optional<double> spacing;
  bool uniform = false;       // one margin from the bed's bounding box on all sides
  bool inside = false;        // the whole rectangle in the reachable region, not only the points
  std::optional<Box> within;  // where the bounds may lie, for the probe
  FitSides sides;             // held as they are
  double home_leeway = 12;    // mm
  double keep = 0;            // mm of leeway that every point shall have on top of its guard
  int decimals = 3;           // to which numbers to enter are rounded, 0 to kMostDecimals
  bool remedies = true;       // where nothing fits, look for what would mend it: a second or so
  Progress progress;
};

// What is asked for cannot be looked for; the message is a sentence for the user.
class FitRefused : public Error {
 public:
  using Error::Error;
};

struct FitPoint {
  Point probe;
  Finding finding;
};

// Bounds, where the probe shall be, with what they are worth.
struct FitMesh {
  int columns = 0;
  int rows = 0;
  Box bounds;
  double area = 0;          // mm2 of the printable region inside
  double least_leeway = 0;  // of any limit at any point
  std::size_t skipped = 0;  // points left out, off the bed
  Coverage coverage;
  FitPoint tightest;  // the point of least leeway less guard
  Point spacing;      // between columns, between rows; rounded down to 1e-6
};

struct FitHome {
  Point probe;
  double leeway = 0;  // the least of any limit, rounded to 1e-6
};

// A named point or home that no mesh can mend.
struct FitUnmet {
  std::string name;
  FitPoint point;
  PlaceNumbers place;  // rounded as it is: nobody can be sent there
};

// One thing that is asked for otherwise: an option, or a value of the setup.
struct SideLetGo {
  GridSide edge = GridSide::left;
  double to = 0;  // where it goes
};
struct WithinLetGo {};
struct SearchStep {
  double to = 0;  // mm
};
using FitChange = std::variant<SideLetGo, WithinLetGo, SearchStep, GridColumns, GridRows,
                               EdgeDistance, CoverageFactor, ProbeOffset>;

// A change that lets something fit. Tried, and it does.
struct FitRemedy {
  FitChange change;
  double from = 0;  // what the number was, of changes of one number
  FitMesh mesh;     // what fits then
};

// Why nothing fits: the limit that stops the place with most leeway, and how much it lacks there.
struct FitLimiting {
  FitPoint place;
  std::optional<std::string> why_empty;  // the reachable region, in words
  // Places can be reached, but the widest of meshes covers nothing that can be printed. Then
  // `place` is the printable one nearest to where the probe gets.
  bool covers_nothing = false;
  std::optional<std::string> why_unprintable;  // nothing can be printed at all, in words
};

// A mesh that covers more, and the least height of the nozzle at which its moves are clear.
struct FitHigher {
  FitMesh mesh;
  double height = 0;
};

struct FitResult {
  std::string setup;
  Point offset;     // nozzle to probe
  int columns = 0;  // looked for; 0 where a spacing decides
  int rows = 0;
  std::optional<FitMesh> mesh;  // nothing when nothing fits
  MeshNumbers numbers;          // of the mesh, rounded to FitOptions::decimals
  // One margin for all four sides, from the bed's edges: of its own, best mesh; rounded up.
  std::optional<double> uniform_margin;
  // Where the moves over the largest mesh are not clear at the stated travel height, `mesh` is the
  // best of those whose moves are, and this the largest; nothing where no height is enough. Where
  // there is no such mesh, `mesh` is the largest, and `checked` tells of its moves.
  std::optional<FitHigher> higher;
  // Of very many meshes with points left out the moves of each were blocked, and the search ended:
  // there may be one.
  bool gave_up_on_moves = false;
  // One more or fewer column or row, where that covers clearly more; fit() does not look for it
  // (better_neighbour, compare_grids.h).
  std::optional<FitMesh> neighbour;
  CheckResult checked;  // of the setup with this mesh, moves included; empty when nothing fits
  std::optional<FitHome> home;  // nothing when no place is reachable
  double home_wanted = 0;       // the leeway that was asked for
  std::vector<FitUnmet> unmet;
  // The request's own mesh.
  std::optional<Box> before;
  int columns_before = 0;
  int rows_before = 0;
  std::size_t points_before = 0;
  std::size_t failing_before = 0;  // of its points
  std::optional<Coverage> coverage_before;
  std::optional<FitLimiting> limiting;  // when nothing fits
  std::vector<FitRemedy> remedies;
  double keep = 0;  // as asked for
  // Nothing fits that keeps as much as that: the most that some mesh keeps, in tenths. Then nothing
  // is limiting.
  std::optional<double> most_kept;
};

// Looks for bounds, all multiples of the step (but for sides that are held), for which every point
// of the mesh is reachable, and of all those takes the best: that with the largest area of the
// printable region inside, of equal ones that with the larger least leeway, of equal ones the more
// centred. With the grid's skip_outside_bed, points off the bed do not count, but each side of
// the mesh must keep its middle point, or its middle two: that is where it ends. A mesh that covers
// nothing of the printable region is of no use, and none.
//
// Where very many meshes cover the same and the search for the best of these would take long, it
// ends with the best it has found: the area is the largest in any case, and the answer is always
// the same.
//
// Passages that are narrower than about 0.01 mm may be overlooked, but for those along an axis
// (whole hundredths; not where regions have thousands of corners). Throws FitRefused, and what
// Limits and Regions throw.
FitResult fit(const Rig& rig, const FitOptions& options = {});
FitResult fit(const Setup& setup, const FitOptions& options = {});

// Whether something fits, the other points are reachable too, and no move is blocked.
bool all_well(const FitResult& result);

// The setup with the mesh of a fit as its request's grid.
Setup with_mesh(Setup setup, const FitMesh& mesh);

}  // namespace leeway
