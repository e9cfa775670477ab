#pragma once
// Convex pieces whose union is never made: what of their edges is exposed.
//
// Covering is decided with an allowance of kSeam towards "covered": where pieces meet, rounding
// leaves neither a gap nor a stray bit of edge, and an exact fit between parts of one obstacle is
// never passable.

#include <vector>

#include "leeway/geometry.h"

namespace leeway {

inline constexpr double kSeam = 1e-9;  // mm; far above rounding, far below what leeways are
                                       // rounded to

// An edge as a line: positive outside.
struct Side {
  Point normal;
  double at = 0;

  double beyond(double x, double y) const { return normal.x * x + normal.y * y - at; }
};

struct Piece {
  Ring ring;
  Box box;
  std::vector<Side> sides;
};

// REQUIRES: a convex counter-clockwise ring of three or more vertices.
Piece make_piece(Ring ring);

struct Segment {
  Point a;
  Point b;
};

// The parts of the pieces' edges that no other piece covers.
std::vector<Segment> exposed_edges(const std::vector<Piece>& pieces);

double box_distance(const Box& box, Point p);

bool outside_frame(const Box& frame, Point p);

// Leaves out what lies beyond the frame.
void drop_beyond(const Box& frame, std::vector<Segment>& segments);

}  // namespace leeway
