#include "tasks/explain/plausibility.h"

#include <algorithm>
#include <cmath>
#include <iterator>

namespace leeway {
namespace {

double overlap(double a0, double a1, double b0, double b1) {
  return std::max(0.0, std::min(a1, b1) - std::max(a0, b0));
}

// The share of `box` that lies in `in`, by their boxes.
double share(const Box& box, const Box& in) {
  const double all = box.width() * box.depth();
  if (!(all > 0)) return 0;
  return overlap(box.x0, box.x1, in.x0, in.x1) * overlap(box.y0, box.y1, in.y0, in.y1) / all;
}

// 1 within [low, high], falling off by the ratio to it outside.
double within(double value, double low, double high) {
  if (value < low) return std::pow(std::max(value, 1e-3) / low, 2);
  return value > high ? std::pow(high / value, 2) : 1;
}

bool in_head(const Setup& setup) {
  const Point o = setup.probe.offset;
  return std::any_of(setup.machine.head.begin(), setup.machine.head.end(),
                     [o](const HeadPart& part) {
                       const Box box = bounding_box(part.outline);
                       return o.x > box.x0 && o.x < box.x1 && o.y > box.y0 && o.y < box.y1;
                     });
}

// Who has found out what the probe can reach leaves about as much on each side of the mesh.
double evenness(const Setup& setup, const Box& mesh, const Box& bed, const Box& travel) {
  const Point o = setup.probe.offset;
  const double left[] = {
      mesh.x0 - std::max(bed.x0, travel.x0 + o.x), std::min(bed.x1, travel.x1 + o.x) - mesh.x1,
      mesh.y0 - std::max(bed.y0, travel.y0 + o.y), std::min(bed.y1, travel.y1 + o.y) - mesh.y1};
  const auto [least, most] = std::minmax_element(std::begin(left), std::end(left));
  return 1 / (1 + (*most - *least) / 100);
}

double farthest_apart(const Box& a, const Box& b) {
  return std::max(
      {std::abs(a.x0 - b.x0), std::abs(a.x1 - b.x1), std::abs(a.y0 - b.y0), std::abs(a.y1 - b.y1)});
}

}  // namespace

double plausibility(const Setup& setup) {
  const Box bed = bounding_box(setup.machine.bed);
  const Box travel = bounding_box(setup.machine.travel);
  double p = within(std::hypot(setup.probe.offset.x, setup.probe.offset.y), 12, 80);
  if (in_head(setup)) p *= 0.2;
  p *= within(std::min(bed.width(), bed.depth()), 80, 500);
  p *= within(std::max(bed.width(), bed.depth()), 80, 500);
  // The nozzle gets to most of the bed, and not far beyond it.
  p *= std::pow(share(bed, travel), 2);
  p *= within(travel.width() / bed.width(), 0.8, 1.5) *
       within(travel.depth() / bed.depth(), 0.8, 1.5);
  if (setup.request.grid && setup.request.grid->columns > 1 && setup.request.grid->rows > 1) {
    const Box mesh = grid_bounds_for_probe(setup, *setup.request.grid);
    if (mesh.width() <= 0 || mesh.depth() <= 0) return 0;
    p *= share(mesh, bed);
    p *= within(mesh.width() / bed.width(), 0.45, 1) * within(mesh.depth() / bed.depth(), 0.45, 1);
    // Meshes are more or less in the middle.
    const double off_x = std::abs(mesh.x0 + mesh.x1 - bed.x0 - bed.x1) / 2 / bed.width();
    const double off_y = std::abs(mesh.y0 + mesh.y1 - bed.y0 - bed.y1) / 2 / bed.depth();
    p *= (1 - std::min(1.0, 2 * off_x)) * (1 - std::min(1.0, 2 * off_y));
    p *= evenness(setup, mesh, bed, travel);
  }
  return p;
}

double size_of_change(const Setup& before, const Setup& after) {
  double size = std::max(
      farthest_apart(bounding_box(before.machine.bed), bounding_box(after.machine.bed)),
      farthest_apart(bounding_box(before.machine.travel), bounding_box(after.machine.travel)));
  const Point o = before.probe.offset;
  const Point p = after.probe.offset;
  size = std::max({size, std::abs(o.x - p.x), std::abs(o.y - p.y)});
  if (before.request.grid && after.request.grid) {
    size = std::max(size, farthest_apart(grid_bounds_for_probe(before, *before.request.grid),
                                         grid_bounds_for_probe(after, *after.request.grid)));
  }
  return size;
}

double frequency(const MistakeTrial& trial, const Setup& before) {
  switch (trial.mistake) {
    case Mistake::sign_of_x:
    case Mistake::sign_of_y:
      return 1;
    case Mistake::offset_left_at_zero:
      return 1;
    case Mistake::both_signs:
      return 0.7;
    case Mistake::frame:
      return 0.7;
    case Mistake::margins_from_travel:
    case Mistake::margins_from_bed:
      return 0.7;
    case Mistake::width_and_depth_exchanged:
      return trial.changes.size() > 1 ? 0.4 : 0.6;
    case Mistake::origin_at_centre:
    case Mistake::origin_at_corner:
      // The ends of the travel are what the controller itself reports.
      return std::holds_alternative<TravelShape>(trial.changes.front()) || trial.changes.size() > 1
                 ? 0.4
                 : 0.6;
    case Mistake::axes_swapped: {
      const Point o = before.probe.offset;
      return trial.changed.probe.offset == Point{o.y, o.x} ? 0.5 : 0.3;
    }
    case Mistake::decimal_point:
      return 0.5;
    case Mistake::inches:
      return 0.4;
    case Mistake::columns_and_rows_exchanged:
      return 0.3;
    case Mistake::travel_equals_bed:
      return 0.5;
    case Mistake::travel_beyond_bed:
      return 0.3;
  }
  return 0;
}

}  // namespace leeway
