#pragma once
// Inside or outside of polygons that do not overlap.

#include <vector>

#include "geometry/distance/edge_set.h"

namespace leeway {

class PolygonsDistances {
 public:
  // 1 where nothing has been added is allowed, else -1.
  explicit PolygonsDistances(double sign) : sign_(sign) {}

  void add(Point a, Point b);

  double distance(Point p) const;
  void distances(const double* xs, const double* ys, double* out, std::size_t count) const;

 private:
  // An edge as rays to the right meet it.
  struct Edge {
    Point a;
    Point b;
    double x_per_y = 0;
  };
  static double crossing(const Edge& edge, double x, double y);
  static void take_crossing(Edge edge, const double* xs, const double* ys, double* signs,
                            std::size_t count);
  // 1 where it is allowed, -1 elsewhere.
  double sign_at(Point p) const;
  void block_distances(const Block& block, double* out) const;

  double sign_;
  std::vector<Edge> rays_;
  EdgeSet boundary_;
};

}  // namespace leeway
