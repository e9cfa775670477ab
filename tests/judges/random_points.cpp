#include "judges/random_points.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include "judges/shapes.h"

namespace leeway::judges {
namespace {

// What decides in one coordinate: a coordinate of something that stands still, and one of
// something that moves with the probe.
struct Pairing {
  const Shape* fixed;
  const Shape* moving;  // nothing: a point
  Point moving_by;      // how far the moving shape's origin is from the probe
  double apart;         // distance that has to be kept
};

std::vector<Pairing> pairings(const Setup& setup) {
  const Probe& probe = setup.probe;
  const Point to_nozzle = -probe.offset;
  std::vector<Pairing> all{{&setup.machine.bed, &probe.spot, {}, probe.edge_distance},
                           {&setup.machine.travel, nullptr, to_nozzle, 0}};
  for (const Obstacle& o : setup.machine.obstacles) {
    all.push_back({&o.shape, &probe.spot, {}, o.clearance});
    all.push_back({&o.shape, nullptr, to_nozzle, o.clearance});
    for (const HeadPart& h : setup.machine.head) {
      all.push_back({&o.shape, &h.outline, to_nozzle, o.clearance});
    }
    if (probe.body) all.push_back({&o.shape, &probe.body->outline, {}, o.clearance});
  }
  return all;
}

// A vertex; of a disc one of its four ends, or a point of a 3-4-5 triangle.
Point vertex(const Shape* shape, Random& random) {
  if (shape == nullptr) return {};
  const auto of_disc = [&](const Disc& d) {
    const Point way = random.pick({Point{1, 0}, Point{-1, 0}, Point{0, 1}, Point{0, -1},
                                   Point{0.6, 0.8}, Point{-0.8, 0.6}, Point{0.8, -0.6}});
    return d.center + d.radius * way;
  };
  return std::visit(
      Kinds{[](Point p) { return p; },
            [&](const Box& b) {
              return Point{random.pick({b.x0, b.x1}), random.pick({b.y0, b.y1})};
            },
            of_disc,
            [&](const RoundedBox& rounded) {
              const Box& b = rounded.box;
              const double r = rounded.radius;
              return of_disc(
                  {{random.pick({b.x0 + r, b.x1 - r}), random.pick({b.y0 + r, b.y1 - r})}, r});
            },
            [&](const MultiPolygon& polygons) {
              if (polygons.empty()) return Point{};
              const Polygon& polygon = random.pick_from(polygons);
              const bool hole = !polygon.holes.empty() && random.one_in(3);
              return random.pick_from(hole ? random.pick_from(polygon.holes) : polygon.outer);
            }},
      *shape);
}

Point meeting(const std::vector<Pairing>& all, Random& random) {
  const Pairing& pair = random.pick_from(all);
  const Point p = vertex(pair.fixed, random) - vertex(pair.moving, random) - pair.moving_by;
  const double d = pair.apart;
  return p + random.pick({Point{d, 0}, Point{-d, 0}, Point{0, d}, Point{0, -d}, Point{0, 0},
                          Point{0.6 * d, 0.8 * d}, Point{-0.6 * d, -0.8 * d}});
}

// The double of the nearest decimal, as a person types it.
Point typed(Point p, double per_mm) {
  return {std::round(p.x * per_mm) / per_mm, std::round(p.y * per_mm) / per_mm};
}

// The box of positions where anything can happen, and a bit around it.
Box arena(const Setup& setup) {
  Box b = bounding_box(setup.machine.bed);
  const double pad = 0.1 * std::max(b.width(), b.depth());
  return {b.x0 - pad, b.x1 + pad, b.y0 - pad, b.y1 + pad};
}

}  // namespace

std::vector<Point> random_points(const Setup& setup, Random& random, std::size_t count) {
  const std::vector<Pairing> all = pairings(setup);
  const Box box = arena(setup);
  std::vector<Point> points;
  while (points.size() < count) {
    const Point anywhere{random.real(box.x0, box.x1), random.real(box.y0, box.y1)};
    switch (random.whole(0, 5)) {
      case 0:
        points.push_back(anywhere);
        break;
      case 1:
        points.push_back(typed(anywhere, random.pick({1.0, 10.0, 100.0})));
        break;
      case 2:
        points.push_back({meeting(all, random).x, typed(anywhere, 10).y});
        break;
      case 3:
        points.push_back({typed(anywhere, 10).x, meeting(all, random).y});
        break;
      case 4:
        points.push_back({meeting(all, random).x, meeting(all, random).y});
        break;
      default:
        points.push_back(typed(meeting(all, random), 1000));
        break;
    }
  }
  return points;
}

std::vector<Point> points_near_change(const std::vector<Point>& points,
                                      const std::function<bool(Point)>& inside, Random& random,
                                      std::size_t count) {
  std::vector<Point> in;
  std::vector<Point> out;
  for (const Point& p : points) (inside(p) ? in : out).push_back(p);
  std::vector<Point> near;
  if (in.empty() || out.empty()) return near;
  while (near.size() < count) {
    Point a = random.pick_from(in);
    Point b = random.pick_from(out);
    for (int i = 0; i < 40; ++i) {
      const Point middle = 0.5 * (a + b);
      (inside(middle) ? a : b) = middle;
    }
    const double away = random.pick({3e-6, 1e-5, 1e-4, 1e-3});
    const double turn = random.real(0, 6.283185307179586);
    near.push_back(a + away * Point{std::cos(turn), std::sin(turn)});
  }
  return near;
}

}  // namespace leeway::judges
