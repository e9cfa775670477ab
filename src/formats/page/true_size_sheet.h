#pragma once
// What stands around the drawing on each sheet of a plan at true size.

#include <string>
#include <vector>

#include "formats/page/paper.h"

namespace leeway {

// What every sheet says.
struct SheetTexts {
  std::string title;
  std::string date;                // may be empty
  std::vector<std::string> notes;  // a line each, kMostSheetNotes are shown
};

inline constexpr std::size_t kMostSheetNotes = 1;

// "Sheet 2 of 6: row 1 from the back, column 2 from the left".
std::string sheet_name(const SheetPlan& plan, const Sheet& sheet);

// "2 sheets of A4, upright.": how many, of what, turned how.
std::string sheets_words(const SheetPlan& plan, Paper paper);

// What to do with the sheets, each a sentence.
std::vector<std::string> sheet_advice(const SheetPlan& plan);

// One sheet as an SVG element; a unit is a mm of paper. `defs` stands at its beginning: what the
// document has not defined yet, so that a sheet alone is a document (with `alone`, its namespace).
std::string sheet_svg(const SheetPlan& plan, const Sheet& sheet, const SheetTexts& texts,
                      const Box& content, const std::string& defs, bool alone);

}  // namespace leeway
