#pragma once
// What is drawn on paper at true size: the bed, what stands on it, and the points.

#include <string>
#include <vector>

#include "formats/page/paper.h"
#include "formats/text/words.h"
#include "leeway/regions.h"

namespace leeway {

// What the drawing shows of the bed: the bed with a border.
Box true_size_content(const Setup& setup);

struct TrueSizeDrawing {
  // An element with the id "plan", a unit a mm, the left back corner of the content at 0, 0; and
  // what it refers to. To stand within <defs>.
  std::string svg;
  std::vector<std::string> off;       // names of points outside the content
  std::vector<std::string> left_out;  // names that would run into others
};

TrueSizeDrawing true_size_drawing(const CheckResult& result, const Setup& setup,
                                  const Regions& regions, const Words& words,
                                  const SheetPlan& plan);

// The style of sheets, black on white.
extern const char* const kSheetStyle;

}  // namespace leeway
