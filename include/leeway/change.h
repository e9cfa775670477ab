#pragma once
// One value of a setup that is to be another: what `explain` and `fit` propose.

#include <cstddef>
#include <variant>
#include <vector>

#include "leeway/setup.h"

namespace leeway {

enum class GridSide { left, right, front, back };

struct CoverageFactor {
  double to = 0;
};
struct BedShape {
  Shape to;
};
struct TravelShape {
  Shape to;
};
struct ProbeOffset {
  Point to;
};
// Of each component, standard, in mm; the same of where the bed lies and of the ends of the travel.
struct OffsetUncertainty {
  Point to;
};
struct BedUncertainty {
  double to = 0;
};
struct TravelUncertainty {
  double to = 0;
};
struct SpotShape {
  Shape to;
};
struct EdgeDistance {
  double to = 0;  // mm
};
struct GridColumns {
  int to = 0;
};
struct GridRows {
  int to = 0;
};
// In the grid's frame, in mm. A grid of margins keeps its bounds on the other axis.
struct GridAlongX {
  double from = 0;
  double to = 0;
};
struct GridAlongY {
  double from = 0;
  double to = 0;
};
struct GridFrame {
  Frame to = Frame::probe;
};
// One number for all sides, or the number of one side, in mm. A grid of bounds gets margins.
struct GridMargins {
  double to = 0;
};
struct GridMargin {
  GridSide edge = GridSide::left;
  double to = 0;
};
struct GridMarginsFrom {
  Margins::From to = Margins::From::bed;
};
struct PointPlace {
  std::size_t point = 0;  // index into Request::points
  Point to;
};
struct PointFrame {
  std::size_t point = 0;
  Frame to = Frame::probe;
};
struct HomePlace {
  Point to;
};
struct HomeFrame {
  Frame to = Frame::nozzle;
};

using Change = std::variant<CoverageFactor, BedShape, TravelShape, ProbeOffset, OffsetUncertainty,
                            BedUncertainty, TravelUncertainty, SpotShape, EdgeDistance, GridColumns,
                            GridRows, GridAlongX, GridAlongY, GridFrame, GridMargins, GridMargin,
                            GridMarginsFrom, PointPlace, PointFrame, HomePlace, HomeFrame>;
using Changes = std::vector<Change>;

// The setup after the changes, in their order. REQUIRES: it has the grid, the point and the home
// that they are about.
Setup applied(const Changes& changes, Setup setup);

// Whether one of them is of a kind.
template <typename Kind>
bool changes_any(const Changes& changes) {
  for (const Change& change : changes) {
    if (std::holds_alternative<Kind>(change)) return true;
  }
  return false;
}

}  // namespace leeway
