#pragma once
// The limits that matter, place by place: what makes very many positions cheap in any order.

#include <optional>
#include <span>
#include <vector>

#include "model/limit_run.h"

namespace leeway {

// A grid of square cells over some positions, each with the choice of limits for all of it.
class ChoiceGrid {
 public:
  // Covers the box of the positions.
  ChoiceGrid(const std::vector<PreparedLimit>& limits, Point offset,
             std::span<const Point> positions);

  // Fewer positions than this are not worth a grid.
  static constexpr std::size_t kWorthwhile = 20'000;

  struct Cell {
    Choice choice;
    Box box;
    bool made = false;

    bool holds(Point p) const {
      return p.x >= box.x0 && p.x <= box.x1 && p.y >= box.y0 && p.y <= box.y1;
    }
  };

  // The cell of a position inside the grid; its choice is made when first asked for.
  const Cell& cell(Point p) { return cell(index(p)); }

  std::size_t size() const { return cells_.size(); }
  std::size_t index(Point p) const;
  const Cell& cell(std::size_t index);

 private:
  static constexpr int kCells = 64;  // a side

  const std::vector<PreparedLimit>& limits_;
  Point offset_;
  Box box_;
  double cells_per_mm_ = 0;
  double side_ = 0;
  std::vector<Cell> cells_;
  std::vector<double> at_middle_;
};

}  // namespace leeway
