#include "model/choice_grid.h"

#include <algorithm>
#include <cmath>

namespace leeway {
namespace {

Box positions_box(std::span<const Point> positions) {
  Box box{positions[0].x, positions[0].x, positions[0].y, positions[0].y};
  for (const Point p : positions) {
    box.x0 = std::min(box.x0, p.x);
    box.x1 = std::max(box.x1, p.x);
    box.y0 = std::min(box.y0, p.y);
    box.y1 = std::max(box.y1, p.y);
  }
  return box;
}

}  // namespace

ChoiceGrid::ChoiceGrid(const std::vector<PreparedLimit>& limits, Point offset,
                       std::span<const Point> positions)
    : limits_(limits),
      offset_(offset),
      box_(positions_box(positions)),
      cells_(static_cast<std::size_t>(kCells) * kCells),
      at_middle_(limits.size()) {
  side_ = std::max({box_.width(), box_.depth(), 1e-3}) / kCells;
  cells_per_mm_ = 1 / side_;
}

std::size_t ChoiceGrid::index(Point p) const {
  const auto along = [&](double from_start) {
    return std::clamp(static_cast<int>(from_start * cells_per_mm_), 0, kCells - 1);
  };
  return static_cast<std::size_t>(along(p.y - box_.y0)) * kCells +
         static_cast<std::size_t>(along(p.x - box_.x0));
}

const ChoiceGrid::Cell& ChoiceGrid::cell(std::size_t index) {
  Cell& cell = cells_[index];
  const auto column = static_cast<double>(index % kCells);
  const auto row = static_cast<double>(index / kCells);
  if (!cell.made) {
    // A little larger than its share, so that rounding leaves no position between two.
    const double margin = side_ * 1e-6;
    cell.box = {box_.x0 + column * side_ - margin, box_.x0 + (column + 1) * side_ + margin,
                box_.y0 + row * side_ - margin, box_.y0 + (row + 1) * side_ + margin};
    const Point middle{(cell.box.x0 + cell.box.x1) / 2, (cell.box.y0 + cell.box.y1) / 2};
    const double reach = std::hypot(cell.box.width(), cell.box.depth()) / 2;
    choose(limits_, offset_, middle, reach, at_middle_, cell.choice);
    cell.made = true;
  }
  return cell;
}

}  // namespace leeway
