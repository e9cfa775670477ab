#include "judges/geos_moves.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "judges/shapes.h"
#include "judges/slabs.h"

namespace leeway::judges {
namespace {

using geos::checked;
using geos::context;
using geos::Geometry;

std::vector<Ring> pieces_of(const Shape& shape) {
  using Rings = std::vector<Ring>;
  return std::visit(Kinds{[](Point p) { return Rings{{p}}; },
                          [](const Box& b) -> Rings {
                            if (b.width() > 0 && b.depth() > 0) return slabs({vertices({b, 0})});
                            return {{{b.x0, b.y0}, {b.x1, b.y1}}};
                          },
                          [](const MultiPolygon& polygons) {
                            Rings pieces;
                            for (const Polygon& polygon : polygons) {
                              Rings rings{polygon.outer};
                              rings.insert(rings.end(), polygon.holes.begin(), polygon.holes.end());
                              for (Ring& piece : slabs(rings)) pieces.push_back(std::move(piece));
                            }
                            return pieces;
                          }},
                    taken_apart(shape).core);
}

// Heights are compared in whole millionths of a millimetre.
constexpr double kDoubt = 5e-7;

double radius_of(const Shape& shape) { return taken_apart(shape).radius; }

double distance_of(Point a, Point b) { return std::hypot(a.x - b.x, a.y - b.y); }

// What of an obstacle is grown by its radius.
Geometry core(const Shape& shape) {
  return std::visit(Kinds{[](Point p) { return geos::point(p); },
                          [](const Box& b) {
                            if (b.width() > 0 && b.depth() > 0) return geos::box(b);
                            return geos::hull_of({{b.x0, b.y0}, {b.x1, b.y1}});
                          },
                          [](const MultiPolygon& p) { return geos::polygons(p); }},
                    taken_apart(shape).core);
}

// A ring swept along a way: the hull of its vertices at both ends.
Geometry swept(const Ring& piece, Point from, Point to) {
  if (piece.size() == 1 && from == to) return geos::point(piece[0] + from);
  std::vector<Point> points;
  for (const Point& p : piece) {
    points.push_back(p + from);
    points.push_back(p + to);
  }
  return geos::hull_of(points);
}

// How deep a line or an area lies in `area`, roughly: by the thickness of the overlap, or for a
// line by how far its middle is from the edge.
double depth(const Geometry& area, const Geometry& what) {
  const Geometry overlap = checked(GEOSIntersection_r(context(), area.get(), what.get()));
  const Geometry edge = geos::boundary(area);
  double most = 0;
  const int parts = GEOSGetNumGeometries_r(context(), overlap.get());
  for (int i = 0; i < parts; ++i) {
    const GEOSGeometry* part = GEOSGetGeometryN_r(context(), overlap.get(), i);
    double area_of_part = 0;
    double outline = 0;
    GEOSArea_r(context(), part, &area_of_part);
    GEOSLength_r(context(), part, &outline);
    if (area_of_part > 0) most = std::max(most, 2 * area_of_part / outline);
    if (GEOSGeom_getDimensions_r(context(), what.get()) < 2 && !GEOSisEmpty_r(context(), part)) {
      const Geometry middle = checked(GEOSGetCentroid_r(context(), part));
      most = std::max(most, geos::distance(edge, middle));
    }
  }
  return most;
}

}  // namespace

GeosMoveJudge::GeosMoveJudge(const Setup& setup) : setup_(setup) {
  for (const Obstacle& o : setup.machine.obstacles) {
    obstacles_.push_back({core(o.shape), radius_of(o.shape), o.clearance, o.height});
  }
  add_part(Point{}, 0, false);
  for (const HeadPart& part : setup.machine.head) add_part(part.outline, part.underside, false);
  if (const auto& body = setup.probe.body) add_part(body->outline, body->underside, true);
  if (!std::holds_alternative<Disc>(setup.machine.travel) &&
      !std::holds_alternative<RoundedBox>(setup.machine.travel)) {
    travel_ = geos::polygons(as_polygons(setup.machine.travel));
    travel_edge_ = geos::boundary(travel_);
  }
}

void GeosMoveJudge::add_part(const Shape& outline, double underside, bool with_probe) {
  parts_.push_back({pieces_of(outline), radius_of(outline), with_probe, underside});
}

double GeosMoveJudge::leeway_in_travel(Point from, Point to) const {
  if (const auto* d = std::get_if<Disc>(&setup_.machine.travel)) {
    const auto left = [&](Point p) {
      return d->radius - std::hypot(p.x - d->center.x, p.y - d->center.y);
    };
    return std::min(left(from), left(to));  // a disc is convex
  }
  if (std::holds_alternative<RoundedBox>(setup_.machine.travel)) {
    const Grown travel = taken_apart(setup_.machine.travel);
    const auto left = [&](Point p) {
      const auto* box = std::get_if<Box>(&travel.core);
      return travel.radius - (box ? beyond(*box, p) : distance_of(p, std::get<Point>(travel.core)));
    };
    return std::min(left(from), left(to));  // convex too
  }
  const Geometry way = swept({Point{}}, from, to);
  if (checked(GEOSCovers_r(context(), travel_.get(), way.get()))) {
    return geos::distance(travel_edge_, way);
  }
  const Geometry out = checked(GEOSDifference_r(context(), way.get(), travel_.get()));
  double most = 0;
  const int parts = GEOSGetNumGeometries_r(context(), out.get());
  for (int i = 0; i < parts; ++i) {
    const GEOSGeometry* part = GEOSGetGeometryN_r(context(), out.get(), i);
    if (GEOSisEmpty_r(context(), part)) continue;
    const Geometry middle = checked(GEOSGetCentroid_r(context(), part));
    most = std::max(most, geos::distance(travel_, middle));
  }
  return -most;
}

double GeosMoveJudge::leeway_beside(const Standing& obstacle, const Ring& piece, double radius,
                                    Point from, Point to) {
  const Geometry path = swept(piece, from, to);
  const double wanted = obstacle.clearance + obstacle.radius + radius;
  const double apart = geos::distance(obstacle.area, path);
  if (apart > 0 || wanted > 1e-3) return apart - wanted;
  return -depth(obstacle.area, path);
}

double GeosMoveJudge::leeway(const Part& part, const Standing& obstacle, Point from,
                             Point to) const {
  double least = std::numeric_limits<double>::infinity();
  for (const Ring& piece : part.pieces) {
    least = std::min(least, leeway_beside(obstacle, piece, part.radius, from, to));
  }
  return least;
}

// Guards: JCGM 100:2008, 5.1.2 and 6.2.1, with the largest over all directions.
double GeosMoveJudge::left(Point from_probe, Point to_probe, double height) const {
  const Point from = from_probe - setup_.probe.offset;
  const Point to = to_probe - setup_.probe.offset;
  const Machine& machine = setup_.machine;
  const Point u = setup_.probe.offset_uncertainty;
  const double k = setup_.coverage_factor;
  const double of_travel = k * machine.travel_uncertainty;
  const double of_head = k * std::hypot(machine.travel_uncertainty, machine.bed_uncertainty);
  const double of_body = k * std::hypot(std::max(u.x, u.y), machine.bed_uncertainty);
  const bool ends_count = height >= setup_.probe.trigger_height;
  const auto less_guard = [&](double guard, Point a, Point b, const auto& leeway_of) {
    double wanted = guard;
    if (ends_count) {
      wanted = std::clamp(std::min(leeway_of(a, a), leeway_of(b, b)), 0.0, guard);
    }
    return leeway_of(a, b) - wanted;
  };
  double least =
      less_guard(of_travel, from, to, [&](Point a, Point b) { return leeway_in_travel(a, b); });
  for (const Part& part : parts_) {
    const Point a = part.with_probe ? from_probe : from;
    const Point b = part.with_probe ? to_probe : to;
    for (const Standing& obstacle : obstacles_) {
      if (obstacle.height - part.underside <= height + kDoubt) continue;
      const auto leeway_of = [&](Point c, Point d) { return leeway(part, obstacle, c, d); };
      least = std::min(least, less_guard(part.with_probe ? of_body : of_head, a, b, leeway_of));
    }
  }
  return least;
}

}  // namespace leeway::judges
