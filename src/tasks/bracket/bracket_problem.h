#pragma once
// The requests of several setups as one question about the offset.

#include <optional>
#include <span>
#include <vector>

#include "leeway/bracket.h"
#include "model/offsets/offset_limits.h"
#include "model/offsets/offset_window.h"

namespace leeway {

// A line or a point that a window without area may be, of rectangular travels.
struct ThinWindow {
  Box box;  // no wider than the lattice of micrometres can tell, in one direction at least
  std::vector<Point> offsets;  // of it that work, from end to end
};

class BracketProblem {
 public:
  // Sorts out the points that no offset can serve.
  explicit BracketProblem(std::span<const Setup> setups, const Tolerance& tolerance = {});

  const Tolerance& tolerance() const { return tolerance_; }
  std::span<const Setup> setups() const { return setups_; }
  const Rig& rig(std::size_t setup) const { return rigs_[setup]; }
  const std::vector<BracketPoint>& within_reach() const { return within_reach_; }
  const std::vector<PointOutOfReach>& out_of_reach() const { return out_of_reach_; }
  std::vector<BracketSetup> summaries() const { return summaries_; }

  // All below is with the tolerance taken off.
  // The window of some of the points. `frame` bounds it.
  MultiPolygon window(const std::vector<BracketPoint>& points) const;
  std::optional<ThinWindow> thin_window(const std::vector<BracketPoint>& points) const;
  bool is_empty(const std::vector<BracketPoint>& points) const;

  // For all points within reach of some offset.
  BracketStop tightest(Point offset) const;
  // Whether an offset works, by its own limits and by the verdicts of `check`.
  bool works(Point offset) const { return leeway(offset) >= 0 && verified(offset); }
  double leeway(Point offset) const;
  double leeway(Point offset, std::size_t setup) const;

  // Of within_reach(), those that the limits do not call reachable with this offset.
  std::vector<std::size_t> missed(Point offset) const;
  bool verified(Point offset) const { return missed(offset).empty(); }

  // How far an offset may move until a point alone, or the mount, stops it; below 0 it is stopped.
  double slack_of(std::size_t point, Point offset) const;
  double slack_of_mounts(Point offset) const;
  // How many of the points an offset reaches, whatever the mounts say.
  std::size_t reached(Point offset) const;

  // The problem with every grid's sides moved inward. Nothing where a grid would turn over, or
  // where one of its points would be out of reach with any offset.
  std::optional<std::vector<BracketPoint>> with_smaller_grids(double in_x, double in_y) const;

 private:
  std::vector<WindowPart> window_parts(const std::vector<BracketPoint>& points) const;
  Box frame() const;

  std::span<const Setup> setups_;
  Tolerance tolerance_;
  std::vector<Rig> rigs_;  // of them
  std::vector<WindowMaker> makers_;
  std::vector<BracketPoint> within_reach_;
  std::vector<PointOutOfReach> out_of_reach_;
  std::vector<BracketSetup> summaries_;
  std::vector<OffsetLimits> limits_;            // one a setup
  std::vector<std::vector<std::size_t>> ours_;  // of within_reach_, by setup
  std::vector<std::size_t> place_;              // of each of within_reach_ in ours_
};

}  // namespace leeway
