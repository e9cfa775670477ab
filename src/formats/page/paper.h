#pragma once
// How a bed is cut into sheets of paper. Lengths are mm; on a sheet x is from the left and y from
// the top.

#include <vector>

#include "leeway/write_true_size.h"

namespace leeway {

// Printers leave a rim of some millimetres white: common practice, no source.
inline constexpr double kPaperMargin = 10;
inline constexpr double kPaperOverlap = 10;
// Within the margins, below and to the right of the drawing: what is written on a sheet, and a
// line to measure.
inline constexpr double kPaperFoot = 28;
inline constexpr double kPaperSide = 8;

// Column and row are counted from 1, from the left and from the back, as the sheets lie before
// one who stands before the machine.
struct Sheet {
  int column = 1;
  int row = 1;
  Box shows;  // of the bed
};

struct SheetPlan {
  double width = 0;  // of the paper, as it is turned
  double height = 0;
  int columns = 1;
  int rows = 1;
  Box window;                 // where on each sheet the drawing is, y0 above y1
  std::vector<Sheet> sheets;  // row by row from the back, each from the left
};

// The fewest sheets that show all of `content`, the paper upright or on its side; neighbours
// overlap by kPaperOverlap, and what is left over is shared between the outer edges. Throws
// PaperRefused. REQUIRES: content is not empty.
SheetPlan sheet_plan(const Box& content, Paper paper);

// Where on the bed two crosses shall meet, for each place where sheets overlap: the middle of
// each overlap, at its crossings with others and near the ends of each sheet.
std::vector<Point> registration_points(const SheetPlan& plan);

}  // namespace leeway
