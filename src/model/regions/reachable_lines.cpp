#include "model/regions/reachable_lines.h"

#include <algorithm>
#include <cmath>

#include "geometry/plane/polygons.h"

namespace leeway {
namespace {

// Lines times pieces of a line: a millisecond or two, some tens with many obstacles.
constexpr std::size_t kMostLooks = 20'000;
constexpr double kHundredths = 100;
// Regions fall short of what is reachable by less.
constexpr double kShort = 0.01;

double along(Point p, Axis axis) { return axis == Axis::x ? p.x : p.y; }
double across(Point p, Axis axis) { return axis == Axis::x ? p.y : p.x; }
Point position(Axis axis, double along, double across) {
  return axis == Axis::x ? Point{along, across} : Point{across, along};
}

template <typename Visit>
void for_edges(const MultiPolygon& region, const Visit& visit) {
  const auto ring_edges = [&](const Ring& ring) {
    for (std::size_t i = 0; i < ring.size(); ++i) visit(ring[i], ring[(i + 1) % ring.size()]);
  };
  for (const Polygon& polygon : region) {
    ring_edges(polygon.outer);
    for (const Ring& hole : polygon.holes) ring_edges(hole);
  }
}

void sort_once(std::vector<double>& values) {
  std::sort(values.begin(), values.end());
  // Corners of shapes lie off the lattice that regions lie on.
  const auto same = [](double a, double b) { return b - a < 5e-4; };
  values.erase(std::unique(values.begin(), values.end(), same), values.end());
}

// The whole hundredths next to sides of the region that run along the axis.
std::vector<double> lines_beside(const MultiPolygon& region, Axis axis) {
  std::vector<double> out;
  for_edges(region, [&](Point a, Point b) {
    if (across(a, axis) != across(b, axis)) return;
    const double hundredths = across(a, axis) * kHundredths;
    out.push_back(std::floor(hundredths) / kHundredths);
    out.push_back(std::ceil(hundredths) / kHundredths);
  });
  sort_once(out);
  return out;
}

// Where a line along the axis may begin or end to be reachable.
std::vector<double> breaks(const Setup& setup, const MultiPolygon& region, Axis axis) {
  std::vector<double> out;
  for_edges(region, [&](Point a, Point) { out.push_back(along(a, axis)); });
  const auto add = [&](const Shape& shape) {
    const Box box = bounding_box(shape);
    out.insert(out.end(), {along({box.x0, box.y0}, axis), along({box.x1, box.y1}, axis)});
  };
  add(setup.machine.bed);
  for (const Obstacle& obstacle : setup.machine.obstacles) add(obstacle.shape);
  sort_once(out);
  return out;
}

MultiPolygon exchanged(MultiPolygon region) {
  const auto exchange = [](Ring& ring) {
    for (Point& p : ring) std::swap(p.x, p.y);
    std::reverse(ring.begin(), ring.end());
  };
  for (Polygon& polygon : region) {
    exchange(polygon.outer);
    std::for_each(polygon.holes.begin(), polygon.holes.end(), exchange);
  }
  return region;
}

bool holds(const Intervals& in, double value) {
  return std::any_of(in.begin(), in.end(), [&](const Interval& i) {
    return value >= i.low - kShort && value <= i.high + kShort;
  });
}

void append_lines(const Rig& rig, Axis axis, std::vector<ReachableLine>& lines) {
  const MultiPolygon& region = rig.regions().get(RegionKind::reachable);
  const std::vector<double> beside = lines_beside(region, axis);
  const std::vector<double> ends = breaks(rig.setup(), region, axis);
  if (beside.size() * ends.size() > kMostLooks) return;
  const Slices slices(axis == Axis::x ? region : exchanged(region));
  for (std::size_t i = 0; i + 1 < ends.size(); ++i) {
    const double middle = (ends[i] + ends[i + 1]) / 2;
    const double half = std::min(kShort, ends[i + 1] - ends[i]) / 4;
    const Intervals shown = slices.somewhere(middle - half, middle + half);
    for (const double at : beside) {
      if (holds(shown, at)) continue;
      if (rig.limits().evaluate(position(axis, middle, at)).verdict != Verdict::reachable) continue;
      lines.push_back({axis, at, {ends[i], ends[i + 1]}});
    }
  }
}

}  // namespace

std::vector<ReachableLine> reachable_lines(const Rig& rig) {
  std::vector<ReachableLine> lines;
  append_lines(rig, Axis::x, lines);
  append_lines(rig, Axis::y, lines);
  return lines;
}

}  // namespace leeway
