#include "tasks/explain/questions/observed.h"
#include "leeway/explain.h"

#include <algorithm>
#include <cmath>

namespace leeway {
namespace {

constexpr double kSeldom = 0.03;  // that a controller does otherwise, or somebody looked wrongly

bool within_travel(const Rig& rig, Point probe) {
  for (std::size_t i = 0; i < rig.limits().size(); ++i) {
    if (rig.limits().info(i).group != LimitGroup::travel) continue;
    if (rig.limits().reading(i, probe).leeway < 0) return false;
  }
  return true;
}

}  // namespace

std::optional<Point> sent_to(const Observed& observed, const Setup& setup) {
  const Request& request = setup.request;
  const Point offset = setup.probe.offset;
  if (observed.column > 0) {
    if (!request.grid) return std::nullopt;
    const Grid& grid = *request.grid;
    if (observed.column > grid.columns || observed.row > grid.rows) return std::nullopt;
    return grid_point(grid_bounds_for_probe(setup, grid), grid.columns, grid.rows,
                      observed.column - 1, observed.row - 1);
  }
  if (!observed.name_index) return probe_position(observed.at, observed.frame, offset);
  if (*observed.name_index == kHomeIndex) {
    if (!request.home) return std::nullopt;
    return probe_position(request.home->at, request.home->frame, offset);
  }
  const auto index = static_cast<std::size_t>(*observed.name_index);
  if (index >= request.points.size()) return std::nullopt;
  return probe_position(request.points[index].at, request.points[index].frame, offset);
}

bool explains(const Observed& observed, const Rig& rig) {
  const std::optional<Point> probe = sent_to(observed, rig.setup());
  return probe && within_travel(rig, *probe) == observed.accepted;
}

std::size_t count_unexplained(const std::vector<Observed>& observed, const Rig& rig) {
  return static_cast<std::size_t>(std::count_if(observed.begin(), observed.end(),
                                                [&](auto& one) { return !explains(one, rig); }));
}

std::optional<std::pair<std::size_t, std::size_t>> contradicting(
    const std::vector<Observed>& observed, const Setup& setup) {
  for (std::size_t i = 0; i < observed.size(); ++i) {
    for (std::size_t j = i + 1; j < observed.size(); ++j) {
      const bool both = observed[i].accepted != observed[j].accepted;
      if (both && sent_to(observed[i], setup) == sent_to(observed[j], setup)) return {{i, j}};
    }
  }
  return std::nullopt;
}

double log_observed(const std::vector<Observed>& observed, const Rig& rig) {
  double sum = 0;
  for (const Observed& one : observed) sum += std::log(explains(one, rig) ? 1 - kSeldom : kSeldom);
  return sum;
}

}  // namespace leeway
