#pragma once
// Which way points turn, decided exactly.
//
// Coordinates are decimals, most of them whole micrometres, and a decimal is seldom exact in
// binary: three points of one line may seem to turn. As whole picometres they don't. Every number
// is then an integer, differences are exact up to 4 km from the origin, and a sign needs no
// tolerance. A finer input is displaced by half a picometre at most, a thousandth of what a leeway
// is rounded to.

#include <cmath>
#include <cstddef>
#include <vector>

#include "geometry/plane/assert.h"
#include "leeway/geometry.h"

namespace leeway {

inline constexpr double kPicometresPerMillimetre = 1e9;

inline Point in_picometres(Point mm) {
  return {std::round(mm.x * kPicometresPerMillimetre), std::round(mm.y * kPicometresPerMillimetre)};
}

inline std::vector<Point> in_picometres(const Ring& ring) {
  std::vector<Point> whole(ring.size());
  for (std::size_t i = 0; i < ring.size(); ++i) whole[i] = in_picometres(ring[i]);
  return whole;
}

// The sign of u.x v.y - u.y v.x: 1 when v is to the left of u, -1 to the right, 0 along the line.
// Exact: rounding keeps the order of two products, and only where they round alike does what they
// lost decide. fma is exact by definition, on every machine.
inline int cross_sign(Point u, Point v) {
  const double p = u.x * v.y;
  const double q = u.y * v.x;
  if (p != q) return p > q ? 1 : -1;
  const double p_lost = std::fma(u.x, v.y, -p);
  const double q_lost = std::fma(u.y, v.x, -q);
  return (p_lost > q_lost) - (p_lost < q_lost);
}

inline bool is_integral(Point p) { return p.x == std::round(p.x) && p.y == std::round(p.y); }

// 1 when the way from a by b to c turns left, -1 right, 0 straight. REQUIRES: whole picometres.
inline int orientation(Point a, Point b, Point c) {
  LEEWAY_ASSERT(is_integral(a) && is_integral(b) && is_integral(c));
  return cross_sign(b - a, c - a);
}

// From left to right, on one vertical from front to back.
inline bool lexicographic(Point a, Point b) { return a.x != b.x ? a.x < b.x : a.y < b.y; }

}  // namespace leeway
