#include "geometry/areas/pole.h"

#include <algorithm>
#include <cmath>
#include <queue>
#include <vector>

#include "geometry/distance/field.h"
#include "geometry/plane/assert.h"
#include "geometry/plane/polygons.h"
#include "geometry/plane/vector.h"

namespace leeway {
namespace {

// A needle has its greatest distance along all of a line: squares all along it would be halved.
constexpr int kMostHalvings = 20'000;

struct Square {
  Point middle;
  double half = 0;  // side
  double middle_is = 0;
  double bound = 0;  // what orders the squares: the smallest goes first
  double off = 0;    // how far from the centre of the box, squared

  double reach() const { return half * std::sqrt(2.0); }
};

// Of equal ones the first from the left, then the front: a queue may give them in any order, and
// two C++ libraries do.
struct Later {
  bool operator()(const Square& a, const Square& b) const {
    if (a.bound != b.bound) return a.bound > b.bound;
    if (a.off != b.off) return a.off > b.off;
    if (a.middle.x != b.middle.x) return a.middle.x > b.middle.x;
    if (a.middle.y != b.middle.y) return a.middle.y > b.middle.y;
    return a.half > b.half;
  }
};

using Queue = std::priority_queue<Square, std::vector<Square>, Later>;

Square around(const Box& box) {
  const Point middle{(box.x0 + box.x1) / 2, (box.y0 + box.y1) / 2};
  return {middle, std::max({box.width(), box.depth(), 1e-6}) / 2, 0, 0, 0};
}

template <typename Take>
void quarter(const Square& square, const Take& take) {
  const double half = square.half / 2;
  for (const double dx : {-half, half}) {
    for (const double dy : {-half, half})
      take(Square{square.middle + Point{dx, dy}, half, 0, 0, 0});
  }
}

double distance_to(const Square& square, Point p) {
  const double dx = std::max(0.0, std::abs(p.x - square.middle.x) - square.half);
  const double dy = std::max(0.0, std::abs(p.y - square.middle.y) - square.half);
  return std::hypot(dx, dy);
}

}  // namespace

Pole greatest_over(const Box& box, const std::function<double(Point)>& distance, double tolerance) {
  LEEWAY_ASSERT(tolerance > 0);
  Queue squares;
  Square first = around(box);
  first.middle_is = distance(first.middle);
  Pole best{first.middle, first.middle_is};
  squares.push(first);
  for (int i = 0; i < kMostHalvings && !squares.empty(); ++i) {
    const Square square = squares.top();
    squares.pop();
    if (square.middle_is + square.reach() <= best.distance + tolerance) continue;
    quarter(square, [&](Square part) {
      part.middle_is = distance(part.middle);
      if (part.middle_is > best.distance) best = {part.middle, part.middle_is};
      part.bound = -(part.middle_is + part.reach());
      const Point off = part.middle - first.middle;
      part.off = off.x * off.x + off.y * off.y;
      if (-part.bound > best.distance + tolerance) squares.push(part);
    });
  }
  return best;
}

std::optional<Pole> pole_of_inaccessibility(const MultiPolygon& region, double tolerance) {
  if (region.empty()) return std::nullopt;
  const FieldPtr inside = inside_polygons(region);
  return greatest_over(
      bounding_box(outline_points(region)), [&](Point p) { return inside->distance(p); },
      tolerance);
}

std::optional<Point> nearest_with(const Box& box, const std::function<double(Point)>& distance,
                                  double wanted, Point from, double tolerance) {
  if (distance(from) >= wanted && from.x >= box.x0 && from.x <= box.x1 && from.y >= box.y0 &&
      from.y <= box.y1) {
    return from;
  }
  Queue squares;
  std::optional<Point> best;
  double best_is = 0;
  const auto take = [&](Square square) {
    square.bound = distance_to(square, from);
    if (best && square.bound >= best_is - tolerance) return;
    square.middle_is = distance(square.middle);
    if (square.middle_is + square.reach() < wanted) return;
    // The best place of a square that may be good is near its middle; one that is good shortens
    // the search.
    const bool in_box = square.middle.x >= box.x0 && square.middle.x <= box.x1 &&
                        square.middle.y >= box.y0 && square.middle.y <= box.y1;
    if (square.middle_is >= wanted && in_box) {
      const double here = leeway::distance(square.middle, from);
      if (!best || here < best_is) {
        best = square.middle;
        best_is = here;
      }
    }
    if (square.reach() > tolerance / 4) squares.push(square);
  };
  take(around(box));
  for (int i = 0; i < kMostHalvings && !squares.empty(); ++i) {
    const Square square = squares.top();
    squares.pop();
    if (best && square.bound >= best_is - tolerance) break;
    quarter(square, take);
  }
  return best;
}

}  // namespace leeway
