#include "leeway/regions.h"

#include <array>

#include "geometry/overlay/overlay.h"
#include "geometry/plane/micrometres.h"
#include "geometry/plane/polygons.h"
#include "model/regions/region_draft.h"
#include "model/setup/door.h"

namespace leeway {
namespace {

bool has_body_down(const Probe& probe) { return probe.body && !probe.stowed; }

// The positions of the nozzle, on the bed, at which the probe's body comes down on something.
void forbid_body_while_printing(const Setup& setup, Point offset, SweptSets& swept_sets,
                                RegionDraft& draft) {
  const MovingPart body = moving_parts(setup).back();
  for (const Obstacle& obstacle : setup.machine.obstacles) {
    if (!meets(obstacle, body, 0)) continue;
    draft.forbid(swept_sets.of(obstacle.shape, *body.outline, obstacle.name, body.name)
                     ->grown({obstacle.clearance, {}}, -offset));
  }
}

// Of a probe that is stowed while printing the body, the last of the parts, does not count. The
// region does not depend on the offset then. Of another it is one more part of the head.
MultiPolygon printable(const Setup& setup, Point offset, SweptSets& swept_sets) {
  RegionDraft draft;
  shrink(setup.machine.bed, {setup.machine.print_inset, {}}, draft);
  shrink(setup.machine.travel, {}, draft);
  std::vector<MovingPart> parts = moving_parts(setup);
  if (parts.back().with_probe) parts.pop_back();
  forbid_head(setup, parts, 0, {}, Guarded::no, swept_sets, draft);
  if (has_body_down(setup.probe)) forbid_body_while_printing(setup, offset, swept_sets, draft);
  return draft.finish();
}

// Where bed is under the whole spot and no obstacle under any of it.
MultiPolygon sensing(const Setup& setup, SweptSets& swept_sets) {
  RegionDraft draft;
  sense(setup, Guarded::no, swept_sets, draft);
  return draft.finish();
}

// The parts that go with the probe, or those that go with the nozzle.
std::vector<MovingPart> parts_with(bool probe, const Setup& setup) {
  std::vector<MovingPart> parts;
  for (const MovingPart& part : moving_parts(setup)) {
    if (part.with_probe == probe) parts.push_back(part);
  }
  return parts;
}

MultiPolygon united(const RegionDraft& draft) {
  return draft.forbidden().empty() ? MultiPolygon{} : unite(draft.forbidden());
}

// Where the probe may not be, whatever the offset.
MultiPolygon forbidden_to_probe(const Setup& setup, Guarded guarded, SweptSets& swept_sets) {
  RegionDraft draft;
  forbid_obstacles(setup, guarded, swept_sets, draft);
  forbid_head(setup, parts_with(true, setup), setup.probe.trigger_height, {}, guarded, swept_sets,
              draft);
  return united(draft);
}

// Where the probe may not be because what goes with the nozzle would come down on something.
MultiPolygon forbidden_to_nozzle(const Setup& setup, Guarded guarded, Point offset,
                                 SweptSets& swept_sets) {
  RegionDraft draft;
  forbid_head(setup, parts_with(false, setup), setup.probe.trigger_height, offset, guarded,
              swept_sets, draft);
  return united(draft);
}

MultiPolygon bed(const Setup& setup) {
  RegionDraft draft;
  shrink(setup.machine.bed, {}, draft);
  return draft.finish();
}

// For the words only: which of two causes left nothing.
bool spot_fits(const Setup& setup, SweptSets& swept_sets) {
  RegionDraft draft;
  shrink(setup.machine.bed, setup.probe.spot, {setup.probe.edge_distance, {}}, swept_sets, draft);
  return !draft.finish().empty();
}

bool travel_meets_bed(const Setup& setup) {
  RegionDraft draft;
  shrink(setup.machine.bed, {}, draft);
  shrink(setup.machine.travel, {}, draft);
  return !draft.finish().empty();
}

}  // namespace

const char* word(RegionKind kind) {
  switch (kind) {
    case RegionKind::bed:
      return "bed";
    case RegionKind::printable:
      return "printable";
    case RegionKind::sensing:
      return "sensing";
    case RegionKind::within_limits:
      return "within_limits";
    case RegionKind::reachable:
      break;
  }
  return "reachable";
}

// What any offset shares, so that a dragged offset costs two regions and not five.
struct Regions::Fixed {
  Setup setup;
  std::shared_ptr<SweptSets> swept_sets;
  std::optional<MultiPolygon> bed, printable, sensing;
  // Of the reachable region, without and with the guard bands.
  struct Kept {
    std::optional<RegionDraft> bed;
    std::optional<MultiPolygon> forbidden_to_probe, forbidden_to_nozzle;
  };
  std::array<Kept, 2> kept;

  // Where the probe may be, cut with where the nozzle may be, moved by the offset.
  MultiPolygon within(Point offset, Guarded guarded) {
    Kept& keep = kept[static_cast<std::size_t>(guarded)];
    if (!keep.bed) shrink_bed(setup, guarded, *swept_sets, keep.bed.emplace());
    RegionDraft draft = *keep.bed;
    shrink(moved(setup.machine.travel, offset), {0, spread_if(guarded, spread_of_travel(setup))},
           draft);
    MultiPolygon left = draft.finish();
    if (left.empty()) return left;
    if (!keep.forbidden_to_probe) {
      keep.forbidden_to_probe = forbidden_to_probe(setup, guarded, *swept_sets);
    }
    // Two differences, not one of a union: what goes with the nozzle moves with the offset, and a
    // union of both would be made anew for each.
    left = subtract(left, *keep.forbidden_to_probe);
    return subtract(left, forbidden_at(offset, guarded, keep.forbidden_to_nozzle));
  }

  // United once where that may be moved: by whole micrometres.
  MultiPolygon forbidden_at(Point offset, Guarded guarded, std::optional<MultiPolygon>& here) {
    if (!on_lattice(offset)) return forbidden_to_nozzle(setup, guarded, offset, *swept_sets);
    if (!here) here = forbidden_to_nozzle(setup, guarded, {}, *swept_sets);
    MultiPolygon there;
    for (const Polygon& polygon : *here) there.push_back(moved_on_lattice(polygon, offset));
    return there;
  }

  std::string why_printable_is_empty() const {
    if (!travel_meets_bed(setup)) return "the nozzle's travel does not reach the bed";
    if (setup.machine.print_inset > 0) {
      return "the print inset and the obstacles leave nothing of the bed";
    }
    return "the obstacles, with what the head would bring down on them, leave nothing of the bed";
  }

  std::string why_sensing_is_empty() const {
    if (!spot_fits(setup, *swept_sets)) {
      return setup.probe.edge_distance > 0
                 ? "the sensing area with its edge distance does not fit on the bed"
                 : "the sensing area does not fit on the bed";
    }
    return "the obstacles leave no place on the bed for the sensing area";
  }
};

// What the offset moves.
struct Regions::Moving {
  Point offset;
  std::optional<MultiPolygon> within_limits, reachable;
  std::optional<MultiPolygon> printable;  // where that depends on the offset
};

Regions::Regions(const Setup& setup)
    : Regions((require_valid(setup), setup), std::make_shared<SweptSets>()) {}

Regions::Regions(const Setup& setup, const Limits& limits) : Regions(setup, limits.sweeps()) {}

Regions::Regions(const Setup& setup, std::shared_ptr<SweptSets> swept_sets)
    : fixed_(std::make_shared<Fixed>()), moving_(std::make_shared<Moving>()) {
  fixed_->setup = setup;
  fixed_->swept_sets = std::move(swept_sets);
  moving_->offset = setup.probe.offset;
}

Regions Regions::at(Point offset) const {
  Regions moved = *this;
  moved.moving_ = std::make_shared<Moving>();
  moved.moving_->offset = offset;
  return moved;
}

const MultiPolygon& Regions::get(RegionKind kind) const {
  const Setup& setup = fixed_->setup;
  SweptSets& swept_sets = *fixed_->swept_sets;
  // Made when first asked for: a verdict alone needs none.
  const auto made = [](std::optional<MultiPolygon>& region, const auto& make) -> MultiPolygon& {
    if (!region) region = make();
    return *region;
  };
  switch (kind) {
    case RegionKind::bed:
      return made(fixed_->bed, [&] { return bed(setup); });
    case RegionKind::printable:
      return made(has_body_down(setup.probe) ? moving_->printable : fixed_->printable,
                  [&] { return printable(setup, moving_->offset, swept_sets); });
    case RegionKind::sensing:
      return made(fixed_->sensing, [&] { return sensing(setup, swept_sets); });
    case RegionKind::within_limits:
      return made(moving_->within_limits,
                  [&] { return fixed_->within(moving_->offset, Guarded::no); });
    case RegionKind::reachable:
      break;
  }
  return made(moving_->reachable, [&] { return fixed_->within(moving_->offset, Guarded::yes); });
}

std::optional<std::string> Regions::why_empty(RegionKind kind) const {
  if (!get(kind).empty()) return std::nullopt;
  switch (kind) {
    case RegionKind::bed:
      return "the bed is too small to measure";
    case RegionKind::printable:
      return fixed_->why_printable_is_empty();
    case RegionKind::sensing:
      return fixed_->why_sensing_is_empty();
    case RegionKind::within_limits:
      if (get(RegionKind::sensing).empty()) return fixed_->why_sensing_is_empty();
      return "with this offset the nozzle's travel, or an obstacle under the head, keeps the "
             "probe from every place where it could sense";
    case RegionKind::reachable:
      break;
  }
  if (get(RegionKind::within_limits).empty()) return why_empty(RegionKind::within_limits);
  return "the stated uncertainty is larger than the leeway there is";
}

}  // namespace leeway
