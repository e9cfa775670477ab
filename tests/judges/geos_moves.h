#pragma once
// A judge of straight moves that places what moves: each part of the head, cut into convex pieces,
// is swept along the way as the hull of the piece at both ends, and GEOS measures how far that is
// from each obstacle. Discs are a centre line and a radius. Nothing of ours in between.

#include <vector>

#include "judges/geos.h"
#include "leeway/setup.h"

namespace leeway::judges {

class GeosMoveJudge {
 public:
  // Keeps a reference.
  explicit GeosMoveJudge(const Setup& setup);

  // What is left on the way from one position of the probe to another with the nozzle `height`
  // above the bed: the leeway to the edge of the travel, and to each obstacle that some part would
  // meet, less its clearance and less the guard band; of the guard band no more counts than the
  // ends of the way keep themselves. Below 0 only the sign and the nearness to 0 are meant (see
  // Demand in geos_judge.h).
  double left(Point from_probe, Point to_probe, double height) const;

 private:
  struct Part {
    std::vector<Ring> pieces;  // convex; one vertex is a point or the centre of a disc
    double radius = 0;
    bool with_probe = false;
    double underside = 0;
  };
  struct Standing {
    geos::Geometry area;  // the centre of a disc
    double radius = 0;
    double clearance = 0;
    double height = 0;
  };

  void add_part(const Shape& outline, double underside, bool with_probe);
  double leeway(const Part& part, const Standing& obstacle, Point from, Point to) const;
  double leeway_in_travel(Point from, Point to) const;
  static double leeway_beside(const Standing& obstacle, const Ring& piece, double radius,
                              Point from, Point to);

  const Setup& setup_;
  std::vector<Standing> obstacles_;
  std::vector<Part> parts_;
  geos::Geometry travel_;
  geos::Geometry travel_edge_;
};

}  // namespace leeway::judges
