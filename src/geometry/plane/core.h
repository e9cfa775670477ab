#pragma once
// A shape as a core and a disc that it is grown by.

#include <variant>

#include "leeway/geometry.h"

namespace leeway {

// What is in the core, and what is no farther from it than the radius. The core of a disc is its
// centre, that of a box with rounded corners a box or, where two sides or all are round from end to
// end, a segment (a box without a width) or a point. Distances to a shape are those to its core
// less the radius, so that nothing round becomes a polygon where verdicts are made.
struct Core {
  std::variant<Point, Box, MultiPolygon> of;
  double radius = 0;
};

Core core_of(const Shape& shape);
Core mirrored(Core core);  // at the origin

// The core when it is a point; nothing else has one.
const Point* point_of(const Core& core);

// The vertices that are the core's convex hull, counter-clockwise.
Ring hull_of(const Core& core);
// The box around the core alone; x0 > x1 for no polygons.
Box box_of(const Core& core);

// A shape that has four straight sides from corner to corner; nothing for others.
const Box* as_box(const Shape& shape);

// The corners of a box, counter-clockwise, each once: one or two where it has no width or depth.
Ring corners_of(const Box& box);

}  // namespace leeway
