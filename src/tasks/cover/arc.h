#pragma once
// Moves along circles.

#include "leeway/cover.h"

namespace leeway {

// The smallest box around a move. Arcs exactly: with the sides of the circle that they pass. A move
// about a centre that ends where it begins is the whole circle.
Box box_of(const PrintedMove& move);

// The corners of chords along it, both ends included, none further from it than `most`.
std::vector<Point> chords_of(const PrintedMove& move, double most);

}  // namespace leeway
