// The stable words of faults.

#include "leeway/validate.h"

namespace leeway {
namespace {

struct FaultCode {
  const char* operator()(const OutOfRange&) const { return "out-of-range"; }
  const char* operator()(const TurnedBounds&) const { return "turned-bounds"; }
  const char* operator()(const NoHeight&) const { return "no-height"; }
  const char* operator()(const EqualBounds&) const { return "equal-bounds"; }
  const char* operator()(const RadiusTooLarge&) const { return "radius-too-large"; }
  const char* operator()(const NoShape&) const { return "no-shape"; }
  const char* operator()(const TooManyVertices&) const { return "too-many-vertices"; }
  const char* operator()(const RepeatedVertex&) const { return "repeated-vertex"; }
  const char* operator()(const TooFewVertices&) const { return "too-few-vertices"; }
  const char* operator()(const NoArea&) const { return "no-area"; }
  const char* operator()(const SelfCrossing&) const { return "self-crossing"; }
  const char* operator()(const HoleOutside&) const { return "hole-outside"; }
  const char* operator()(const HolesOverlap&) const { return "holes-overlap"; }
  const char* operator()(const PolygonsOverlap&) const { return "polygons-overlap"; }
  const char* operator()(const BlankName&) const { return "blank-name"; }
  const char* operator()(const DuplicateName&) const { return "duplicate-name"; }
  const char* operator()(const ReservedName&) const { return "reserved-name"; }
  const char* operator()(const TooManyPoints&) const { return "too-many-points"; }
  const char* operator()(const MarginsMeet&) const { return "margins-meet"; }
};

// As in setup.h; '#' stands for the item's index.
const char* path(SetupField field) {
  switch (field) {
    case SetupField::name:
      return "name";
    case SetupField::coverage_factor:
      return "coverage_factor";
    case SetupField::machine_name:
      return "machine.name";
    case SetupField::bed:
      return "machine.bed";
    case SetupField::travel:
      return "machine.travel";
    case SetupField::print_inset:
      return "machine.print_inset";
    case SetupField::travel_uncertainty:
      return "machine.travel_uncertainty";
    case SetupField::bed_uncertainty:
      return "machine.bed_uncertainty";
    case SetupField::obstacle_name:
      return "machine.obstacles[#].name";
    case SetupField::obstacle_shape:
      return "machine.obstacles[#].shape";
    case SetupField::obstacle_height:
      return "machine.obstacles[#].height";
    case SetupField::obstacle_clearance:
      return "machine.obstacles[#].clearance";
    case SetupField::part_name:
      return "machine.head[#].name";
    case SetupField::part_outline:
      return "machine.head[#].outline";
    case SetupField::part_underside:
      return "machine.head[#].underside";
    case SetupField::part_top:
      return "machine.head[#].top";
    case SetupField::probe_name:
      return "probe.name";
    case SetupField::offset:
      return "probe.offset";
    case SetupField::offset_uncertainty:
      return "probe.offset_uncertainty";
    case SetupField::spot:
      return "probe.spot";
    case SetupField::edge_distance:
      return "probe.edge_distance";
    case SetupField::trigger_height:
      return "probe.trigger_height";
    case SetupField::travel_height:
      return "probe.travel_height";
    case SetupField::body_outline:
      return "probe.body.outline";
    case SetupField::body_underside:
      return "probe.body.underside";
    case SetupField::body_top:
      return "probe.body.top";
    case SetupField::envelope:
      return "mount.envelope";
    case SetupField::keep_clear_name:
      return "mount.keep_clear[#].name";
    case SetupField::keep_clear_outline:
      return "mount.keep_clear[#].outline";
    case SetupField::grid:
      return "request.grid";
    case SetupField::columns:
      return "request.grid.columns";
    case SetupField::rows:
      return "request.grid.rows";
    case SetupField::bounds:
    case SetupField::margins:
      return "request.grid.extent";
    case SetupField::point_name:
      return "request.points[#].name";
    case SetupField::point_at:
      return "request.points[#].at";
    case SetupField::home_at:
      return "request.home.at";
  }
  return "";
}

std::string ring_path(const SetupPlace& place) {
  const std::string polygon = "[" + std::to_string(place.polygon) + "]";
  if (place.ring == 0) return polygon + ".outer";
  return polygon + ".holes[" + std::to_string(place.ring - 1) + "]";
}

std::string detail_path(const SetupPlace& place) {
  const auto vertex = [&] { return ring_path(place) + "[" + std::to_string(place.vertex) + "]"; };
  switch (place.detail) {
    case SetupDetail::whole:
      return "";
    case SetupDetail::x:
      return ".x";
    case SetupDetail::y:
      return ".y";
    case SetupDetail::x0:
      return ".x0";
    case SetupDetail::x1:
      return ".x1";
    case SetupDetail::y0:
      return ".y0";
    case SetupDetail::y1:
      return ".y1";
    case SetupDetail::center_x:
      return ".center.x";
    case SetupDetail::center_y:
      return ".center.y";
    case SetupDetail::radius:
      return ".radius";
    case SetupDetail::left:
      return ".left";
    case SetupDetail::right:
      return ".right";
    case SetupDetail::front:
      return ".front";
    case SetupDetail::back:
      return ".back";
    case SetupDetail::ring:
      return ring_path(place);
    case SetupDetail::vertex_x:
      return vertex() + ".x";
    case SetupDetail::vertex_y:
      return vertex() + ".y";
  }
  return "";
}

}  // namespace

const char* code(const SetupFault& fault) { return std::visit(FaultCode{}, fault.what); }

std::string words(const SetupPlace& place) {
  std::string text = path(place.field);
  if (const std::size_t mark = text.find('#'); mark != std::string::npos) {
    text.replace(mark, 1, std::to_string(place.item));
  }
  return text + detail_path(place);
}

}  // namespace leeway
