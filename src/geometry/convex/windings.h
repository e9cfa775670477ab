#pragma once
// Winding numbers of closed ways.

#include <cstddef>
#include <vector>

#include "leeway/geometry.h"

namespace leeway {

class Windings {
 public:
  // Directed edges that together form closed ways.
  void add(Point a, Point b);
  // After the last edge, before the first question.
  void prepare();

  // How often the ways wind round `p`, counter-clockwise. On an edge it is that of either side.
  int at(Point p) const;

 private:
  // An edge as rays to the right meet it.
  struct Edge {
    double y0, y1;  // y0 < y1
    double x0;      // at y0
    double x_per_y;
    double most_x;
    int step;
  };
  std::size_t row_of(double y) const;

  std::vector<Edge> edges_;
  // Rows of equal depth, each with the edges that reach into it.
  double from_ = 0;
  double to_ = 0;
  double rows_per_y_ = 0;
  std::vector<std::size_t> ends_;  // of the rows in `sorted_`
  std::vector<Edge> sorted_;       // by row, then the farthest right first
};

}  // namespace leeway
