#include "model/offsets/offset_limits.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "geometry/plane/assert.h"
#include "geometry/plane/by_kind.h"
#include "geometry/plane/polygons.h"

namespace leeway {
namespace {

std::vector<std::size_t> hull_indices(const std::vector<Point>& points) {
  std::map<std::pair<double, double>, std::size_t> first;
  // From the back, so that of equal points the first keeps its name.
  for (std::size_t i = points.size(); i-- > 0;) first[{points[i].x, points[i].y}] = i;
  std::vector<std::size_t> indices;
  if (points.empty()) return indices;
  for (const Point p : convex_hull(points)) indices.push_back(first.at({p.x, p.y}));
  std::sort(indices.begin(), indices.end());
  return indices;
}

// All that an obstacle swept by the mirrored part can cover, its wanted distance and guard
// included.
Box reach_of(const Obstacle& obstacle, const Shape& part, double more) {
  const Box o = bounding_box(obstacle.shape);
  const Box p = bounding_box(part);
  return {o.x0 - p.x1 - more, o.x1 - p.x0 + more, o.y0 - p.y1 - more, o.y1 - p.y0 + more};
}

double distance_to(const Box& box, Point p) {
  const double dx = std::max({0.0, box.x0 - p.x, p.x - box.x1});
  const double dy = std::max({0.0, box.y0 - p.y, p.y - box.y1});
  return std::sqrt(dx * dx + dy * dy);
}

constexpr Box kNoBox{1, 0, 1, 0};

}  // namespace

double OffsetStop::slack() const { return to_millimetres(to_ticks(leeway) - to_ticks(guard)); }

OffsetLimits::OffsetLimits(const Rig& rig, std::vector<Point> probes)
    : probes_(std::move(probes)), hull_(hull_indices(probes_)) {
  const Setup& setup = rig.setup();
  SweptSets& swept_sets = *rig.limits().sweeps();
  for (const LimitGroup group : kLimitGroups) add(group, setup, swept_sets);
}

void OffsetLimits::add(LimitGroup group, const Setup& setup, SweptSets& swept_sets) {
  bool hull_only = false;
  switch (group) {
    case LimitGroup::bed:
    case LimitGroup::obstacle:
      return;  // Of the probe's own place, whatever the offset.
    case LimitGroup::head:
      return add_head(setup, swept_sets);
    case LimitGroup::travel:
      hull_only = is_convex_set(setup.machine.travel);
      break;
    case LimitGroup::envelope:
    case LimitGroup::beside:
      break;
  }
  std::vector<Limit> limits;
  append_group(group, setup, swept_sets, limits);
  for (Limit& limit : limits) limits_.push_back({prepare(std::move(limit)), hull_only, kNoBox});
}

void OffsetLimits::add_head(const Setup& setup, SweptSets& swept_sets) {
  std::vector<Limit> head;
  append_group(LimitGroup::head, setup, swept_sets, head);
  const double guard = spread_of_head(setup).most();
  for (Limit& limit : head) {
    if (!limit.at_nozzle) continue;
    Entry entry{prepare(std::move(limit)), false, kNoBox};
    const LimitInfo& info = entry.prepared.limit.info;
    entry.near = reach_of(setup.machine.obstacles[info.obstacle_id],
                          outline_of(setup, info.part_id), info.wanted + guard);
    limits_.push_back(std::move(entry));
  }
}

OffsetStop OffsetLimits::tightest(Point offset) const {
  LEEWAY_ASSERT(size() > 0);
  OffsetStop best;
  double least = Least::kUndecided;  // ticks of leeway less guard
  const auto take = [&](std::uint32_t limit, std::size_t point, Point at) {
    const Ticks ticks = read(limits_[limit].prepared, at);
    if (ticks.leeway - ticks.guard >= least) return;
    least = ticks.leeway - ticks.guard;
    best = {limit, point, to_millimetres(ticks.leeway), to_millimetres(ticks.guard)};
  };
  for (std::uint32_t i = 0; i < limits_.size(); ++i) {
    const Entry& entry = limits_[i];
    if (is_of_mount(entry.prepared.limit.info.group)) {
      take(i, 0, offset);
    } else if (entry.hull_only) {
      for (const std::size_t p : hull_) take(i, p, probes_[p] - offset);
    } else {
      const bool bounded = !entry.near.empty();
      for (std::size_t p = 0; p < probes_.size(); ++p) {
        const Point nozzle = probes_[p] - offset;
        // Farther away than this it cannot be the tightest; inside it may be, however little is
        // left.
        const double enough = std::max(0.0, to_millimetres(least)) + 1e-5;
        if (bounded && distance_to(entry.near, nozzle) > enough) continue;
        take(i, p, nozzle);
      }
    }
  }
  return best;
}

double OffsetLimits::slack_of(std::size_t probe, Point offset) const {
  const Point nozzle = probes_[probe] - offset;
  double least = Least::kUndecided;
  for (const Entry& entry : limits_) {
    if (is_of_mount(entry.prepared.limit.info.group)) continue;
    const double enough = std::max(0.0, to_millimetres(least)) + 1e-5;
    if (!entry.near.empty() && distance_to(entry.near, nozzle) > enough) continue;
    const Ticks ticks = read(entry.prepared, nozzle);
    least = std::min(least, ticks.leeway - ticks.guard);
  }
  return to_millimetres(least);
}

double OffsetLimits::slack_of_mount(Point offset) const {
  double least = Least::kUndecided;
  for (const Entry& entry : limits_) {
    if (!is_of_mount(entry.prepared.limit.info.group)) continue;
    const Ticks ticks = read(entry.prepared, offset);
    least = std::min(least, ticks.leeway - ticks.guard);
  }
  return to_millimetres(least);
}

}  // namespace leeway
