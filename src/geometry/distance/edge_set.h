#pragma once
// Distances to a set of straight edges, of one position or of many that lie close together.

#include <cstddef>
#include <vector>

#include "leeway/geometry.h"

namespace leeway {

// Positions that are looked at together.
struct Block {
  const double* xs;
  const double* ys;
  std::size_t count;
  Point middle;
  double reach;  // from the middle to any of them

  static constexpr std::size_t kMost = 64;
};
Block make_block(const double* xs, const double* ys, std::size_t count);

class EdgeSet {
 public:
  // More than rounding can take from a bound, in mm.
  static constexpr double kDoubt = 1e-6;

  // An edge of no length is its point.
  void add(Point a, Point b);

  double distance(Point p) const;

  // The distances of all positions of a block: edges that are too far from its middle to be the
  // nearest of any are left out. `from_middle` is distance(block.middle).
  // REQUIRES: block.count <= Block::kMost.
  void distances(const Block& block, double from_middle, double* out) const;

 private:
  struct Edge {
    Point a;
    Point along;
    double per_squared_length;
  };
  static double squared(const Edge& edge, double x, double y);
  static void take(Edge edge, const double* xs, const double* ys, double* squared,
                   std::size_t count);

  std::vector<Edge> edges_;
};

}  // namespace leeway
