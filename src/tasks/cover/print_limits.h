#pragma once
// What stands in the way of printing, height by height.

#include <map>
#include <memory>
#include <vector>

#include "leeway/cover.h"

namespace leeway {

// Printing is asked of the limits of a setup in which the nozzle is the probe: no offset, no spot,
// the inset of prints as its distance from the edge, triggered at the height of the move.
class PrintLimits {
 public:
  // `inset`: how far from the edge of the bed the nozzle stays at least.
  PrintLimits(const Rig& rig, double inset);
  ~PrintLimits();

  // Looks at a straight move; what is in its way is kept where it is worse than before.
  void look(Point from, Point to, double height, std::size_t line);
  // Looks at an area at the height of the bed.
  void look_at(const Shape& area);

  // One for each limit, the worst first.
  std::vector<CoverStop> stops() const;

 private:
  class Level;
  Level& level(double height);
  void look(Level& level, Point from, Point to, double height, std::size_t line);
  void look_exactly(Level& level, Point from, Point to, double height, std::size_t line);
  void look_inside(Level& level, const Box& box, const Limits& area);
  void keep(const CoverStop& stop);

  const Rig& rig_;
  double inset_;
  double below_ = 0;             // how far the body of the probe reaches below the nozzle
  bool convex_bed_ = true;       // then a move is on it where its ends are
  std::vector<double> heights_;  // at which something ceases to be in the way
  std::map<std::size_t, std::unique_ptr<Level>> levels_;
  std::map<std::string, CoverStop> worst_;  // by the limit's name and what it is about
};

}  // namespace leeway
