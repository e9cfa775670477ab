#pragma once
// Small vector algebra.

#include <cmath>

#include "leeway/geometry.h"

namespace leeway {

inline double dot(Point a, Point b) { return a.x * b.x + a.y * b.y; }
inline double cross(Point a, Point b) { return a.x * b.y - a.y * b.x; }
inline double cross(Point o, Point a, Point b) { return cross(a - o, b - o); }
inline double norm(Point a) { return std::sqrt(dot(a, a)); }
inline double distance(Point a, Point b) { return norm(a - b); }
inline Point unit(Point a) { return (1 / norm(a)) * a; }
// To the right of the direction a.
inline Point right_of(Point a) { return {a.y, -a.x}; }

}  // namespace leeway
