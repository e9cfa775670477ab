#pragma once
// Areas of a region inside very many rectangles.

#include <vector>

#include "leeway/geometry.h"

namespace leeway {

// For rectangles whose front and back are among given values: with
//   s = left_of(x):  s[k] is the area of the region where X <= x and Y <= ys[k],
// the area inside [x0, x1] x [ys[i], ys[k]] is
//   left_of(x1)[k] - left_of(x0)[k] - left_of(x1)[i] + left_of(x0)[i].
// By Green's theorem that sum is the integral of min(X, x) dY along the edges below ys[k].
class AreaSums {
 public:
  // REQUIRES: ys sorted.
  AreaSums(const MultiPolygon& region, std::vector<double> ys);

  // In mm2. Time linear in the edges, and in the values of ys that each edge spans.
  std::vector<double> left_of(double x) const;

 private:
  struct Edge {
    Point low;
    Point high;
    double sign = 1;       // 1 where the ring goes upward
    std::size_t from = 0;  // the first of ys above `low`
  };

  std::vector<double> ys_;
  std::vector<Edge> edges_;
};

}  // namespace leeway
