#include "tasks/explain/effect.h"

#include <map>
#include <tuple>

#include "tasks/check/requested_points.h"

namespace leeway {
namespace {

// The same for the same place of the grid, named point or home.
using PointName = std::tuple<std::int32_t, std::int32_t, std::int32_t>;

PointName name_of_point(const CheckedPoint& point) { return {point.row, point.column, point.name_index}; }

bool same_points(const Setup& a, const Setup& b) {
  if (!a.request.grid || !b.request.grid) return !a.request.grid && !b.request.grid;
  return a.request.grid->columns == b.request.grid->columns &&
         a.request.grid->rows == b.request.grid->rows;
}

Effect net_effect(std::size_t before, std::size_t after) {
  return {before > after ? before - after : 0, after > before ? after - before : 0};
}

}  // namespace

Effect effect_of(const Rig& rig, const CheckResult& checked, const Rig& changed) {
  if (!same_points(rig.setup(), changed.setup())) {
    return net_effect(checked.counts.marginal + checked.counts.unreachable,
                      count_points(changed.setup(), changed.limits()).failing);
  }
  std::map<PointName, bool> failed;
  for (const CheckedPoint& point : checked.points) {
    failed[name_of_point(point)] = point.finding.verdict != Verdict::reachable;
  }
  Effect effect;
  std::size_t skipped = 0;
  for (const CheckedPoint& point : requested_points(changed.setup(), changed.limits(), skipped)) {
    const bool fails = changed.limits().evaluate(point.probe).verdict != Verdict::reachable;
    const auto before = failed.find(name_of_point(point));
    if (before == failed.end()) {
      effect.breaks += fails;
      continue;
    }
    effect.fixes += before->second && !fails;
    effect.breaks += !before->second && fails;
    failed.erase(before);
  }
  // Those that are left out now.
  for (const auto& [key, fails] : failed) effect.breaks += !fails;
  return effect;
}

}  // namespace leeway
