#pragma once
// Growing and shrinking polygons for the regions, always on the safe side: what is grown is never
// smaller than the true set, what is shrunk never larger. Results have whole micrometres, ready
// for overlay.h; straight sides parallel to an axis come out exact where their growth is whole
// micrometres and the same all round, everything else within 0.0025 mm of the true curve (0.001 for
// the polygon that stands for a circle, the rest for the lattice), or within 0.02 mm where the
// growth varies much with direction.

#include <optional>
#include <vector>

#include "geometry/distance/spread.h"
#include "leeway/geometry.h"

namespace leeway {

// The largest distance from a true circle to the polygon that stands for it, before the lattice.
inline constexpr double kCircleTolerance = 0.001;

// By how much, in direction n: a fixed distance and a guard. Never negative.
struct Growth {
  double base = 0;
  Spread spread;

  double along(Point n) const { return base + spread.along(n); }
  double most() const { return base + spread.most(); }
};

// The polygon around a disc, and the one within it, each within `tolerance` of the circle. The
// vertices are exact values, not on the lattice. A disc of radius 0 gives its centre four times.
Ring circumscribed(Disc disc, double tolerance = kCircleTolerance);
Ring inscribed(Disc disc, double tolerance = kCircleTolerance);

// A convex counter-clockwise ring of one (a point), two (a segment) or more vertices, grown.
Polygon grown_convex(const Ring& ring, const Growth& growth);

// Polygons, grown: parts whose union is the result. Vertices where edges cross are not rounded.
std::vector<Polygon> grown(const MultiPolygon& polygons, const Growth& growth);

// What shrinking takes from polygons: parts along their boundary, on the inside, to be subtracted
// from snapped(polygons).
std::vector<Polygon> rim(const MultiPolygon& polygons, const Growth& growth);
MultiPolygon snapped(MultiPolygon polygons);

// A box moved in by a different distance on each side; nothing when nothing is left of it.
std::optional<Polygon> shrunk_box(const Box& box, const Growth& growth);

// A box grown by a disc of `radius`, then moved in by `by` all round; nothing when nothing is left.
std::optional<Polygon> shrunk_rounded(const Box& core, double radius, double by);

// What lies in all of several discs; nothing when that has no area. REQUIRES: at least one disc.
std::optional<Polygon> within_discs(const std::vector<Disc>& discs);

// A disc, shrunk; nothing when the growth exceeds the radius in any direction.
std::optional<Polygon> shrunk_disc(Disc disc, const Growth& growth);

}  // namespace leeway
