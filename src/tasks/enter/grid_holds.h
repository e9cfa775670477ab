#pragma once
// Whether a grid may be entered as it is written.

#include <optional>
#include <vector>

#include "leeway/check.h"
#include "leeway/rig.h"

namespace leeway {

// Of the machine and probe of a rig. Asked about other ways of writing the rig's own grid: where
// that is out of reach itself, rounding cannot be blamed, and all of them hold.
class GridHolds {
 public:
  explicit GridHolds(const Rig& rig);

  // Whether all its points are reachable and the moves over them clear. Moves count where the setup
  // states a travel height and the rig's own grid has clear moves.
  bool operator()(const Grid& grid) const;
  // REQUIRES: points of a grid.
  bool way_is_clear(const std::vector<CheckedPoint>& points) const;

 private:
  std::vector<CheckedPoint> points_of(const Grid& grid) const;
  bool all_reachable(const std::vector<CheckedPoint>& points) const;

  const Rig& rig_;
  bool points_count_;
  std::optional<MoveLimits> moves_;
};

}  // namespace leeway
