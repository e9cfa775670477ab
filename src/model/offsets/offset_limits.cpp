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
  bool convex = false;
  bool hull_only = false;
  switch (group) {
    case LimitGroup::bed:
    case LimitGroup::obstacle:
      return;  // Of the probe's own place, whatever the offset.
    case LimitGroup::head:
      return add_head(setup, swept_sets);
    case LimitGroup::travel:
      convex = hull_only = is_convex_set(setup.machine.travel);
      break;
    case LimitGroup::envelope:
      convex = setup.mount.envelope && is_convex_set(*setup.mount.envelope);
      break;
    case LimitGroup::beside:
      break;
  }
  std::vector<Limit> limits;
  append_group(group, setup, swept_sets, limits);
  for (Limit& limit : limits) {
    limits_.push_back({prepare(std::move(limit)), convex, hull_only, kNoBox});
  }
}

void OffsetLimits::add_head(const Setup& setup, SweptSets& swept_sets) {
  std::vector<Limit> head;
  append_group(LimitGroup::head, setup, swept_sets, head);
  const double guard = spread_of_head(setup).most();
  for (Limit& limit : head) {
    if (!limit.at_nozzle) continue;
    Entry entry{prepare(std::move(limit)), false, false, kNoBox};
    const LimitInfo& info = entry.prepared.limit.info;
    entry.near = reach_of(setup.machine.obstacles[info.obstacle_id],
                          outline_of(setup, info.part_id), info.wanted + guard);
    limits_.push_back(std::move(entry));
  }
}

// The least of a limit over a box of positions around `at`. A distance that has a convex set
// allowed has it at a corner. Of another one boxes are halved until what is left of them does not
// matter.
Ticks OffsetLimits::least_over(const Entry& entry, Point at, Point box) {
  const auto slack = [](const Ticks& t) { return t.leeway - t.guard; };
  Ticks least = read(entry.prepared, at);
  const auto take = [&](Ticks there, double less) {
    there.leeway -= std::ceil(to_ticks(less));
    if (slack(there) < slack(least)) least = there;
  };
  for (const double right : {-1.0, 1.0}) {
    for (const double up : {-1.0, 1.0}) {
      take(read(entry.prepared, at + Point{right * box.x, up * box.y}), 0);
    }
  }
  if (entry.convex) return least;
  constexpr double kFine_mm = 0.005;
  struct Part {
    Point at, half;
  };
  std::vector<Part> parts{{at, box}};
  while (!parts.empty()) {
    const auto [middle, half] = parts.back();
    parts.pop_back();
    const Ticks there = read(entry.prepared, middle);
    const double around = std::hypot(half.x, half.y);
    if (slack(there) - to_ticks(around) >= slack(least)) continue;
    if (around <= kFine_mm) {
      take(there, around);
      continue;
    }
    const Point step = half.x > half.y ? Point{half.x / 2, 0} : Point{0, half.y / 2};
    parts.push_back({middle - step, half - step});
    parts.push_back({middle + step, half - step});
  }
  return least;
}

// With the tolerance's box, where that could leave less than `enough` ticks.
Ticks OffsetLimits::reading(const Entry& entry, Point at, const Tolerance& tolerance,
                            double enough) {
  const Ticks ticks = read(entry.prepared, at);
  const double box = to_ticks(std::hypot(tolerance.box.x, tolerance.box.y));
  if (box == 0 || ticks.leeway - ticks.guard - box >= enough) return ticks;
  return least_over(entry, at, tolerance.box);
}

OffsetStop OffsetLimits::tightest(Point offset, const Tolerance& tolerance) const {
  LEEWAY_ASSERT(size() > 0);
  const double box = std::hypot(tolerance.box.x, tolerance.box.y);
  OffsetStop best;
  double least = Least::kUndecided;  // ticks of leeway less guard
  const auto take = [&](std::uint32_t limit, std::size_t point, Point at) {
    const Ticks ticks = reading(limits_[limit], at, tolerance, least);
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
        const double enough = std::max(0.0, to_millimetres(least)) + box + 1e-5;
        if (bounded && distance_to(entry.near, nozzle) > enough) continue;
        take(i, p, nozzle);
      }
    }
  }
  // All round it takes as much from every limit.
  best.leeway = to_millimetres(to_ticks(best.leeway) - to_ticks(tolerance.round));
  return best;
}

double OffsetLimits::slack_of(std::size_t probe, Point offset, const Tolerance& tolerance) const {
  const Point nozzle = probes_[probe] - offset;
  const double box = std::hypot(tolerance.box.x, tolerance.box.y);
  double least = Least::kUndecided;
  for (const Entry& entry : limits_) {
    if (is_of_mount(entry.prepared.limit.info.group)) continue;
    const double enough = std::max(0.0, to_millimetres(least)) + box + 1e-5;
    if (!entry.near.empty() && distance_to(entry.near, nozzle) > enough) continue;
    const Ticks ticks = reading(entry, nozzle, tolerance, least);
    least = std::min(least, ticks.leeway - ticks.guard);
  }
  return to_millimetres(least - to_ticks(tolerance.round));
}

double OffsetLimits::slack_of_mount(Point offset, const Tolerance& tolerance) const {
  double least = Least::kUndecided;
  for (const Entry& entry : limits_) {
    if (!is_of_mount(entry.prepared.limit.info.group)) continue;
    const Ticks ticks = reading(entry, offset, tolerance, least);
    least = std::min(least, ticks.leeway - ticks.guard);
  }
  return to_millimetres(least - to_ticks(tolerance.round));
}

}  // namespace leeway
