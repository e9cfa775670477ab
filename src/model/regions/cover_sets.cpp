#include "model/regions/cover_sets.h"

#include <algorithm>

#include "geometry/growth/growth.h"
#include "geometry/overlay/overlay.h"
#include "geometry/plane/by_kind.h"
#include "geometry/plane/micrometres.h"
#include "geometry/plane/polygons.h"
#include "leeway/rig.h"
#include "model/regions/region_draft.h"

namespace leeway {
namespace {

// What cuts the blocked parts off at the travel's rim: a polygon around the disc, so near to it
// that the area between the two does not count.
MultiPolygon around(const Disc& disc) {
  constexpr double kNear = 1e-4;
  Ring ring = circumscribed(disc, kNear);
  for (Point& p : ring) p = to_lattice(p);
  return {Polygon{ring, {}}};
}

}  // namespace

CoverSets cover_sets(const Rig& rig) {
  CoverSets sets;
  const Setup& setup = rig.setup();
  SweptSets& swept_sets = *rig.limits().sweeps();
  // That of a probe that stays down while printing would depend on the offset.
  Setup stowed = setup;
  stowed.probe.stowed = true;
  const MultiPolygon printable =
      (setup.probe.stowed ? rig : rig.with(stowed)).regions().get(RegionKind::printable);
  sets.printable_area = area(printable);
  if (printable.empty()) return sets;

  // The body goes with the probe, whatever the offset, and belongs to the ground. The rest goes
  // with the nozzle.
  std::vector<MovingPart> head = moving_parts(setup);
  std::vector<MovingPart> body;
  if (head.back().with_probe) {
    body.push_back(head.back());
    head.pop_back();
  }
  RegionDraft sensing;
  sense(setup, Guarded::no, swept_sets, sensing);
  forbid_head(setup, body, setup.probe.trigger_height, {}, Guarded::no, swept_sets, sensing);
  sets.ground = intersect(printable, sensing.finish());

  RegionDraft nozzle;
  forbid_head(setup, head, setup.probe.trigger_height, {}, Guarded::no, swept_sets, nozzle);
  const auto as_polygons = [&] {
    shrink(setup.machine.travel, {}, nozzle);
    sets.nozzle = nozzle.finish();
  };
  by_kind(
      setup.machine.travel,
      [&](const Disc& disc) {
        sets.travel = disc;
        if (nozzle.forbidden().empty()) return;
        sets.blocked = intersect(unite(nozzle.forbidden()), around(disc));
      },
      [&](Point) { as_polygons(); }, [&](const Box&) { as_polygons(); },
      [&](const RoundedBox&) { as_polygons(); }, [&](const MultiPolygon&) { as_polygons(); });
  return sets;
}

}  // namespace leeway
