#pragma once
// The inner steps of convex_pieces (minkowski.h), apart so that tests can reach them.

#include <array>
#include <optional>
#include <vector>

#include "leeway/geometry.h"

namespace leeway::decomposition {

// Counter-clockwise triangles between vertices, which are sorted from left to right and unique.
struct Triangulation {
  std::vector<Point> vertices;  // mm, as given
  std::vector<Point> whole;     // the same in whole picometres
  std::vector<std::array<int, 3>> triangles;
};

// Triangles between the polygon's own vertices, in time n log n. Nothing when the rings cross.
std::optional<Triangulation> triangulate(const Polygon& polygon);

// Leaves out the edges between triangles that no corner needs (Hertel and Mehlhorn 1983: at most
// four times as many convex pieces as the fewest possible).
std::vector<Ring> merge_triangles(const Triangulation& triangulation);

// A second way, which shares nothing with the first: trapezoids between horizontal lines through
// the vertices. Their corners are rounded and need not be vertices of the polygon. Takes the time
// of vertices times edges on a line.
std::vector<Ring> trapezoids(const Polygon& polygon);

// Whether the pieces are convex and counter-clockwise and their areas add up to the polygon's.
bool adds_up(const std::vector<Ring>& pieces, const Polygon& polygon);

}  // namespace leeway::decomposition
