#pragma once
// A setup with all that follows from it: what checks, searches and drawings start from.

#include "leeway/limits.h"
#include "leeway/regions.h"
#include "leeway/setup.h"

namespace leeway {

// What is swept of machine and probe (obstacles by spot, body and parts of the head, the bed's
// surroundings by the spot) is computed once. Rigs made from one another share it: another offset
// or another request costs next to nothing.
//
//   const Rig rig(setup);
//   for (Point offset : offsets) show(check(rig.at(offset)));
//
// A copy shares all that has been computed. Rigs made from one another must not be used by several
// threads at a time; their limits may.
class Rig {
 public:
  // Throws InvalidSetup and SetupTooDetailed as Limits does.
  explicit Rig(const Setup& setup);
  // Of limits that are there already. REQUIRES: they are the setup's.
  Rig(const Setup& setup, const Limits& limits);

  const Setup& setup() const { return setup_; }
  const Limits& limits() const { return limits_; }
  const Regions& regions() const { return regions_; }
  // Of its straight moves.
  MoveLimits move_limits() const { return {setup_, limits_}; }

  // With another offset from nozzle to probe. What the request gives for the nozzle moves with it.
  Rig at(Point offset) const;
  // With another request.
  Rig asking(const Request& request) const;
  // With anything else changed: what stays the same is not swept again. Throws as Limits::with
  // does.
  Rig with(const Setup& changed) const;

 private:
  Setup setup_;
  Limits limits_;
  Regions regions_;
};

}  // namespace leeway
