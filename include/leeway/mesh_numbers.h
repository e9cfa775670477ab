#pragma once
// A mesh in the numbers that someone enters, in every frame and sense that a controller may ask
// for. What is printed is what was checked: each way of writing the mesh is asked again as it would
// be entered.
//
//   const MeshNumbers numbers = mesh_numbers(rig, 2);
//   if (numbers.probe) ...  // its bounds, in hundredths
//
// All lengths are mm.

#include <optional>
#include <vector>

#include "leeway/rig.h"

namespace leeway {

inline constexpr int kMostDecimals = 4;

// One place to send the probe to, rounded to the nearest. Nothing where rounding makes a reachable
// place one that is not. One that is not reachable anyway is rounded as it is.
struct PlaceNumbers {
  std::optional<Point> probe;
  std::optional<Point> nozzle;  // where the nozzle then is, rounded by itself
};

// One point of the mesh; columns and rows count from 1 at the front left.
struct MeshPlace {
  int column = 0;
  int row = 0;
  Point probe;  // as it is
  PlaceNumbers numbers;
  Finding finding;  // as it is entered
};

// Bounds are rounded up on the left and in front and down on the right and at the back, margins up,
// the spacing down: no point moves outward. Nothing where rounding takes the mesh out of reach at
// some point or, with a stated travel height, makes a move run into something. A mesh that is out
// of reach anyway is rounded as it is: ask `check` before anything is entered.
struct MeshNumbers {
  int columns = 0;
  int rows = 0;
  std::optional<Box> probe;                                // bounds, where the probe goes
  std::optional<Box> nozzle;                               // bounds, where the nozzle goes
  std::optional<Margins> probe_from_bed, nozzle_from_bed;  // from the bed's bounding box
  std::optional<Margins> nozzle_from_travel, probe_from_travel;
  // What the grid spans with every one of these, where the probe goes.
  std::optional<Box> spans;
  // Of the probe from the bed on all four sides, where they are one number.
  std::optional<double> uniform;
  // From the first line of `probe` or of `nozzle` to the next: the mesh holds with either. Nothing
  // along an axis with a single line.
  std::optional<double> spacing_x, spacing_y;
  std::vector<MeshPlace> places;  // row by row from the front left, without what is left out
};

// REQUIRES: the rig's request has a grid; 0 <= decimals <= kMostDecimals.
MeshNumbers mesh_numbers(const Rig& rig, int decimals);

PlaceNumbers place_numbers(const Rig& rig, Point probe, int decimals);

// What is found where somebody enters a place as it is printed: the one of least leeway after its
// guard of the ways that there are. `exact` is that of the place itself; it stays where it is not
// reachable, or where there is no way.
Finding finding_as_entered(const Rig& rig, const PlaceNumbers& numbers, const Finding& exact);

}  // namespace leeway
