#include "tasks/bracket/offset_finder.h"

#include <algorithm>
#include <cmath>

#include "geometry/areas/pole.h"
#include "geometry/plane/polygons.h"
#include "geometry/plane/vector.h"
#include "tasks/bracket/tidy_offset.h"

namespace leeway {
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
  for (const Point out : {Point{-1, 0}, Point{1, 0}, Point{0, -1}, Point{0, 1}}) {
    window.sides.push_back(side(out));
  }
  // The ends as they are told.
  const auto& sides = window.sides;
  window.bounds = Box{sides[0].at, sides[1].at, sides[2].at, sides[3].at};
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
  return tidy_offset(
      at, [at](Point a, Point b) { return distance(a, at) < distance(b, at); },
      [this](Point offset) { return problem_.works(offset); });
}

std::optional<Point> OffsetFinder::nearest() const {
  if (problem_.works(present_)) return present_;
  const auto nearer = [this](Point a, Point b) {
    return distance(a, present_) < distance(b, present_);
  };
  if (thin_) return *std::min_element(thin_->offsets.begin(), thin_->offsets.end(), nearer);
  const std::optional<Point> place = closest_point(region_, present_);
  if (!place) return std::nullopt;
  return tidy_offset(*place, nearer, [this](Point offset) { return problem_.works(offset); });
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
  return {end(place, out), problem_.tightest(place + kBeyond * out)};
}

// The last thousandth that works, seen from a place on the window's edge, as it will be printed:
// the polygons may end a little before or behind it.
double OffsetFinder::end(Point place, Point out) const {
  const bool along_x = out.x != 0;
  const double at = along_x ? place.x : place.y;
  const double sign = out.x + out.y;
  if (thin_) return at;
  constexpr double kStep = 0.001;
  const double outermost = std::ceil(sign * at / kStep) + 2;
  for (int back = 0; back < 8; ++back) {
    const double told = rounded_to_ticks(sign * (outermost - back) * kStep);
    if (problem_.works(along_x ? Point{told, place.y} : Point{place.x, told})) return told;
  }
  // Of a tip that is too sharp for that the polygon's own end, a little inward.
  return rounded_to_ticks(sign * (std::floor(sign * at / kStep) - 1) * kStep);
}

}  // namespace leeway
