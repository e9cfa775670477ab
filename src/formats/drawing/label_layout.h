#pragma once
// Where labels go in a picture, so that none lies on another, on a mark, or over the edge, and each
// says what it names: it is nearer to its own mark than to any other's, or a line leads from it to
// its mark and crosses no label. In units of the picture, y down.

#include <optional>
#include <string>
#include <vector>

#include "formats/drawing/text_width.h"
#include "leeway/geometry.h"

namespace leeway {

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
  bool around = true;  // whether a place around `at` will do; if not, it names no mark
  // The mark as boxes that cover its lines; none: the whole box of `half` around `at`.
  std::vector<Box> mark = {};
  bool solid = false;  // no label stands on its mark, but for its own on one of `places`
};

struct PlacedLabel {
  std::size_t label = 0;  // index
  Box box;                // that the text stays in
  Point base;             // its left end on the base line
  bool far = false;       // a line is wanted, and its ends are:
  Point lead_from;        // at the box
  Point lead_to;          // at the mark
};

// Finds places around each label's own, near ones first, labels in the order given. `taken` are
// boxes to keep off, `avoided` those to keep off if there is room nearby, `within` the picture;
// `marks` are those that no label names. A label without a place is not among the results. No two
// boxes of the result overlap, none overlaps a taken one, and no line crosses a box.
std::vector<PlacedLabel> place_labels(const std::vector<Label>& labels,
                                      const std::vector<Box>& taken,
                                      const std::vector<Box>& avoided, const Box& within,
                                      const std::vector<Box>& marks = {});

}  // namespace leeway
