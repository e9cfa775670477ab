#pragma once
// Ways of the probe at a height at which only what no height clears is in the way: the ends of the
// travel, and obstacles of unlimited height.

#include <map>
#include <optional>
#include <utility>
#include <vector>

#include "leeway/rig.h"

namespace leeway {

class ClearWays {
 public:
  explicit ClearWays(const Rig& rig);

  // The places between the two at which a way of straight clear moves turns; none where the
  // straight one is clear. The shortest way past the corners of what is in the way, a millimetre
  // off them. Nothing where there is none. Places are whole thousandths for the nozzle.
  std::optional<std::vector<Point>> between(Point from, Point to) const;

 private:
  bool clear(Point from, Point to) const;
  // Corners round which a way may lead, and what leads straight from one to another.
  struct Turns {
    std::vector<Point> places;
    std::vector<std::vector<std::size_t>> seen;  // from each the later ones
  };
  const Turns& turns() const;
  const std::vector<std::size_t>& seen_from(Point place) const;  // of the turns

  Rig rig_;
  MoveLimits limits_;
  mutable std::optional<Turns> turns_;
  mutable std::map<std::pair<double, double>, std::vector<std::size_t>> seen_from_;
};

// The same place, its nozzle's coordinates in whole thousandths.
Point in_thousandths(Point probe, Point offset);

}  // namespace leeway
