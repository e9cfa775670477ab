#include "tasks/fit/fit_mesh.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "leeway/setup.h"
#include "tasks/fit/move_ground.h"

namespace leeway {

double off_centre(const Box& bounds, Point centre) {
  return to_millionths(
      std::hypot((bounds.x0 + bounds.x1) / 2 - centre.x, (bounds.y0 + bounds.y1) / 2 - centre.y));
}

bool is_middle(int i, int lines) { return i == (lines - 1) / 2 || i == lines / 2; }

std::vector<int> inward_from_ends(int lines) {
  std::vector<int> order{0, lines - 1};
  for (int i = 1; i + 1 < lines; ++i) order.push_back(i);
  return order;
}

double LineCount::exactly_over(double length) const {
  if (count_ > 0) return count_;
  // A hair more than a whole number of spacings is what decimals lose in binary.
  return std::max(2.0, std::ceil(length / spacing_ - 1e-9) + 1);
}

int LineCount::over(double length) const {
  return static_cast<int>(std::min(exactly_over(length), static_cast<double>(kMostGridPoints)));
}

bool FoundMesh::better_than(const FoundMesh& other) const {
  if (area != other.area) return area > other.area;
  if (least_leeway != other.least_leeway) return least_leeway > other.least_leeway;
  return off_centre < other.off_centre;
}

namespace {

// The points that a mesh keeps, in travel order.
std::vector<Point> way_over(const FitProblem& problem, const FoundMesh& mesh) {
  std::vector<Point> way;
  const auto points = static_cast<std::size_t>(mesh.columns) * static_cast<std::size_t>(mesh.rows);
  for (std::size_t i = 0; i < points; ++i) {
    const Point p = serpentine_point(mesh.bounds, mesh.columns, mesh.rows, i);
    if (problem.skip_outside_bed && problem.limits->on_bed(p) < 0) continue;
    way.push_back(p);
  }
  return way;
}

}  // namespace

std::optional<FoundMesh> mesh_over(const FitProblem& problem, const Box& bounds,
                                   LatticePlace* failed) {
  const Limits& limits = *problem.limits;
  problem.work();
  FoundMesh mesh;
  mesh.bounds = bounds;
  mesh.columns = problem.columns.over(bounds.width());
  mesh.rows = problem.rows.over(bounds.depth());
  if (problem.moves != nullptr && !problem.skip_outside_bed &&
      problem.moves->fails_again(bounds, mesh.columns, mesh.rows)) {
    return std::nullopt;
  }
  std::vector<Point> row;
  std::vector<int> columns;  // beside `row`
  std::vector<Finding> findings;
  for (const int y : inward_from_ends(mesh.rows)) {
    row.clear();
    columns.clear();
    for (int x = 0; x < mesh.columns; ++x) {
      const Point p = grid_point(bounds, mesh.columns, mesh.rows, x, y);
      if (problem.skip_outside_bed && limits.on_bed(p) < 0) {
        const bool on_side = x == 0 || x == mesh.columns - 1;
        const bool on_end = y == 0 || y == mesh.rows - 1;
        if (on_end && is_middle(x, mesh.columns)) return std::nullopt;
        if (on_side && is_middle(y, mesh.rows)) return std::nullopt;
        continue;
      }
      row.push_back(p);
      columns.push_back(x);
    }
    findings.resize(row.size());
    limits.evaluate(row, findings);
    for (std::size_t i = 0; i < row.size(); ++i) {
      if (findings[i].verdict == Verdict::reachable) continue;
      if (failed != nullptr) *failed = {columns[i], y};
      return std::nullopt;
    }
  }
  const std::vector<Point> way = way_over(problem, mesh);
  if (problem.moves != nullptr && !problem.moves->clear(way)) return std::nullopt;
  mesh.least_leeway = std::numeric_limits<double>::infinity();
  for (const Point& p : way) {
    mesh.least_leeway = std::min(mesh.least_leeway, limits.least_leeway(p));
  }
  mesh.off_centre = off_centre(bounds, problem.centre);
  return mesh;
}

}  // namespace leeway
