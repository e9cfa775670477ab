#include "tasks/fit/search_ground.h"

#include <algorithm>

#include "geometry/plane/assert.h"
#include "leeway/setup.h"

namespace leeway {
namespace {

std::vector<double> all_ys(const FitProblem& problem) {
  std::vector<double> ys = problem.fronts;
  ys.insert(ys.end(), problem.backs.begin(), problem.backs.end());
  std::sort(ys.begin(), ys.end());
  ys.erase(std::unique(ys.begin(), ys.end()), ys.end());
  return ys;
}

}  // namespace

SearchGround::SearchGround(const FitProblem& problem)
    : problem_(problem), ys_(all_ys(problem)), sums_(*problem.printable, ys_), rows_(problem) {
  LEEWAY_ASSERT(!problem.lefts.empty() && !problem.rights.empty());
  for (const double y : problem.fronts) fronts_.push_back(index_of(y));
  for (const double y : problem.backs) backs_.push_back(index_of(y));
}

std::size_t SearchGround::index_of(double y) const {
  return static_cast<std::size_t>(std::lower_bound(ys_.begin(), ys_.end(), y) - ys_.begin());
}

const std::vector<double>& SearchGround::sums_at(double x) {
  const auto [at, is_new] = sums_at_.try_emplace(x);
  if (is_new) at->second = sums_.left_of(x);
  return at->second;
}

bool SearchGround::is_good(Column& column, double x, std::size_t y) {
  char& known = column.at[y];
  if (known == Column::unknown) {
    problem_.work();
    const Point p{x, ys_[y]};
    const bool good = (problem_.skip_outside_bed && problem_.limits->on_bed(p) < 0) ||
                      problem_.limits->evaluate(p).verdict == Verdict::reachable;
    known = good ? Column::good : Column::bad;
  }
  return known == Column::good;
}

// Whether some point of the column is good at all. Where a column runs along a limit the polygons
// cannot tell, and all of it may be bad.
bool SearchGround::has_good(Column& column, double x) {
  if (!column.looked) {
    column.looked = true;
    // From the middle, where there is most room as a rule.
    const std::size_t middle = ys_.size() / 2;
    for (std::size_t i = 0; i < ys_.size() && !column.some_good; ++i) {
      const std::size_t away = (i + 1) / 2;
      const std::size_t y = i % 2 == 0 ? middle + away : middle - away;
      column.some_good = y < ys_.size() && is_good(column, x, y);
    }
  }
  return column.some_good;
}

std::vector<SearchGround::KnownColumn> SearchGround::columns_of(double left, double right) {
  constexpr int kMostTested = 128;
  const int count = problem_.columns.over(right - left);
  const int lines = std::min(count, kMostTested);
  std::vector<KnownColumn> columns;
  for (const int i : inward_from_ends(lines)) {
    const int line = i == lines - 1 ? count - 1 : i;
    const double x = grid_point({left, right, 0, 0}, count, 2, line, 0).x;
    Column& column = columns_[x];
    if (column.at.empty()) column.at.resize(ys_.size(), Column::unknown);
    if (!has_good(column, x)) return {};
    columns.push_back({x, &column});
  }
  return columns;
}

bool SearchGround::ends_hold(const std::vector<KnownColumn>& columns, std::size_t front,
                             std::size_t back) {
  return std::all_of(columns.begin(), columns.end(), [&](const KnownColumn& known) {
    return is_good(*known.column, known.x, front) && is_good(*known.column, known.x, back);
  });
}

// Whether one of the points that failed last in meshes like this fails here too.
bool SearchGround::fails_again(const Box& mesh) {
  const int columns = problem_.columns.over(mesh.width());
  const int rows = problem_.rows.over(mesh.depth());
  const auto at = std::find_if(failed_.begin(), failed_.end(), [&](const LatticePlace& place) {
    if (place.column >= columns || place.row >= rows) return false;
    const Point p = grid_point(mesh, columns, rows, place.column, place.row);
    if (problem_.skip_outside_bed && problem_.limits->on_bed(p) < 0) return false;
    problem_.work();
    return problem_.limits->evaluate(p).verdict != Verdict::reachable;
  });
  if (at == failed_.end()) return false;
  std::rotate(failed_.begin(), at, at + 1);
  return true;
}

std::optional<FoundMesh> SearchGround::verified(const Box& mesh) {
  if (fails_again(mesh)) return std::nullopt;
  LatticePlace failed{-1, -1};
  std::optional<FoundMesh> found = mesh_over(problem_, mesh, &failed);
  if (!found && failed.row >= 0) {
    constexpr std::size_t kRemembered = 12;
    failed_.insert(failed_.begin(), failed);
    if (failed_.size() > kRemembered) failed_.pop_back();
  }
  return found;
}

void SearchGround::trim() {
  constexpr std::size_t kMostSums = 4'000'000;
  constexpr std::size_t kMostKnown = 32'000'000;
  if (sums_at_.size() * ys_.size() > kMostSums) sums_at_.clear();
  if (columns_.size() * (ys_.size() + 64) > kMostKnown) columns_.clear();
}

}  // namespace leeway
