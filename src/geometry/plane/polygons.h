#pragma once
// Areas, boxes, containment, nearest points: what can be read off a ring or polygon directly.

#include <span>

#include "leeway/geometry.h"

namespace leeway {

// Positive for a counter-clockwise ring.
double signed_area(const Ring& ring);
double area(const Polygon& polygon);
Box bounding_box(std::span<const Point> points);

// The closest point to `p` of the closed segment from `a` to `b`.
Point closest_on_segment(Point a, Point b, Point p);

// Whether a ring turns one way only (straight corners allowed).
bool is_convex(const Ring& ring);

// The ring counter-clockwise, without repeated neighbours and without straight corners.
Ring normalized(const Ring& ring);

// The vertices of the outer rings.
Ring outline_points(const MultiPolygon& polygons);

// The counter-clockwise convex hull.
Ring convex_hull(Ring points);

// A box as counter-clockwise polygon.
Polygon to_polygon(const Box& box);

// The shape mirrored at the origin.
MultiPolygon mirrored(const MultiPolygon& polygons);
MultiPolygon translated(MultiPolygon polygons, Point by);

// A polygon moved, its vertices then on the lattice of whole micrometres.
Polygon moved_on_lattice(const Polygon& polygon, Point by);

}  // namespace leeway
