#pragma once
// `cover`: whether a print is inside the mesh bounds, and inside what can be printed.
//
//   PrintCover cover(rig, {});
//   cover.add(move);  // for each move that prints
//   const CoverResult result = cover.finish();
//
// All lengths are mm, in machine coordinates of the nozzle.

#include <cstddef>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "leeway/fit.h"
#include "leeway/limits.h"
#include "leeway/progress.h"
#include "leeway/rig.h"

namespace leeway {

// One move of the nozzle, straight or along a circle about `center`.
struct PrintedMove {
  Point from, to;
  double lowest = 0;   // of the nozzle above the bed, at either end
  double highest = 0;  // likewise
  std::optional<Point> center;
  bool clockwise = false;
  std::size_t line = 0;  // of the program, from 1
};

struct CoverOptions {
  double width = 0.4;  // of the line that is printed; half of it lies beside each move
  double around = 0;   // what the smallest grid shall have around the print
  // Of the smallest grid, in place of the request's; 5 where neither says any.
  std::optional<int> columns, rows;
  Progress progress;  // of the search for the grid
};

// Where something of the machine stands in the way of the print most.
struct CoverStop {
  LimitInfo limit;
  double leeway = 0;  // below 0
  Point at;           // of the nozzle
  double height = 0;  // of the nozzle above the bed
  std::size_t line = 0;
};

struct CoverResult {
  std::string setup;
  double width = 0;
  double around = 0;
  bool of_program = true;  // else of an area, taken at the height of the bed
  // What is printed, lines with their width; nothing where nothing is.
  std::optional<Box> extent;
  std::optional<Box> first_layer;  // of the lowest moves of a program
  double lowest = 0;
  double highest = 0;
  std::size_t moves = 0;
  std::optional<Box> mesh_bounds;  // of the request's grid, where the probe goes
  FitSides past;                   // how far the print goes past them, above 0
  std::vector<CoverStop> stops;    // one for each limit that is in the way, the worst first
  std::string grid_refused;        // why no grid was looked for
  // The smallest, with a mesh whose moves are clear, or the largest within it; nothing if none is.
  std::optional<FitResult> grid;
  FitSides grid_lacks;  // what of the print and what is around it that leaves out
};

// Inside the mesh bounds, and nothing in the way. Closed: on the bounds is inside.
bool inside_mesh(const CoverResult& result);
bool all_inside(const CoverResult& result);

// The moves are taken one by one and not kept: the memory does not depend on their number.
//
// Printing is judged by the limits of the setup, with the nozzle in the place of the probe: its
// travel, the bed less the inset, and each part of the head over each obstacle that is higher than
// its underside at the height of the move. Clearances count, uncertainties do not. Half the width
// of the line stays on the bed. Arcs count exactly in the extent; along limits they are chords no
// further than 0.001 from them.
class PrintCover {
 public:
  // Throws InvalidSetup and SetupTooDetailed as Limits does. The rig must live as long.
  PrintCover(const Rig& rig, const CoverOptions& options);
  ~PrintCover();
  PrintCover(PrintCover&&) noexcept;

  void add(const PrintedMove& move);
  // A whole area, its edge included, at the height of the bed. Throws InvalidSetup where it is
  // none. REQUIRES: a box, a disc or polygons. With a width of 0 its edge is that of the print.
  void add(const Shape& area);

  // Throws Stopped, OverlayFault and what fit() throws but for FitRefused.
  CoverResult finish();

 private:
  struct Impl;
  std::unique_ptr<Impl> impl_;
};

}  // namespace leeway
