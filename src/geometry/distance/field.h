#pragma once
// Signed distances: how far a position is from the edge of what is allowed.

#include <cstddef>
#include <memory>
#include <vector>

#include "geometry/distance/spread.h"
#include "leeway/geometry.h"

namespace leeway {

struct Sum;
using SharedSum = std::shared_ptr<const Sum>;

// Distance to the edge, and the guard there.
struct GuardedDistance {
  double distance = 0;
  double guard = 0;
};

// The signed distance from a position to the boundary of an allowed set: positive inside, 0 on the
// boundary, negative outside. It changes by no more than 1 mm per mm of movement.
class Field {
 public:
  virtual ~Field() = default;

  virtual double distance(Point p) const = 0;

  // distance() of `count` positions, to the bit; the cheap way for many.
  virtual void distances(const double* xs, const double* ys, double* out, std::size_t count) const;

  // Where the boundary has several edges and the spread is not the same in all directions, the
  // guard is such that `distance - guard` is the least that any edge or corner facing the position
  // leaves: the nearest edge need not be the one that decides. Exactly on a corner, where no
  // normal is defined, the guard is the largest.
  virtual GuardedDistance guarded_distance(Point p, const Spread& spread) const = 0;

  // The least distance on the way from `a` to `b`. Its sign is exact; where the allowed set is
  // not the outside of a convex set a negative value may be short of the true depth.
  virtual double least_along(Point a, Point b) const = 0;
};

using FieldPtr = std::unique_ptr<Field>;

enum class Axis { x, y };

// coordinate >= bound (facing 1), or <= bound (facing -1).
FieldPtr beyond_side(Axis axis, double bound, int facing);

FieldPtr inside_disc(Disc disc);
FieldPtr outside_disc(Disc disc);
FieldPtr outside_box(const Box& box);

// Outside one convex counter-clockwise ring. REQUIRES: three or more vertices.
FieldPtr outside_convex(Ring ring);

// Inside all discs of one radius around `centers`. Null when there is no such point.
FieldPtr inside_discs(const std::vector<Point>& centers, double radius);

// Inside a box grown by a disc, and with several shifts inside all of the copies moved by minus
// each of them. Null when there is no such point. REQUIRES: at least one shift; core.x0 <= core.x1
// and core.y0 <= core.y1. Building it takes the time of the square of their number.
FieldPtr inside_rounded(const Box& core, double radius, const std::vector<Point>& shifts);

// Inside or outside of polygons that do not overlap.
FieldPtr inside_polygons(const MultiPolygon& polygons);
FieldPtr outside_polygons(const MultiPolygon& polygons);

// Outside the union of convex counter-clockwise rings with three or more vertices. With a frame,
// everything beyond the frame counts as covered, whether pieces reach there or not, and edges out
// there are no boundary. Null when the pieces leave nothing uncovered inside the frame.
// REQUIRES: pieces is not empty.
FieldPtr outside_pieces(std::vector<Ring> pieces, const Box* frame = nullptr);

// Outside a Minkowski sum. With a frame as above. REQUIRES: not null.
FieldPtr outside_sum(SharedSum sum, const Box* frame = nullptr);

// Minus infinity everywhere: the distance to a set that is empty.
FieldPtr nowhere();

}  // namespace leeway
