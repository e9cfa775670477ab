#include "leeway/regions.h"

#include <array>

#include "model/region_draft.h"

namespace leeway {
namespace {

MultiPolygon printable(const Setup& setup) {
  RegionDraft draft;
  shrink(setup.machine.bed, Point{}, {setup.machine.print_inset, {}}, draft);
  shrink(setup.machine.travel, Point{}, {}, draft);
  std::vector<MovingPart> parts = moving_parts(setup);
  if (parts.back().with_probe) parts.pop_back();
  forbid_head(setup, parts, 0, {}, Guarded::no, draft);
  return draft.finish();
}

MultiPolygon sensing(const Setup& setup) {
  RegionDraft draft;
  sense(setup, Guarded::no, draft);
  return draft.finish();
}

MultiPolygon reachable(const Setup& setup, Guarded guarded) {
  RegionDraft draft;
  const Point offset = setup.probe.offset;
  shrink(moved(setup.machine.travel, offset), Point{},
         {0, spread_if(guarded, spread_of_travel(setup))}, draft);
  sense(setup, guarded, draft);
  forbid_head(setup, moving_parts(setup), setup.probe.trigger_height, offset, guarded, draft);
  return draft.finish();
}

MultiPolygon plate(const Setup& setup) {
  RegionDraft draft;
  shrink(setup.machine.bed, Point{}, {}, draft);
  return draft.finish();
}

MultiPolygon build(const Setup& setup, RegionKind kind) {
  switch (kind) {
    case RegionKind::bed:
      return plate(setup);
    case RegionKind::printable:
      return printable(setup);
    case RegionKind::sensing:
      return sensing(setup);
    case RegionKind::reachable:
      return reachable(setup, Guarded::no);
    case RegionKind::guarded:
      break;
  }
  return reachable(setup, Guarded::yes);
}

bool spot_fits(const Setup& setup) {
  RegionDraft draft;
  shrink(setup.machine.bed, setup.probe.spot, {setup.probe.edge_distance, {}}, draft);
  return !draft.finish().empty();
}

bool travel_meets_plate(const Setup& setup) {
  RegionDraft draft;
  shrink(setup.machine.bed, Point{}, {}, draft);
  shrink(setup.machine.travel, Point{}, {}, draft);
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
    case RegionKind::reachable:
      return "reachable";
    case RegionKind::guarded:
      break;
  }
  return "guarded";
}

struct Regions::Impl {
  Setup setup;
  mutable std::array<std::optional<MultiPolygon>, kRegionKinds> made;

  const MultiPolygon& get(RegionKind kind) const {
    std::optional<MultiPolygon>& region = made[static_cast<std::size_t>(kind)];
    if (!region) region = build(setup, kind);
    return *region;
  }

  std::string why_printable_is_empty() const {
    if (!travel_meets_plate(setup)) return "the nozzle's travel does not reach the plate";
    if (setup.machine.print_inset > 0) {
      return "the print inset and the obstacles leave nothing of the plate";
    }
    return "the obstacles, with what the head would bring down on them, leave nothing of the plate";
  }

  std::string why_sensing_is_empty() const {
    if (!spot_fits(setup)) {
      return setup.probe.edge_distance > 0
                 ? "the sensing spot with its edge distance does not fit on the plate"
                 : "the sensing spot does not fit on the plate";
    }
    return "the obstacles leave no place on the plate for the sensing spot";
  }

  std::string why_empty(RegionKind kind) const {
    switch (kind) {
      case RegionKind::bed:
        return "the plate is too small to measure";
      case RegionKind::printable:
        return why_printable_is_empty();
      case RegionKind::sensing:
        return why_sensing_is_empty();
      case RegionKind::reachable:
        if (get(RegionKind::sensing).empty()) return why_sensing_is_empty();
        return "with this offset the nozzle's travel, or an obstacle under the head, keeps the "
               "probe from every place where it could sense";
      case RegionKind::guarded:
        break;
    }
    if (get(RegionKind::reachable).empty()) return why_empty(RegionKind::reachable);
    return "the stated uncertainty is larger than the room there is";
  }
};

Regions::Regions(const Setup& setup) : impl_(std::make_unique<Impl>()) { impl_->setup = setup; }
Regions::~Regions() = default;
Regions::Regions(Regions&&) noexcept = default;
Regions& Regions::operator=(Regions&&) noexcept = default;

const MultiPolygon& Regions::get(RegionKind kind) const { return impl_->get(kind); }

std::optional<std::string> Regions::why_empty(RegionKind kind) const {
  if (!get(kind).empty()) return std::nullopt;
  return impl_->why_empty(kind);
}

}  // namespace leeway
