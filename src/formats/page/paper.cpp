#include "formats/page/paper.h"
#include "leeway/write_true_size.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "formats/text/numbers.h"
#include "geometry/plane/assert.h"

namespace leeway {
namespace {

// The least sheet of the bed's own size: what is written on it needs room.
constexpr double kLeastWidth = 210;
constexpr double kLeastHeight = 180;
// How far from the end of an overlap its crosses are.
constexpr double kCrossInset = 30;

struct Size {
  double width = 0;
  double height = 0;
};

// ISO 216 (A series); letter is 8.5 by 11 inches of 25.4 mm.
Size size_of(Paper paper) {
  switch (paper) {
    case Paper::a3:
      return {297, 420};
    case Paper::letter:
      return {215.9, 279.4};
    case Paper::a4:
    case Paper::bed:
      break;
  }
  return {210, 297};
}

Box window_of(Size paper) {
  return {kPaperMargin, paper.width - kPaperMargin - kPaperSide, kPaperMargin,
          paper.height - kPaperMargin - kPaperFoot};
}

// How many windows of `room`, overlapping, span `length`. Kept in double: a bed may be vast.
double count(double length, double room) {
  return std::max(1.0, std::ceil((length - kPaperOverlap) / (room - kPaperOverlap) - 1e-9));
}

struct Turned {
  Size paper;
  double columns = 1;
  double rows = 1;

  double sheets() const { return columns * rows; }
};

Turned turned(Size paper, const Box& content) {
  const Box window = window_of(paper);
  return {paper, count(content.width(), window.width()), count(content.depth(), window.depth())};
}

Turned chosen(const Box& content, Paper paper) {
  if (paper == Paper::bed) {
    // Whole millimetres, for those who set paper sizes by hand.
    const double width = std::ceil(content.width() + 2 * kPaperMargin + kPaperSide - 1e-9);
    const double height = std::ceil(content.depth() + 2 * kPaperMargin + kPaperFoot - 1e-9);
    return turned({std::max(kLeastWidth, width), std::max(kLeastHeight, height)}, content);
  }
  const Size upright = size_of(paper);
  const Turned a = turned(upright, content);
  const Turned b = turned({upright.height, upright.width}, content);
  if (a.sheets() != b.sheets()) return a.sheets() < b.sheets() ? a : b;
  return content.width() > content.depth() ? b : a;
}

void refuse_too_large(const Turned& choice, Paper paper) {
  if (paper == Paper::bed) {
    const double longest = std::max(choice.paper.width, choice.paper.height);
    if (longest <= kLongestSheet) return;
    throw PaperRefused(
        fmt::format("at true size (1:1) the bed needs a sheet {} mm long, and {} mm is "
                    "the most",
                    decimal(longest), decimal(kLongestSheet)));
  }
  if (choice.sheets() <= kMostSheets) return;
  throw PaperRefused(
      fmt::format("at true size (1:1) the bed needs {:.0f} sheets of {}, and {} are the most",
                  choice.sheets(), word(paper), kMostSheets));
}

}  // namespace

const char* word(Paper paper) {
  switch (paper) {
    case Paper::a4:
      return "A4";
    case Paper::a3:
      return "A3";
    case Paper::letter:
      return "letter";
    case Paper::bed:
      break;
  }
  return "bed";
}

SheetPlan sheet_plan(const Box& content, Paper paper) {
  LEEWAY_ASSERT(content.width() > 0 && content.depth() > 0);
  const Turned choice = chosen(content, paper);
  refuse_too_large(choice, paper);
  SheetPlan plan;
  plan.width = choice.paper.width;
  plan.height = choice.paper.height;
  plan.columns = static_cast<int>(choice.columns);
  plan.rows = static_cast<int>(choice.rows);
  plan.window = window_of(choice.paper);
  const double step_x = plan.window.width() - kPaperOverlap;
  const double step_y = plan.window.depth() - kPaperOverlap;
  const double left =
      (content.x0 + content.x1 - plan.columns * step_x - kPaperOverlap) / 2;  // shared left over
  const double back = (content.y0 + content.y1 + plan.rows * step_y + kPaperOverlap) / 2;
  for (int row = 1; row <= plan.rows; ++row) {
    for (int column = 1; column <= plan.columns; ++column) {
      const double x0 = left + (column - 1) * step_x;
      const double y1 = back - (row - 1) * step_y;
      plan.sheets.push_back(
          {column, row, Box{x0, x0 + plan.window.width(), y1 - plan.window.depth(), y1}});
    }
  }
  return plan;
}

std::vector<Point> registration_points(const SheetPlan& plan) {
  // The middles of the overlaps, and along them: near both ends of each sheet, so that a cross
  // stands on both of two neighbours and no more than one sheet apart.
  std::vector<double> seams_x, seams_y, along_x, along_y;
  for (const Sheet& sheet : plan.sheets) {
    if (sheet.row == 1) {
      if (sheet.column > 1) seams_x.push_back(sheet.shows.x0 + kPaperOverlap / 2);
      along_x.push_back(sheet.shows.x0 + kCrossInset);
      along_x.push_back(sheet.shows.x1 - kCrossInset);
    }
    if (sheet.column == 1) {
      if (sheet.row > 1) seams_y.push_back(sheet.shows.y1 - kPaperOverlap / 2);
      along_y.push_back(sheet.shows.y0 + kCrossInset);
      along_y.push_back(sheet.shows.y1 - kCrossInset);
    }
  }
  std::vector<Point> points;
  for (const double x : seams_x) {
    for (const double y : along_y) points.push_back({x, y});
    for (const double y : seams_y) points.push_back({x, y});
  }
  for (const double y : seams_y) {
    for (const double x : along_x) points.push_back({x, y});
  }
  return points;
}

}  // namespace leeway
