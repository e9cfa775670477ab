#include "leeway/head_place.h"
#include "leeway/rig.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include "geometry/plane/by_kind.h"
#include "geometry/plane/core.h"
#include "geometry/plane/polygons.h"
#include "geometry/plane/vector.h"
#include "model/limits/limit_list.h"

namespace leeway {
namespace {

// What of the head a limit is about, relative to its reference point.
struct Mover {
  const Shape* outline;
  bool at_probe;
};

Mover mover_of(const Setup& setup, const LimitInfo& limit) {
  static const Shape kPoint = Point{};
  switch (limit.group) {
    case LimitGroup::bed:
    case LimitGroup::obstacle:
      return {&setup.probe.spot, true};
    case LimitGroup::head:
      return {&outline_of(setup, limit.part_id), limit.part_id.kind == PartId::Kind::body};
    case LimitGroup::travel:
    case LimitGroup::envelope:
    case LimitGroup::beside:
      break;
  }
  return {&kPoint, false};
}

const Obstacle* obstacle_of(const Setup& setup, const LimitInfo& limit) {
  return family_of(limit.group).of_obstacle ? &setup.machine.obstacles[limit.obstacle_id] : nullptr;
}

// Where leeway grows fastest, by differences; no longer than 1.
Point uphill(const Limits& limits, std::size_t limit, Point p) {
  constexpr double kStep = 1e-3;
  const auto at = [&](double dx, double dy) {
    return limits.reading(limit, {p.x + dx, p.y + dy}).leeway;
  };
  const Point g{(at(kStep, 0) - at(-kStep, 0)) / (2 * kStep),
                (at(0, kStep) - at(0, -kStep)) / (2 * kStep)};
  const double size = norm(g);
  return size > 1e-3 ? (1 / size) * g : Point{};
}

// The position nearest to `p` where the limit is just met. Leeways are distances, so that one
// step downhill of that length is there, but for ridges, where it takes more.
std::optional<Point> border(const Limits& limits, std::size_t limit, Point p) {
  Point q = p;
  for (int i = 0; i < 20; ++i) {
    const double leeway = limits.reading(limit, q).leeway;
    if (std::abs(leeway) < 1e-3) return q;
    const Point up = uphill(limits, limit, q);
    if (up == Point{}) return std::nullopt;
    q = q - leeway * up;
  }
  return std::nullopt;
}

Point nearest_on(Point a, Point b, Point target) {
  const Point way = b - a;
  const double size = way.x * way.x + way.y * way.y;
  if (size == 0) return a;
  const double t = ((target.x - a.x) * way.x + (target.y - a.y) * way.y) / size;
  return a + std::min(std::max(t, 0.0), 1.0) * way;
}

// The point of an outline that lies furthest in a direction; of a flat side the place nearest to
// `target`. All relative to the reference point.
Point furthest(const Shape& outline, Point direction, Point target) {
  const Core core = core_of(outline);
  const std::vector<Point> all = by_kind(
      core.of, [](Point p) { return Ring{p}; }, [](const Box& box) { return corners_of(box); },
      [](const MultiPolygon& polygons) { return outline_points(polygons); });
  if (all.empty()) return {};
  const auto reach = [&](Point p) { return p.x * direction.x + p.y * direction.y; };
  double most = reach(all.front());
  for (const Point& p : all) most = std::max(most, reach(p));
  std::vector<Point> side;
  for (const Point& p : all) {
    if (reach(p) > most - 0.02) side.push_back(p);
  }
  const Point out = core.radius * direction;
  if (side.size() == 1) return side.front() + out;
  return nearest_on(side.front(), side.back(), target - out) + out;
}

std::optional<Dimension> dimension(const Rig& rig, std::size_t limit, Point probe,
                                   const LimitReading& reading) {
  if (std::isinf(reading.leeway)) return std::nullopt;
  const std::optional<Point> there = border(rig.limits(), limit, probe);
  if (!there) return std::nullopt;
  const LimitInfo& info = rig.limits().info(limit);
  const Mover mover = mover_of(rig.setup(), info);
  const Point reference = mover.at_probe ? probe : probe - rig.setup().probe.offset;
  Point way = *there - probe;
  const double size = norm(way);
  // Into the obstacle, or out over the edge.
  Point outward = -uphill(rig.limits(), limit, probe);
  if (size > 1e-3) outward = (reading.leeway >= 0 ? 1 : -1) / size * way;
  Point target = (1e3) * outward;
  if (const Obstacle* obstacle = obstacle_of(rig.setup(), info)) {
    const Box box = bounding_box(obstacle->shape);
    target = Point{(box.x0 + box.x1) / 2, (box.y0 + box.y1) / 2} - reference;
  } else {
    const Box box = bounding_box(*mover.outline);
    target = {(box.x0 + box.x1) / 2, (box.y0 + box.y1) / 2};
  }
  const Point from = reference + furthest(*mover.outline, outward, target);
  return Dimension{limit, reading, from, from + way};
}

struct BindingLimit {
  std::size_t limit;
  LimitReading reading;
  double order;
};

// Those that lines are wanted of, in their order.
std::vector<BindingLimit> binding_limits(const Limits& limits, const HeadPlace& place) {
  std::vector<BindingLimit> failing;
  std::vector<BindingLimit> unguarded;
  for (std::size_t i = 0; i < limits.size(); ++i) {
    const LimitReading reading = limits.reading(i, place.probe);
    if (reading.leeway < 0) failing.push_back({i, reading, reading.leeway});
    const double slack = reading.leeway - reading.guard;
    if (reading.leeway >= 0 && slack < 0) unguarded.push_back({i, reading, slack});
  }
  std::vector<BindingLimit> chosen = failing.empty() ? unguarded : failing;
  if (chosen.empty()) {
    chosen.push_back({place.finding.limit, {place.finding.leeway, place.finding.guard}, 0});
  }
  std::stable_sort(chosen.begin(), chosen.end(),
                   [](const BindingLimit& a, const BindingLimit& b) { return a.order < b.order; });
  return chosen;
}

}  // namespace

HeadPlace place_head(const Rig& rig, Point probe) {
  HeadPlace place{probe, rig.limits().evaluate(probe), {}};
  for (const BindingLimit& binding : binding_limits(rig.limits(), place)) {
    if (place.dimensions.size() == HeadPlace::kMostDimensions) break;
    const auto found = dimension(rig, binding.limit, probe, binding.reading);
    if (found) place.dimensions.push_back(*found);
  }
  return place;
}

}  // namespace leeway
