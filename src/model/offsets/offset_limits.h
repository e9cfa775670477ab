#pragma once
// What an offset must do for the requested points of one setup: at each of them the nozzle stays in
// its travel and no part of the head comes down on an obstacle, and the probe is where its bracket
// can hold it. The limits of the probe's own place are not here: they do not depend on the offset.

#include <cstdint>
#include <vector>

#include "leeway/rig.h"
#include "leeway/tolerance.h"
#include "model/limits/prepared_limit.h"

namespace leeway {

// What leaves an offset least after its guard.
struct OffsetStop {
  std::uint32_t limit = 0;  // of OffsetLimits
  std::size_t point = 0;    // index of a probe position; of no meaning for mount limits
  double leeway = 0;        // mm, rounded to 1e-6
  double guard = 0;         // mm, rounded to 1e-6

  double slack() const;  // leeway less guard
};

class OffsetLimits {
 public:
  // `probes` are where the probe shall be. Throws SetupTooDetailed as Limits does.
  OffsetLimits(const Rig& rig, std::vector<Point> probes);

  std::size_t size() const { return limits_.size(); }
  const LimitInfo& info(std::uint32_t limit) const { return limits_[limit].prepared.limit.info; }

  // The limit, and the point, of least leeway minus guard; the first of equal ones, limits first.
  // With a slack of 0 or more every point is reachable, as far as the offset matters, and the slack
  // is how far the offset may move in any direction before one is not. The slack changes by no
  // more than 1 mm per mm. REQUIRES: size() > 0.
  // With a tolerance it is the least of all offsets that may come of this one, less up to 0.005 mm
  // where the tolerance is a box and an obstacle is near.
  OffsetStop tightest(Point offset, const Tolerance& tolerance = {}) const;
  double slack(Point offset, const Tolerance& tolerance = {}) const {
    return tightest(offset, tolerance).slack();
  }

  // The same of one of the probe positions alone, without the mount; and of the mount alone,
  // infinite where there is none.
  double slack_of(std::size_t probe, Point offset, const Tolerance& tolerance = {}) const;
  double slack_of_mount(Point offset, const Tolerance& tolerance = {}) const;

 private:
  void add(LimitGroup group, const Setup& setup, SweptSets& swept_sets);
  void add_head(const Setup& setup, SweptSets& swept_sets);

  struct Entry;
  static Ticks reading(const Entry& entry, Point at, const Tolerance& tolerance, double enough);
  static Ticks least_over(const Entry& entry, Point at, Point box);

  struct Entry {
    PreparedLimit prepared;
    bool convex = false;     // what is allowed is a convex set
    bool hull_only = false;  // and of the nozzle: it holds all points when it holds their hull
    Box near;                // what it forbids lies in here, wanted distance and guard included;
                             // empty where it forbids all but some set
  };

  std::vector<Entry> limits_;
  std::vector<Point> probes_;
  std::vector<std::size_t> hull_;  // indices of probes_
};

}  // namespace leeway
