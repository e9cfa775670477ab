#pragma once
// The shares of a map as colours: its cells, lines of equal share, and the scale beside them.

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "formats/drawing/label_layout.h"
#include "formats/drawing/svg.h"
#include "leeway/write_bracket.h"

namespace leeway {

class MapShares {
 public:
  using Run = std::pair<int, int>;  // of cells, from the first to before the second

  explicit MapShares(
      const BracketReport& report);  // REQUIRES: a map. Keeps the report by reference.

  // In mm: cells reach half a step beyond the outermost offsets.
  Box extent() const;

  void draw_cells(SvgWriter& svg, const View& view) const;
  // The lines' numbers come to `labels`. A map of points has no lines.
  void draw_contours(SvgWriter& svg, const View& view, std::vector<Label>& labels) const;
  // What the pointer is told: the offset below it and what it reaches, without a script.
  void draw_tips(SvgWriter& svg, const View& view) const;
  // Right of the map, which takes `drawing` in the picture.
  void draw_scale(SvgWriter& svg, const Box& drawing) const;

 private:
  bool shows(int column, int row) const;
  bool cut_by_window() const;
  int band(int column, int row) const;
  double contour_step() const;
  bool is_open(Point offset) const;
  std::optional<std::pair<int, int>> open_cell(Run columns, Run rows) const;
  std::string tip(int column, int row) const;

  const BracketReport& report_;
  const CoverageMap& map_;
  bool any_open_ = false;
  double low_ = 0;  // the share that is darkest
  double high_ = 1;
};

}  // namespace leeway
