#include "tasks/check/requested_points.h"

#include <algorithm>

namespace leeway {
namespace {

void append_grid(const Setup& setup, const Grid& grid, const Limits& limits,
                 std::vector<CheckedPoint>& points, std::size_t& skipped) {
  const Box bounds = grid_bounds(grid, setup.machine);
  points.reserve(static_cast<std::size_t>(grid.columns) * static_cast<std::size_t>(grid.rows));
  for (int row = 0; row < grid.rows; ++row) {
    for (int column = 0; column < grid.columns; ++column) {
      const Point at = grid_point(bounds, grid.columns, grid.rows, column, row);
      CheckedPoint point;
      point.probe = probe_position(at, grid.frame, setup.probe.offset);
      if (grid.skip_outside_bed && limits.on_bed(point.probe) < 0) {
        ++skipped;
        continue;
      }
      point.column = column + 1;
      point.row = row + 1;
      points.push_back(point);
    }
  }
}

}  // namespace

std::vector<CheckedPoint> requested_points(const Setup& setup, const Limits& limits,
                                           std::size_t& skipped) {
  std::vector<CheckedPoint> points;
  skipped = 0;
  if (setup.request.grid) append_grid(setup, *setup.request.grid, limits, points, skipped);
  for (std::size_t i = 0; i < setup.request.points.size(); ++i) {
    const NamedPoint& named = setup.request.points[i];
    CheckedPoint point;
    point.probe = probe_position(named.at, named.frame, setup.probe.offset);
    point.name_index = static_cast<std::int32_t>(i);
    points.push_back(point);
  }
  if (const std::optional<Home>& home = setup.request.home) {
    CheckedPoint point;
    point.probe = probe_position(home->at, home->frame, setup.probe.offset);
    point.name_index = kHomeIndex;
    points.push_back(point);
  }
  return points;
}

PointCounts count_points(const Setup& setup, const Limits& limits, bool stop_at_first) {
  PointCounts counts;
  std::vector<Point> row;
  std::vector<Finding> findings;
  const auto take_row = [&] {
    findings.resize(row.size());
    limits.evaluate(row, findings);
    counts.points += row.size();
    counts.failing += static_cast<std::size_t>(
        std::count_if(findings.begin(), findings.end(),
                      [](const Finding& f) { return f.verdict != Verdict::reachable; }));
    row.clear();
    return stop_at_first && counts.failing > 0;
  };
  const Point offset = setup.probe.offset;
  for (const NamedPoint& named : setup.request.points) {
    row.push_back(probe_position(named.at, named.frame, offset));
  }
  if (const std::optional<Home>& home = setup.request.home) {
    row.push_back(probe_position(home->at, home->frame, offset));
  }
  if (take_row() || !setup.request.grid) return counts;
  const Grid& grid = *setup.request.grid;
  const Box bounds = grid_bounds(grid, setup.machine);
  for (int y = 0; y < grid.rows; ++y) {
    for (int x = 0; x < grid.columns; ++x) {
      const Point at = grid_point(bounds, grid.columns, grid.rows, x, y);
      const Point probe = probe_position(at, grid.frame, offset);
      if (grid.skip_outside_bed && limits.on_bed(probe) < 0) {
        ++counts.skipped;
      } else {
        row.push_back(probe);
      }
    }
    // Few points in a row would make many small blocks.
    const std::size_t enough = stop_at_first ? 64 : 4096;
    if (row.size() < enough && y + 1 < grid.rows) continue;
    if (take_row()) break;
  }
  return counts;
}

std::vector<std::size_t> travel_order(const std::vector<CheckedPoint>& points) {
  std::vector<std::size_t> order;
  for (std::size_t start = 0; start < points.size() && points[start].row > 0;) {
    std::size_t end = start;
    while (end < points.size() && points[end].row == points[start].row) ++end;
    const std::size_t first = order.size();
    for (std::size_t i = start; i < end; ++i) {
      if (points[i].finding.verdict != Verdict::unreachable) order.push_back(i);
    }
    // Every second row of the grid is gone along from right to left.
    if (points[start].row % 2 == 0) {
      std::reverse(order.begin() + static_cast<std::ptrdiff_t>(first), order.end());
    }
    start = end;
  }
  for (std::size_t i = 0; i < points.size(); ++i) {
    const bool of_grid = points[i].row > 0;
    if (!of_grid && points[i].finding.verdict != Verdict::unreachable) order.push_back(i);
  }
  return order;
}

}  // namespace leeway
