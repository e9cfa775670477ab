#include "tasks/explain/weigh/reach.h"

#include <algorithm>
#include <cmath>

namespace leeway {
namespace {

Box box_grown(const Box& box, double by) {
  return {box.x0 - by, box.x1 + by, box.y0 - by, box.y1 + by};
}

Box moved_by(const Box& box, Point by) {
  return {box.x0 + by.x, box.x1 + by.x, box.y0 + by.y, box.y1 + by.y};
}

}  // namespace

Sides inside_by(const Box& inner, const Box& outer) {
  return {inner.x0 - outer.x0, outer.x1 - inner.x1, inner.y0 - outer.y0, outer.y1 - inner.y1};
}

Box reach_by_boxes(const Setup& setup) {
  const double k = setup.coverage_factor;
  const Probe& probe = setup.probe;
  const Machine& machine = setup.machine;
  const Box spot = bounding_box(probe.spot);
  const double x =
      k * std::hypot(probe.offset_uncertainty.x, machine.bed_uncertainty) + probe.edge_distance;
  const double y =
      k * std::hypot(probe.offset_uncertainty.y, machine.bed_uncertainty) + probe.edge_distance;
  const Box bed = bounding_box(machine.bed);
  const Box on_bed{bed.x0 - spot.x0 + x, bed.x1 - spot.x1 - x, bed.y0 - spot.y0 + y,
                   bed.y1 - spot.y1 - y};
  const Box travel = moved_by(
      box_grown(bounding_box(machine.travel), -k * machine.travel_uncertainty), probe.offset);
  return {std::max(on_bed.x0, travel.x0), std::min(on_bed.x1, travel.x1),
          std::max(on_bed.y0, travel.y0), std::min(on_bed.y1, travel.y1)};
}

std::optional<Box> asked_box(const Setup& setup) {
  const Request& request = setup.request;
  if (request.grid) return grid_bounds_for_probe(setup, *request.grid);
  if (request.points.empty()) return std::nullopt;
  Box box{1e9, -1e9, 1e9, -1e9};
  for (const NamedPoint& point : request.points) {
    const Point at = probe_position(point.at, point.frame, setup.probe.offset);
    box = {std::min(box.x0, at.x), std::max(box.x1, at.x), std::min(box.y0, at.y),
           std::max(box.y1, at.y)};
  }
  return box;
}

Sides lacking_travel(const Setup& setup) {
  const std::optional<Box> asked = asked_box(setup);
  if (!asked) return {};
  const double guard = setup.coverage_factor * setup.machine.travel_uncertainty;
  const Box travel = box_grown(bounding_box(setup.machine.travel), -guard);
  const Sides inside = inside_by(moved_by(*asked, -setup.probe.offset), travel);
  const auto lacking = [](double by) { return by < -1e-6 ? -by : 0; };
  return {lacking(inside.left), lacking(inside.right), lacking(inside.front), lacking(inside.back)};
}

}  // namespace leeway
