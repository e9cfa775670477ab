#pragma once
// The edges of rings given by a person, and where they meet.

#include <cstddef>
#include <vector>

#include "leeway/geometry.h"

namespace leeway {

// Closer than this is the same place. It covers what decimals lose in binary up to 1e6 mm.
inline constexpr double kTouching = 1e-9;

struct Edge {
  Point a;
  Point b;
  Box box;
  Point normal;           // unit, to the left
  std::size_t index = 0;  // in the ring as given
};

// An edge without length has some unit normal.
Edge edge_between(Point a, Point b, std::size_t index);

// Which vertices of a ring stay when the closing point and repeated neighbours go.
std::vector<std::size_t> kept_vertices(const Ring& ring);

// The edges between those.
std::vector<Edge> edges_of(const Ring& ring);

// Whether two boxes come as near as touching.
inline bool boxes_meet(const Box& a, const Box& b) {
  return a.x0 <= b.x1 + kTouching && b.x0 <= a.x1 + kTouching && a.y0 <= b.y1 + kTouching &&
         b.y0 <= a.y1 + kTouching;
}

// Whether two distances from a line lie on one side of it, clear of touching.
inline bool on_one_side(double s, double t) {
  return (s > kTouching && t > kTouching) || (s < -kTouching && t < -kTouching);
}

// Whether a point lies on an edge.
bool near_edge(Point p, const Edge& e);

// The points at which two edges meet: ends that lie on the other edge, and a crossing.
struct Meetings {
  Point at[5];
  int count = 0;

  void add(Point p) { at[count++] = p; }
};
Meetings meetings(const Edge& e, const Edge& f);

}  // namespace leeway
