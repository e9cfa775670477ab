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

  // The least room on the way from one position of the probe to another, at the travel height:
  // to the edge of the travel, and to each obstacle that some part would meet, less its clearance.
  // Below 0 only the sign and the nearness to 0 are meant (see Room in geos_judge.h).
  double room(Point from_probe, Point to_probe) const;

 private:
  struct Part {
    std::vector<Ring> pieces;  // convex; one vertex is a point or the centre of a disc
    double radius = 0;
    bool with_probe = false;
    std::vector<std::size_t> meets;  // obstacles
  };
  struct Standing {
    geos::Geometry area;  // the centre of a disc
    double radius = 0;
    double clearance = 0;
  };

  void add_part(const Shape& outline, double underside, bool with_probe);
  double room_in_travel(Point from, Point to) const;
  static double room_beside(const Standing& obstacle, const Ring& piece, double radius, Point from,
                            Point to);

  const Setup& setup_;
  std::vector<Standing> obstacles_;
  std::vector<Part> parts_;
  geos::Geometry travel_;
  geos::Geometry travel_edge_;
};

}  // namespace leeway::judges
