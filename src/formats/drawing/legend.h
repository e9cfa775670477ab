#pragma once
// The legend of a drawing: what its marks mean, and what found no place in it.

#include <functional>
#include <string>
#include <string_view>
#include <vector>

#include "formats/drawing/svg.h"

namespace leeway {

struct LegendEntry {
  std::string text;
  // Draws the sample around a point, within 12 units to the left and right, 6 up and down.
  std::function<void(SvgWriter&, Point)> sample;
};

// Samples of an area and of a line of some classes.
LegendEntry swatch(const std::string& text, const std::string& classes);
LegendEntry stroke(const std::string& text, const std::string& classes);

struct Legend {
  std::vector<LegendEntry> entries;  // in columns
  std::vector<std::string> notes;    // below, over the whole width, broken into lines
};

// The height that it takes at a width.
double legend_height(const Legend& legend, double width);

// Its left upper corner at `at`. REQUIRES: a width of at least 200.
void write_legend(SvgWriter& svg, const Legend& legend, Point at, double width);

// Broken between words into lines of at most a width; a longer word is cut.
std::vector<std::string> broken_lines(const std::string& text, double size, double width);

// Adds a note with the whole name for each that is too long for a picture.
void add_full_names(const std::vector<std::string_view>& names, Legend& legend);

}  // namespace leeway
