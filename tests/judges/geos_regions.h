#pragma once
// The regions of a setup built by GEOS alone, for areas to be held against ours.
//
// Sums of shapes are hulls of vertex sums over trapezoids (slabs.h); eroding is adding to the
// surroundings; a clearance or a disc is a many-sided ring half way between the inscribed and the
// circumscribed one, within 0.5 um of the circle.

#include "judges/geos.h"
#include "leeway/regions.h"
#include "leeway/setup.h"

namespace leeway::judges {

// How a distance is added to a shape.
enum class Rounding {
  hulls,  // exact to 0.5 um, slow: for tests
  buffer  // GEOSBuffer with chords within 1 um, what a user of GEOS would write: for benchmarks
};

// All geometries are in micrometres, kept in double and not rounded to whole ones.
class GeosRegions {
 public:
  // Keeps a reference. REQUIRES, for the reachable region: the uncertainty of the offset is the
  // same in x and y, so that every guard is one number.
  explicit GeosRegions(const Setup& setup, Rounding rounding = Rounding::hulls);

  geos::Geometry region(RegionKind kind) const;

 private:
  using Piece = std::vector<Point>;  // the vertices of a convex ring, or fewer

  // A shape as convex pieces in micrometres, and the radius that is still to be added.
  struct Pieces {
    std::vector<Piece> pieces;
    double radius = 0;
  };

  Pieces pieces_of(const Shape& shape, Point by = {}) const;
  static Pieces mirrored(Pieces of);
  static std::vector<Piece> pieces_of(const geos::Geometry& polygons);

  // Parts whose union is what `fixed` and `moving`, already mirrored, cover together with
  // `distance` (mm) around.
  void add_sum(const Pieces& fixed, const Pieces& moving, double distance,
               std::vector<geos::Geometry>& parts) const;
  // Positions at which all of `moving` is inside the shape and `distance` off its edge.
  geos::Geometry shrunk(const Shape& shape, Point by, const Shape& moving, double distance) const;
  geos::Geometry shrunk_disc(const Disc& disc, Point by, const Pieces& moving,
                             double distance) const;

  geos::Geometry sensing(bool guarded) const;
  std::vector<geos::Geometry> body_while_printing() const;
  geos::Geometry nozzle_set(double nozzle_height, Point by, bool with_body, bool guarded) const;
  void add_heads(double nozzle_height, Point by, bool with_body, bool guarded,
                 std::vector<geos::Geometry>& forbidden) const;
  double guard(double u, bool guarded) const;

  const Setup& setup_;
  Rounding rounding_;
};

}  // namespace leeway::judges
