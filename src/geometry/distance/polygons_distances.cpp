#include "geometry/distance/polygons_distances.h"

#include <algorithm>

#include "geometry/plane/wide.h"

namespace leeway {
namespace {

LEEWAY_WIDE void multiply(const double* __restrict signs, double* __restrict values,
                          std::size_t count) {
  for (std::size_t i = 0; i < count; ++i) values[i] *= signs[i];
}

}  // namespace

void PolygonsDistances::add(Point a, Point b) {
  // A level edge divides by 0 here. No ray crosses it, whatever comes of that: `between` is 0.
  rays_.push_back({a, b, (b.x - a.x) / (b.y - a.y)});
  boundary_.add(a, b);
}

// -1 when a ray to the right crosses the edge, else 1. The half-open rule: a vertex on the ray
// counts for one of its edges only. Written without branches for the loops below.
inline double PolygonsDistances::crossing(const Edge& edge, double x, double y) {
  const double beyond_a = edge.a.y > y ? 1.0 : 0.0;
  const double beyond_b = edge.b.y > y ? 1.0 : 0.0;
  const double between = (beyond_a - beyond_b) * (beyond_a - beyond_b);
  const double left = x < edge.a.x + (y - edge.a.y) * edge.x_per_y ? 1.0 : 0.0;
  return 1.0 - 2.0 * between * left;
}

// Takes one edge into the signs.
LEEWAY_WIDE void PolygonsDistances::take_crossing(Edge edge, const double* __restrict xs,
                                                  const double* __restrict ys,
                                                  double* __restrict signs, std::size_t count) {
  for (std::size_t i = 0; i < count; ++i) signs[i] *= crossing(edge, xs[i], ys[i]);
}

double PolygonsDistances::sign_at(Point p) const {
  double sign = sign_;
  for (const Edge& edge : rays_) sign *= crossing(edge, p.x, p.y);
  return sign;
}

double PolygonsDistances::distance(Point p) const { return sign_at(p) * boundary_.distance(p); }

void PolygonsDistances::distances(const double* xs, const double* ys, double* out,
                                  std::size_t count) const {
  for (std::size_t at = 0; at < count; at += Block::kMost) {
    const std::size_t size = std::min(Block::kMost, count - at);
    block_distances(make_block(xs + at, ys + at, size), out + at);
  }
}

// Where the boundary is too far to be crossed the sign is the same for all positions of a block.
void PolygonsDistances::block_distances(const Block& block, double* out) const {
  const double from_middle = boundary_.distance(block.middle);
  boundary_.distances(block, from_middle, out);
  double signs[Block::kMost];
  const bool crossed = from_middle <= block.reach + EdgeSet::kDoubt;
  std::fill_n(signs, block.count, crossed ? sign_ : sign_at(block.middle));
  if (crossed) {
    for (const Edge& edge : rays_) take_crossing(edge, block.xs, block.ys, signs, block.count);
  }
  multiply(signs, out, block.count);
}

}  // namespace leeway
