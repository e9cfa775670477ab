#pragma once
// An obstacle swept by whatever must keep off it: the positions of that thing's reference point
// at which the two would meet.

#include <optional>
#include <variant>
#include <vector>

#include "geometry/distance/field.h"
#include "geometry/growth/growth.h"
#include "geometry/plane/core.h"
#include "leeway/setup.h"

namespace leeway {

// The sum of the obstacle and the mirrored part: that of their cores, grown by both radii.
struct Swept {
  // Where both have an extent and one of them is a polygon: a convex ring, or any sum, or convex
  // pieces where one is a segment.
  std::variant<Point, Box, MultiPolygon, Ring, SharedSum, std::vector<Ring>> core;
  double radius = 0;
};

// Throws SetupTooDetailed (limits.h) when the outlines are too detailed together; the names are for
// its message.
Swept swept_obstacle(const Shape& obstacle, const Shape& part, const std::string& obstacle_name,
                     const std::string& part_name);

// A bed's surroundings, out to `frame`, swept by the mirrored spot.
Swept swept_surroundings(const MultiPolygon& bed, const Core& spot, const Box& frame);

// The distance to the core; `radius` is not taken off. With a frame (of a sum) everything beyond
// it counts as covered; null when that is all.
FieldPtr outside(const Swept& swept, const std::optional<Box>& frame);

// The same with the inside of every polygon as convex pieces: what straight moves want. Null where
// that is what outside() gives.
FieldPtr outside_by_pieces(const Swept& swept);

// What the sweep grown by its radius and by `growth` covers, for the regions.
std::vector<Polygon> grown(const Swept& swept, Growth growth);

// The same sum elsewhere.
Swept moved(const Swept& swept, Point by);
Shape moved(const Shape& shape, Point by);

// Whether a straight way between two of its points always stays within the shape.
bool is_convex_set(const Shape& shape);

}  // namespace leeway
