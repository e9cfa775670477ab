#include "tasks/bracket/bracket_conflict.h"

#include <algorithm>
#include <cmath>

#include "geometry/plane/assert.h"
#include "geometry/plane/polygons.h"
#include "tasks/go_on.h"

namespace leeway {
namespace {

using Points = std::vector<BracketPoint>;

class ConflictSearch {
 public:
  ConflictSearch(const BracketProblem& problem, const Progress& progress)
      : problem_(problem), progress_(progress) {}

  bool empty(const Points& points) const {
    go_on(progress_);
    return problem_.is_empty(points);
  }

  // A subset of `candidates` that is irreducible and empty together with `held` (Junker,
  // QuickXplain, AAAI 2004: about k log(n/k) tests for k points of n). REQUIRES: all together are
  // empty, `held` alone is not.
  Points irreducible(const Points& candidates) const {
    Points found = halves({}, false, candidates);
    // Roundings to whole micrometres may hide a sliver of a window in one test and not in another:
    // whatever can still be left out goes.
    for (std::size_t i = 0; i < found.size() && found.size() > 1;) {
      Points fewer = found;
      fewer.erase(fewer.begin() + static_cast<std::ptrdiff_t>(i));
      if (empty(fewer)) {
        found = std::move(fewer);
        i = 0;
      } else {
        ++i;
      }
    }
    return found;
  }

 private:
  static Points sum(const Points& a, const Points& b) {
    Points all = a;
    all.insert(all.end(), b.begin(), b.end());
    return all;
  }

  Points halves(const Points& held, bool changed, const Points& candidates) const {
    if (changed && empty(held)) return {};
    if (candidates.size() == 1) return candidates;
    const auto middle = candidates.begin() + static_cast<std::ptrdiff_t>(candidates.size() / 2);
    const Points first(candidates.begin(), middle);
    const Points second(middle, candidates.end());
    const Points of_second = halves(sum(held, first), true, second);
    const Points of_first = halves(sum(held, of_second), !of_second.empty(), first);
    return sum(of_first, of_second);
  }

  const BracketProblem& problem_;
  const Progress& progress_;
};

// The points of each setup's hull: where only convex sets hold, no others matter.
Points hull_of(const Points& points) {
  Points hull;
  std::vector<Ring> rings;
  for (const BracketPoint& point : points) {
    if (rings.size() <= point.setup) rings.resize(point.setup + 1);
    rings[point.setup].push_back(point.probe);
  }
  for (Ring& ring : rings) {
    if (!ring.empty()) ring = convex_hull(ring);
  }
  for (const BracketPoint& point : points) {
    const Ring& ring = rings[point.setup];
    if (std::find(ring.begin(), ring.end(), point.probe) == ring.end()) continue;
    const bool known = std::any_of(hull.begin(), hull.end(), [&](const BracketPoint& p) {
      return p.setup == point.setup && p.probe == point.probe;
    });
    if (!known) hull.push_back(point);
  }
  return hull;
}

}  // namespace

std::vector<BracketPoint> conflict_of(const BracketProblem& problem, const Progress& progress) {
  LEEWAY_ASSERT(problem.is_empty(problem.within_reach()));
  const ConflictSearch search(problem, progress);
  if (search.empty({})) return {};
  const Points& all = problem.within_reach();
  const Points hull = hull_of(all);
  const bool hull_will_do = search.empty(hull);
  const Points found = search.irreducible(hull_will_do ? hull : all);
  // Fewer are easier to look at.
  constexpr std::size_t kMostForPairs = 24;
  if (found.size() == 1 || hull.size() > kMostForPairs) return found;
  for (const BracketPoint& point : hull) {
    if (search.empty({point})) return {point};
  }
  for (std::size_t i = 0; found.size() > 2 && i < hull.size(); ++i) {
    for (std::size_t k = i + 1; k < hull.size(); ++k) {
      const Points pair{hull[i], hull[k]};
      if (search.empty(pair)) return pair;
    }
  }
  return found;
}

BracketShrink shrink_of(const BracketProblem& problem, const Progress& progress) {
  double most = 0;
  for (const Setup& setup : problem.setups()) {
    if (!setup.request.grid) continue;
    const Box bounds = grid_bounds_for_probe(setup, *setup.request.grid);
    most = std::max({most, bounds.width() / 2, bounds.depth() / 2});
  }
  const auto opens = [&](double in_x, double in_y) {
    go_on(progress);
    const std::optional<Points> points = problem.with_smaller_grids(in_x, in_y);
    return points && !problem.is_empty(*points);
  };
  // In hundredths. The first amount on the scan that opens it, and then the least below that.
  const auto least = [&](double x, double y) -> std::optional<double> {
    const long end = std::lround(std::ceil(most * 100));
    const long step = std::max(100L, end / 100);
    const auto works = [&](long h) {
      const double in = static_cast<double>(h) / 100;
      return opens(x * in, y * in);
    };
    long good = step;
    while (good <= end && !works(good)) good += step;
    if (good > end) return std::nullopt;
    long bad = good - step;
    while (good - bad > 1) {
      const long middle = (good + bad) / 2;
      (works(middle) ? good : bad) = middle;
    }
    return static_cast<double>(good) / 100;
  };
  return {least(1, 1), least(1, 0), least(0, 1)};
}

}  // namespace leeway
