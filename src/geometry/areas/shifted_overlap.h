#pragma once
// Areas of a fixed region that a shifted one covers, for a whole lattice of shifts.

#include <span>
#include <vector>

#include "leeway/geometry.h"

namespace leeway {

// area(fixed and (moved + o)), exact but for rounding, without any overlay.
//
// By Green's theorem the area is a sum over pairs of edges, one of each region. With d(y) how far
// the fixed edge lies to the right of the moved one at height y, a pair adds
//   -sign * integral of max(0, o.x - d(y)) dy
// over the heights that both span. For one o.y that is, as a function of o.x, nothing up to the
// least d, a parabola up to the greatest, and a straight line after it; the lines of all pairs are
// summed for a row of shifts at once.
class ShiftedOverlap {
 public:
  // REQUIRES: regions as overlay.h leaves them, in any winding.
  ShiftedOverlap(const MultiPolygon& fixed, const MultiPolygon& moved);

  // The areas in mm2 for the shifts (xs, y). REQUIRES: areas.size() == xs.count.
  // Time linear in the pairs of edges that share a height, and in the shifts.
  void row(const Steps& xs, double y, std::span<double> areas) const;

 private:
  struct Edge {
    Point low;
    Point high;
    double slope = 0;  // dx/dy
    double sign = 1;   // 1 where the ring goes upward

    double x_at(double y) const { return low.x + slope * (y - low.y); }
  };
  class Row;

  static std::vector<Edge> edges_of(const MultiPolygon& region);

  std::vector<Edge> fixed_;  // by low end
  std::vector<Edge> moved_;
};

// The area of a region within a disc of one radius, wherever its centre.
class DiscOverlap {
 public:
  // REQUIRES: as above; radius > 0.
  DiscOverlap(const MultiPolygon& region, double radius);

  // In mm2: Green's theorem, edge by edge, in closed form. What of the boundary lies wholly inside
  // the disc, or wholly outside, is counted by the stretch and not by the edge.
  double area(Point center) const;

 private:
  // A stretch of consecutive edges.
  struct Stretch {
    Box box;
    Point first;
    Point last;
    double crosses = 0;  // sum of cross(a, b) over its edges
    int left = -1;       // two halves; a single edge has none
    int right = -1;
  };

  int build(const Ring& ring, std::size_t from, std::size_t to, bool reversed);
  double part(int stretch, Point center) const;

  double radius_;
  std::vector<Stretch> stretches_;
  std::vector<int> rings_;
};

}  // namespace leeway
