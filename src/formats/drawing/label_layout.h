#pragma once
// Where labels go in a picture, so that none lies on another, on a mark, or over the edge. In units
// of the picture, y down.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "leeway/geometry.h"

namespace leeway {

// How wide a text may be in a sans-serif font of that size. By a table of advance widths that is
// generous for the fonts that readers have (common practice, no source).
double text_width(std::string_view text, double size);

// How much wider bold text may be.
inline constexpr double kBold = 1.15;

// How many bytes from the front are at most that wide; one character at least. REQUIRES: a text.
std::size_t fitting_length(std::string_view text, double size, double width);

// At most that wide, with "..." in the middle where something was cut.
std::string cut_to_width(std::string_view text, double size, double width);

struct Label {
  std::string text;
  Point at;             // what it belongs to
  double distance = 6;  // how far off it at least
  double size = 12;     // of the font
  bool bold = false;
  Point half = {};                 // half the width and depth of that, where it has any
  std::vector<Point> places = {};  // where to stand if there is room: its middle, best first
  // What a list of labels without a place says of it: the text, or this; empty for nothing.
  std::optional<std::string> otherwise = {};
  bool around = true;  // whether a place around `at` will do; if not, nothing is overlooked
};

struct PlacedLabel {
  std::size_t label = 0;  // index
  Box box;                // that the text stays in
  Point base;             // its left end on the base line
  bool far = false;       // far enough off to want a line to what it belongs to
};

// Finds places around each label's own, near ones first, labels in the order given. `taken` are
// boxes to keep off, `avoided` those to keep off if there is room nearby, `within` the picture. A
// label without a place is not among the results. No two boxes of the result overlap, and none
// overlaps a taken one.
std::vector<PlacedLabel> place_labels(const std::vector<Label>& labels,
                                      const std::vector<Box>& taken,
                                      const std::vector<Box>& avoided, const Box& within);

}  // namespace leeway
