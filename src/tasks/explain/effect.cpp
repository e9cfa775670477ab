#include "tasks/explain/effect.h"

#include <map>
#include <string>
#include <tuple>

#include "tasks/check/requested_points.h"

namespace leeway {
namespace {

// The same for the same place of the grid, the same named point, home. Of points with the same name
// the first goes with the first.
using PointName = std::tuple<std::int32_t, std::int32_t, std::string, int>;

class PointNames {
 public:
  explicit PointNames(const Setup& setup) : setup_(setup) {}

  PointName next(const CheckedPoint& point) {
    if (point.row > 0) return {point.row, point.column, "", 0};
    const std::string name = point_name(setup_, point);
    return {0, point.name_index == kHomeIndex ? 1 : 0, name, seen_[name]++};
  }

 private:
  const Setup& setup_;
  std::map<std::string, int> seen_;
};

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
  PointNames names_before(rig.setup());
  for (const CheckedPoint& point : checked.points) {
    failed[names_before.next(point)] = point.finding.verdict != Verdict::reachable;
  }
  Effect effect;
  std::size_t skipped = 0;
  PointNames names(changed.setup());
  for (const CheckedPoint& point : requested_points(changed.setup(), changed.limits(), skipped)) {
    const auto before = failed.find(names.next(point));
    if (before == failed.end()) continue;  // nobody asked for it before
    const bool fails = changed.limits().evaluate(point.probe).verdict != Verdict::reachable;
    effect.fixes += before->second && !fails;
    effect.breaks += !before->second && fails;
    failed.erase(before);
  }
  // Places of the grid that are left out now. What is not asked for any more is not broken.
  for (const auto& [name, fails] : failed) effect.breaks += std::get<0>(name) > 0 && !fails;
  return effect;
}

}  // namespace leeway
