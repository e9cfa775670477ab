#pragma once
// Lines of equal value over a lattice of values.

#include <span>
#include <vector>

#include "leeway/geometry.h"

namespace leeway {

// By marching squares (Lorensen and Cline, SIGGRAPH 1987, in the plane; from memory), linear along
// the sides of each cell; in a cell with two ways to join the crossings, its mean decides. A line
// that closes ends where it begins. A value equal to the level counts as above it.
// REQUIRES: values.size() == x.count * y.count, a row for each y, x varying fastest.
std::vector<std::vector<Point>> contour_lines(const Steps& x, const Steps& y,
                                              std::span<const double> values, double level);

}  // namespace leeway
