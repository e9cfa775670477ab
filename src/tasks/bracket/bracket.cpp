#include "leeway/bracket.h"

#include <algorithm>
#include <cmath>

#include "geometry/areas/pole.h"
#include "geometry/plane/polygons.h"
#include "geometry/plane/vector.h"
#include "model/limits/ticks.h"
#include "model/setup/door.h"
#include "tasks/bracket/bracket_conflict.h"
#include "tasks/bracket/bracket_problem.h"
#include "tasks/bracket/coverage_map_of_sets.h"
#include "tasks/bracket/nearest_in_window.h"

namespace leeway {
namespace {

double to_step(double mm, double step) { return rounded_to_ticks(std::round(mm / step) * step); }

// Whether an offset works, by its own limits and by the verdicts of `check`.
bool works(const BracketProblem& problem, Point offset) {
  return problem.leeway(offset) >= 0 && problem.verified(offset);
}

// Of the offsets around `place`, in hundredths or, where the window has none, in thousandths, the
// first that works in an order.
template <typename Order>
std::optional<Point> tidy_offset(const BracketProblem& problem, Point place, const Order& before) {
  struct Search {
    double step;
    int around;
  };
  // The last one for corners so sharp that there is nothing near their tip.
  for (const auto& [step, around] : {Search{0.01, 2}, Search{0.001, 2}, Search{0.01, 40}}) {
    std::vector<Point> near;
    for (int i = -around; i <= around; ++i) {
      for (int k = -around; k <= around; ++k) {
        near.push_back({to_step(place.x + i * step, step), to_step(place.y + k * step, step)});
      }
    }
    std::stable_sort(near.begin(), near.end(), before);
    for (const Point offset : near) {
      if (works(problem, offset)) return offset;
    }
  }
  const Point as_it_is = rounded_to_ticks(place);
  if (works(problem, as_it_is)) return as_it_is;
  return std::nullopt;
}

class Finder {
 public:
  explicit Finder(const BracketProblem& problem, Point present)
      : problem_(problem),
        present_(present),
        region_(problem.window(problem.within_reach())),
        thin_(region_.empty() ? problem.thin_window(problem.within_reach()) : std::nullopt) {}

  bool empty() const { return region_.empty() && !thin_; }

  BracketWindow window() const {
    BracketWindow window;
    window.empty = empty();
    if (window.empty) return window;
    window.region = region_;
    window.area = area(region_);
    if (thin_) {
      const Ring ends = thin_->offsets;
      window.bounds = bounding_box(ends);
    } else {
      window.bounds = bounds(region_);
    }
    for (const Point out : {Point{-1, 0}, Point{1, 0}, Point{0, -1}, Point{0, 1}}) {
      window.sides.push_back(side(out));
    }
    return window;
  }

  std::optional<Point> best() const {
    if (thin_) {
      const auto& offsets = thin_->offsets;
      const Point middle = 0.5 * (offsets.front() + offsets.back());
      return *std::min_element(offsets.begin(), offsets.end(), [&](Point a, Point b) {
        return distance(a, middle) < distance(b, middle);
      });
    }
    const std::optional<Pole> pole = pole_of_inaccessibility(region_);
    if (!pole) return std::nullopt;
    const Point at = pole->at;
    return tidy_offset(problem_, at,
                       [at](Point a, Point b) { return distance(a, at) < distance(b, at); });
  }

  std::optional<Point> nearest() const {
    if (works(problem_, present_)) return present_;
    const auto nearer = [this](Point a, Point b) {
      return distance(a, present_) < distance(b, present_);
    };
    if (thin_) return *std::min_element(thin_->offsets.begin(), thin_->offsets.end(), nearer);
    const std::optional<Point> place = closest_point(region_, present_);
    return place ? tidy_offset(problem_, *place, nearer) : std::nullopt;
  }

 private:
  // Where the window ends in a direction, and what stops an offset just beyond.
  BracketSide side(Point out) const {
    Point farthest = thin_ ? thin_->offsets.front() : region_.front().outer.front();
    const auto look = [&](const Ring& ring) {
      for (const Point p : ring) {
        if (dot(p, out) > dot(farthest, out)) farthest = p;
      }
    };
    if (thin_) look(thin_->offsets);
    for (const Polygon& polygon : region_) look(polygon.outer);
    // In the middle of a side that is straight: at a corner two limits stop it.
    Point place = farthest;
    for (const Polygon& polygon : region_) {
      for (std::size_t i = 0; i < polygon.outer.size(); ++i) {
        const Point a = polygon.outer[i];
        const Point b = polygon.outer[(i + 1) % polygon.outer.size()];
        if (dot(a, out) == dot(farthest, out) && dot(b, out) == dot(farthest, out)) {
          place = 0.5 * (a + b);
        }
      }
    }
    constexpr double kBeyond = 0.01;
    return {out.x != 0 ? farthest.x : farthest.y, problem_.tightest(place + kBeyond * out)};
  }

  const BracketProblem& problem_;
  Point present_;
  MultiPolygon region_;
  std::optional<ThinWindow> thin_;
};

// What offsets of one setup cover.
class Cover {
 public:
  explicit Cover(const Rig& rig) : sets_(cover_sets(rig)) {}

  std::optional<BracketCover> at(Point offset) const {
    const std::optional<CoverageMap> map =
        coverage_map(sets_, {offset.x - 1, offset.x + 1, 3}, {offset.y - 1, offset.y + 1, 3}, {});
    if (!map) return std::nullopt;
    return BracketCover{map->at(1, 1), map->at(0, 1), map->at(2, 1), map->at(1, 0), map->at(1, 2)};
  }

 private:
  CoverSets sets_;
};

}  // namespace

std::optional<Point> nearest_in_window(const Setup& setup) {
  const BracketProblem problem({&setup, 1});
  if (problem.within_reach().empty() || !problem.out_of_reach().empty()) return std::nullopt;
  return Finder(problem, setup.probe.offset).nearest();
}

BracketResult bracket(std::span<const Setup> setups, const BracketOptions& options) {
  if (setups.empty()) throw BracketRefused("there is no setup to look at");
  for (const Setup& setup : setups) require_valid(setup);
  const BracketProblem problem(setups);
  BracketResult result;
  result.setups = problem.summaries();
  for (std::size_t s = 0; s < setups.size(); ++s) result.rigs.push_back(problem.rig(s));
  for (const BracketSetup& setup : result.setups) result.points += setup.points;
  if (result.points == 0) {
    throw BracketRefused("the request asks for no point, so that every offset would do");
  }
  result.out_of_reach = problem.out_of_reach();
  if (problem.within_reach().empty()) return result;

  const Point present = setups.front().probe.offset;
  const Finder finder(problem, present);
  result.window = finder.window();
  const BracketStop stop = problem.tightest(present);
  result.present = {present, works(problem, present), problem.leeway(present), stop};
  std::vector<Cover> covers;
  for (std::size_t s = 0; s < setups.size(); ++s) {
    result.setups[s].cover = covers.emplace_back(problem.rig(s)).at(setups[s].probe.offset);
  }
  if (finder.empty()) {
    result.conflict = conflict_of(problem, options.progress);
    result.mount_alone = result.conflict.empty();
    const bool grids = std::any_of(setups.begin(), setups.end(),
                                   [](const Setup& s) { return s.request.grid.has_value(); });
    if (grids && !result.mount_alone) result.shrink = shrink_of(problem, options.progress);
    return result;
  }
  if (const std::optional<Point> best = finder.best()) {
    result.best = {*best, problem.leeway(*best)};
    for (std::size_t s = 0; s < setups.size(); ++s) {
      result.setups[s].leeway_at_best = problem.leeway(*best, s);
      result.setups[s].cover_at_best = covers[s].at(*best);
    }
  }
  if (const std::optional<Point> nearest = finder.nearest()) {
    result.nearest = {*nearest, problem.leeway(*nearest)};
  }
  return result;
}

bool all_well(const BracketResult& result) {
  return !result.window.empty && result.out_of_reach.empty();
}

}  // namespace leeway
