#include "geometry/distance/edge_set.h"

#include <algorithm>
#include <cmath>

#include "geometry/plane/assert.h"
#include "geometry/plane/infinity.h"
#include "geometry/plane/vector.h"
#include "geometry/plane/wide.h"

namespace leeway {
namespace {

LEEWAY_WIDE void take_roots(double* __restrict values, std::size_t count) {
  for (std::size_t i = 0; i < count; ++i) values[i] = std::sqrt(values[i]);
}

}  // namespace

Block make_block(const double* xs, const double* ys, std::size_t count) {
  double x0 = xs[0];
  double x1 = xs[0];
  double y0 = ys[0];
  double y1 = ys[0];
  for (std::size_t i = 1; i < count; ++i) {
    x0 = xs[i] < x0 ? xs[i] : x0;
    x1 = xs[i] > x1 ? xs[i] : x1;
    y0 = ys[i] < y0 ? ys[i] : y0;
    y1 = ys[i] > y1 ? ys[i] : y1;
  }
  return {xs, ys, count, {(x0 + x1) / 2, (y0 + y1) / 2}, norm({x1 - x0, y1 - y0}) / 2};
}

void EdgeSet::add(Point a, Point b) {
  const Point along = b - a;
  const double squared = dot(along, along);
  edges_.push_back({a, along, squared > 0 ? 1 / squared : 0});
}

inline double EdgeSet::squared(const Edge& edge, double x, double y) {
  const double vx = x - edge.a.x;
  const double vy = y - edge.a.y;
  double t = (vx * edge.along.x + vy * edge.along.y) * edge.per_squared_length;
  t = t > 0 ? t : 0;
  t = t < 1 ? t : 1;
  const double rest_x = vx - t * edge.along.x;
  const double rest_y = vy - t * edge.along.y;
  return rest_x * rest_x + rest_y * rest_y;
}

LEEWAY_WIDE void EdgeSet::take(Edge edge, const double* __restrict xs, const double* __restrict ys,
                               double* __restrict squared, std::size_t count) {
  for (std::size_t i = 0; i < count; ++i) {
    const double here = EdgeSet::squared(edge, xs[i], ys[i]);
    squared[i] = here < squared[i] ? here : squared[i];
  }
}

double EdgeSet::distance(Point p) const {
  double least = kInfinity;
  for (const Edge& edge : edges_) least = std::min(least, squared(edge, p.x, p.y));
  return std::sqrt(least);
}

void EdgeSet::distances(const Block& block, double from_middle, double* out) const {
  LEEWAY_ASSERT(block.count <= Block::kMost);
  // The edge nearest to the middle is within from_middle + reach of each position. One that is
  // farther than this from the middle is farther than that from each position.
  const double far = from_middle + 2 * block.reach + EdgeSet::kDoubt;
  std::fill_n(out, block.count, kInfinity);
  for (const Edge& edge : edges_) {
    if (squared(edge, block.middle.x, block.middle.y) > far * far) continue;
    take(edge, block.xs, block.ys, out, block.count);
  }
  take_roots(out, block.count);
}

}  // namespace leeway
