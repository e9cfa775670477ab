#pragma once
// An obstacle swept by whatever must keep off it: the positions of that thing's reference point
// at which the two would meet.

#include <optional>
#include <variant>
#include <vector>

#include "geometry/distance/field.h"
#include "geometry/growth/growth.h"
#include "leeway/setup.h"

namespace leeway {

// The sum of the obstacle and the mirrored part. A disc is its centre grown by its radius, so that
// it never becomes a polygon where verdicts are made.
struct Swept {
  // Convex pieces (rings) where both have an extent and one of them is a polygon.
  std::variant<Point, Box, MultiPolygon, std::vector<Ring>> core;
  double radius = 0;
};

// Throws SetupTooDetailed (limits.h) when there would be too many pieces; the names are for its
// message.
Swept sweep(const Shape& obstacle, const Shape& part, const std::string& obstacle_name,
            const std::string& part_name);

// The pieces of a plate's surroundings, out to `frame`, swept by the mirrored spot.
std::vector<Ring> sweep_surroundings(const MultiPolygon& bed, const Shape& spot, const Box& frame);

// The distance to the core; `radius` is not taken off. With a frame (pieces only) everything beyond
// it counts as covered; null when that is all.
FieldPtr outside(const Swept& swept, const std::optional<Box>& frame);

// The same with the inside of every polygon as convex pieces: what straight moves want.
FieldPtr outside_by_pieces(const Swept& swept);

// What the sweep grown by its radius and by `growth` covers, for the regions.
std::vector<Polygon> grown(const Swept& swept, Growth growth);

// The same sum elsewhere.
Swept moved(const Swept& swept, Point by);
Shape moved(const Shape& shape, Point by);

// The radius of a disc, and 0 for everything else.
double radius_of(const Shape& shape);
// The centre of a disc, or the point; REQUIRES one of the two.
Point center_of(const Shape& shape);
bool is_point_or_disc(const Shape& shape);

// A box or polygon as polygons. REQUIRES one of the two.
MultiPolygon polygons_of(const Shape& shape);

}  // namespace leeway
