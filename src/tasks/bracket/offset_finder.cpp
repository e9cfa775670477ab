#include "tasks/bracket/offset_finder.h"

#include <algorithm>
#include <cmath>

#include "geometry/areas/pole.h"
#include "geometry/plane/polygons.h"
#include "geometry/plane/vector.h"
#include "model/limits/ticks.h"

namespace leeway {
namespace {

double to_step(double mm, double step) { return rounded_to_ticks(std::round(mm / step) * step); }

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
      if (problem.works(offset)) return offset;
    }
  }
  const Point as_it_is = rounded_to_ticks(place);
  if (problem.works(as_it_is)) return as_it_is;
  return std::nullopt;
}

}  // namespace

OffsetFinder::OffsetFinder(const BracketProblem& problem, Point present)
    : problem_(problem),
      present_(present),
      region_(problem.window(problem.within_reach())),
      thin_(region_.empty() ? problem.thin_window(problem.within_reach()) : std::nullopt) {}

BracketWindow OffsetFinder::window() const {
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

std::optional<Point> OffsetFinder::best() const {
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

std::optional<Point> OffsetFinder::nearest() const {
  if (problem_.works(present_)) return present_;
  const auto nearer = [this](Point a, Point b) {
    return distance(a, present_) < distance(b, present_);
  };
  if (thin_) return *std::min_element(thin_->offsets.begin(), thin_->offsets.end(), nearer);
  const std::optional<Point> place = closest_point(region_, present_);
  return place ? tidy_offset(problem_, *place, nearer) : std::nullopt;
}

// Where the window ends in a direction, and what stops an offset just beyond.
BracketSide OffsetFinder::side(Point out) const {
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

}  // namespace leeway
