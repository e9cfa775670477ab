#include "leeway/compare_grids.h"

#include <algorithm>

#include "model/setup/door.h"
#include "tasks/fit/trusted_fit.h"

namespace leeway {
namespace {

ComparedGrid compared(const Rig& rig, const GridWanted& wanted, FitOptions options) {
  options.columns = wanted.columns;
  options.rows = wanted.rows;
  options.spacing = wanted.spacing;
  options.remedies = false;
  ComparedGrid out;
  out.wanted = wanted;
  try {
    const FitResult result = fit_trusted(rig, options);
    out.mesh = result.mesh;
    out.limiting = result.limiting;
    out.most_kept = result.most_kept;
    out.moves_judged = result.checked.moves.judged;
    out.moves_clear = result.checked.moves.clear();
    out.least_height = result.checked.moves.safe.least;
  } catch (const FitRefused& refused) {
    out.refused = refused.what();
  }
  return out;
}

int class_of(const ComparedGrid& grid) { return !grid.mesh ? 2 : grid.moves_clear ? 0 : 1; }

double after_guard(const FitMesh& mesh) {
  return mesh.tightest.finding.leeway - mesh.tightest.finding.guard;
}

bool comes_before(const ComparedGrid& a, const ComparedGrid& b) {
  if (class_of(a) != class_of(b)) return class_of(a) < class_of(b);
  if (!a.mesh) return false;
  const FitMesh& one = *a.mesh;
  const FitMesh& other = *b.mesh;
  if (one.area != other.area) return one.area > other.area;
  if (after_guard(one) != after_guard(other)) return after_guard(one) > after_guard(other);
  return one.columns * one.rows < other.columns * other.rows;
}

bool same_mesh(const ComparedGrid& a, const ComparedGrid& b) {
  return a.mesh && b.mesh && a.mesh->columns == b.mesh->columns && a.mesh->rows == b.mesh->rows &&
         a.mesh->bounds == b.mesh->bounds;
}

}  // namespace

std::vector<ComparedGrid> compare_grids(const Rig& rig, const std::vector<GridWanted>& wanted,
                                        const FitOptions& options) {
  require_valid(rig.setup());
  std::vector<ComparedGrid> out;
  FitOptions each = options;
  for (std::size_t i = 0; i < wanted.size(); ++i) {
    if (options.progress) {
      each.progress = [&](double done) {
        return options.progress((static_cast<double>(i) + done) /
                                static_cast<double>(wanted.size()));
      };
    }
    ComparedGrid grid = compared(rig, wanted[i], each);
    const bool known = std::any_of(out.begin(), out.end(), [&](const ComparedGrid& before) {
      return same_mesh(before, grid);
    });
    if (!known) out.push_back(std::move(grid));
  }
  const bool all_refused = std::all_of(
      out.begin(), out.end(), [](const ComparedGrid& grid) { return !grid.refused.empty(); });
  if (!out.empty() && all_refused) throw FitRefused(out.front().refused);
  std::stable_sort(out.begin(), out.end(), comes_before);
  return out;
}

std::optional<FitMesh> better_neighbour(const Rig& rig, const FitResult& result,
                                        const FitOptions& options) {
  if (!result.mesh || !result.mesh->coverage.fraction) return std::nullopt;
  const int columns = result.columns;
  const int rows = result.rows;
  if (columns < 2 || rows < 2 || columns > kMostForNeighbours / rows) return std::nullopt;
  std::vector<GridWanted> wanted;
  for (const int d : {-1, 1}) {
    if (columns + d >= 2) wanted.push_back({columns + d, rows, std::nullopt});
    if (rows + d >= 2) wanted.push_back({columns, rows + d, std::nullopt});
  }
  std::vector<ComparedGrid> grids;
  try {
    grids = compare_grids(rig, wanted, options);
  } catch (const FitRefused&) {
    return std::nullopt;
  }
  const ComparedGrid& best = grids.front();
  if (!best.mesh || !best.moves_clear || !best.mesh->coverage.fraction) return std::nullopt;
  const double more = *best.mesh->coverage.fraction - *result.mesh->coverage.fraction;
  return more >= kNotableShare ? best.mesh : std::nullopt;
}

}  // namespace leeway
