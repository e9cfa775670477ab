#include "judges/geos_regions.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "judges/shapes.h"
#include "judges/slabs.h"

namespace leeway::judges {
namespace {

using geos::checked;
using geos::context;
using geos::Geometry;

constexpr double kUm = 1000;  // per mm

// So many sides that a ring half way between the inscribed and the circumscribed one stays within
// `most` of the circle: r (1 / cos(pi / n) - 1) / 2.
int sides(double radius, double most) {
  const double half = std::acos(1 / (1 + 2 * most / std::max(radius, most)));
  return std::max(16, static_cast<int>(std::ceil(std::numbers::pi / half)));
}

std::vector<Point> circle(Point center, double radius) {
  if (radius <= 0) return {center};
  const int n = sides(radius, 0.5);
  const double between = radius * (1 + 1 / std::cos(std::numbers::pi / n)) / 2;
  std::vector<Point> ring;
  for (int i = 0; i < n; ++i) {
    const double turn = 2 * std::numbers::pi * i / n;
    ring.push_back(center + between * Point{std::cos(turn), std::sin(turn)});
  }
  return ring;
}

std::vector<Point> added(const std::vector<Point>& a, const std::vector<Point>& b) {
  std::vector<Point> sums;
  for (const Point& p : a) {
    for (const Point& q : b) sums.push_back(p + q);
  }
  return sums;
}

Geometry hull_of(const std::vector<Point>& points) {
  return points.size() == 1 ? geos::point(points.front()) : geos::hull_of(points);
}

Ring hull_ring(const std::vector<Point>& points) {
  if (points.size() < 3) return points;
  const Geometry hull = geos::hull_of(points);
  const auto rings = geos::rings(hull);
  return rings.empty() ? points : rings.front();
}

// In micrometres; what is round as a polygon within half of one.
Geometry area_of(const Shape& shape) {
  if (!std::holds_alternative<RoundedBox>(shape)) {
    return geos::polygons(as_polygons(shape), {}, kUm);
  }
  const Grown grown = taken_apart(shape);
  std::vector<Point> corners;
  for (const Point& p : vertices(grown)) corners.push_back(kUm * p);
  return hull_of(added(corners, circle({}, kUm * grown.radius)));
}

Geometry unite(std::vector<Geometry> parts) {
  const Geometry all = geos::collection(std::move(parts));
  return checked(GEOSUnaryUnion_r(context(), all.get()));
}

Geometry minus(const Geometry& a, const Geometry& b) {
  return checked(GEOSDifference_r(context(), a.get(), b.get()));
}

Geometry common(const Geometry& a, const Geometry& b) {
  return checked(GEOSIntersection_r(context(), a.get(), b.get()));
}

Geometry buffered(const Geometry& of, double radius) {
  if (radius == 0) return checked(GEOSGeom_clone_r(context(), of.get()));
  const int quarter = std::max(4, (sides(std::abs(radius), 0.5) + 3) / 4);
  return checked(GEOSBuffer_r(context(), of.get(), radius, quarter));
}

Box box_of(const Geometry& g) {
  Box b;
  GEOSGeom_getExtent_r(context(), g.get(), &b.x0, &b.y0, &b.x1, &b.y1);
  return b;
}

// What of `allowed` no part covers; parts out of its reach are left out of the union.
Geometry without(const Geometry& allowed, std::vector<Geometry> parts) {
  std::vector<Geometry> near;
  const Box box = geos::empty(allowed) ? Box{1, 0, 1, 0} : box_of(allowed);
  for (Geometry& part : parts) {
    const Box b = box_of(part);
    if (b.x0 < box.x1 && b.x1 > box.x0 && b.y0 < box.y1 && b.y1 > box.y0) {
      near.push_back(std::move(part));
    }
  }
  return minus(allowed, unite(std::move(near)));
}

Box wider(const Box& b, double by) { return {b.x0 - by, b.x1 + by, b.y0 - by, b.y1 + by}; }

}  // namespace

GeosRegions::GeosRegions(const Setup& setup, Rounding rounding)
    : setup_(setup), rounding_(rounding) {}

std::vector<GeosRegions::Piece> GeosRegions::pieces_of(const Geometry& polygons) {
  std::vector<Piece> pieces;
  const int parts = GEOSGetNumGeometries_r(context(), polygons.get());
  for (int i = 0; i < parts; ++i) {
    const GEOSGeometry* part = GEOSGetGeometryN_r(context(), polygons.get(), i);
    const Geometry hull = checked(GEOSConvexHull_r(context(), part));
    double own = 0;
    GEOSArea_r(context(), part, &own);
    if (geos::area(hull) - own < 1e-9 * own) {
      pieces.push_back(geos::rings(hull).front());
      continue;
    }
    for (Ring& piece : slabs(geos::rings(part))) pieces.push_back(std::move(piece));
  }
  return pieces;
}

GeosRegions::Pieces GeosRegions::pieces_of(const Shape& shape, Point by) const {
  const Grown grown = taken_apart(shape);
  const double radius = kUm * grown.radius;
  return std::visit(
      Kinds{[&](Point p) -> Pieces {
              return {{{kUm * (p + by)}}, radius};
            },
            [&](const Box& b) -> Pieces {
              if (b.width() > 0 && b.depth() > 0) {
                return {pieces_of(geos::polygons(as_polygons(moved(b, by)), {}, kUm)), radius};
              }
              return {{{kUm * (Point{b.x0, b.y0} + by), kUm * (Point{b.x1, b.y1} + by)}}, radius};
            },
            [&](const MultiPolygon& p) -> Pieces {
              return {pieces_of(geos::polygons(as_polygons(moved(p, by)), {}, kUm)), radius};
            }},
      grown.core);
}

GeosRegions::Pieces GeosRegions::mirrored(Pieces of) {
  for (Piece& piece : of.pieces) {
    for (Point& p : piece) p = -p;
  }
  return of;
}

void GeosRegions::add_sum(const Pieces& fixed, const Pieces& moving, double distance,
                          std::vector<Geometry>& parts) const {
  const double radius = kUm * distance + fixed.radius + moving.radius;
  const bool later = rounding_ == Rounding::buffer;
  const std::vector<Point> round = circle({}, later ? 0 : radius);
  std::vector<Geometry> sums;
  for (const Piece& f : fixed.pieces) {
    for (const Piece& m : moving.pieces) {
      const std::vector<Point> core = added(f, m);
      sums.push_back(hull_of(round.size() == 1 ? core : added(hull_ring(core), round)));
    }
  }
  if (later && radius > 0) {
    parts.push_back(buffered(unite(std::move(sums)), radius));
    return;
  }
  for (Geometry& one : sums) {
    if (GEOSGeom_getDimensions_r(context(), one.get()) == 2) parts.push_back(std::move(one));
  }
}

Geometry GeosRegions::shrunk_disc(const Disc& disc, Point by, const Pieces& moving,
                                  double distance) const {
  const double radius = kUm * (disc.radius - distance) - moving.radius;
  if (radius <= 0) return geos::collection({});
  Geometry left;
  for (const Piece& piece : moving.pieces) {
    for (const Point& v : piece) {
      Geometry one = geos::hull_of(circle(kUm * (disc.center + by) - v, radius));
      left = left ? common(left, one) : std::move(one);
    }
  }
  return left;
}

Geometry GeosRegions::shrunk(const Shape& shape, Point by, const Shape& moving,
                             double distance) const {
  const Pieces spot = pieces_of(moving);
  if (const auto* disc = std::get_if<Disc>(&shape)) return shrunk_disc(*disc, by, spot, distance);
  const Geometry area = area_of(moved(shape, by));
  const double radius = kUm * distance + spot.radius;
  const bool is_point = spot.pieces.size() == 1 && spot.pieces[0].size() == 1;
  if (is_point && (radius == 0 || rounding_ == Rounding::buffer)) {
    const Shape aside = moved(shape, by - (1 / kUm) * spot.pieces[0][0]);
    return buffered(area_of(aside), -radius);
  }
  double reach = 0;
  for (const Piece& piece : spot.pieces) {
    for (const Point& p : piece) reach = std::max({reach, std::abs(p.x), std::abs(p.y)});
  }
  const Box around = wider(box_of(area), std::ceil(reach) + 1000);
  const Geometry frame = geos::box(wider(around, std::ceil(reach + radius) + 1000));
  const Pieces surroundings{pieces_of(minus(frame, area)), 0};
  std::vector<Geometry> forbidden;
  add_sum(surroundings, mirrored(spot), distance, forbidden);
  return minus(geos::box(around), unite(std::move(forbidden)));
}

double GeosRegions::guard(double u, bool guarded) const {
  return guarded ? setup_.coverage_factor * u : 0;
}

Geometry GeosRegions::sensing(bool guarded) const {
  const Probe& probe = setup_.probe;
  const double at_probe =
      guard(std::hypot(probe.offset_uncertainty.x, setup_.machine.bed_uncertainty), guarded);
  const Geometry fits = shrunk(setup_.machine.bed, {}, probe.spot, probe.edge_distance + at_probe);
  std::vector<Geometry> forbidden;
  const Pieces spot = mirrored(pieces_of(probe.spot));
  for (const Obstacle& o : setup_.machine.obstacles) {
    add_sum(pieces_of(o.shape), spot, o.clearance + at_probe, forbidden);
  }
  return without(fits, std::move(forbidden));
}

void GeosRegions::add_heads(double nozzle_height, Point by, bool with_body, bool guarded,
                            std::vector<Geometry>& forbidden) const {
  const Machine& machine = setup_.machine;
  const Probe& probe = setup_.probe;
  const double at_head =
      guard(std::hypot(machine.travel_uncertainty, machine.bed_uncertainty), guarded);
  const double at_probe =
      guard(std::hypot(probe.offset_uncertainty.x, machine.bed_uncertainty), guarded);
  const auto add = [&](const Shape& outline, double underside, Point shift, double distance) {
    const Pieces part = mirrored(pieces_of(outline));
    for (const Obstacle& o : machine.obstacles) {
      if (!(o.height > nozzle_height + underside)) continue;
      add_sum(pieces_of(o.shape, shift), part, o.clearance + distance, forbidden);
    }
  };
  add(Point{}, 0, by, at_head);
  for (const HeadPart& part : machine.head) add(part.outline, part.underside, by, at_head);
  if (with_body && probe.body) add(probe.body->outline, probe.body->underside, {}, at_probe);
}

Geometry GeosRegions::nozzle_set(double nozzle_height, Point by, bool with_body,
                                 bool guarded) const {
  const Geometry travel =
      shrunk(setup_.machine.travel, by, Point{}, guard(setup_.machine.travel_uncertainty, guarded));
  std::vector<Geometry> forbidden;
  add_heads(nozzle_height, by, with_body, guarded, forbidden);
  return without(travel, std::move(forbidden));
}

// Where the nozzle may not be while printing, as the probe's body stays down and would meet
// something.
std::vector<Geometry> GeosRegions::body_while_printing() const {
  std::vector<Geometry> forbidden;
  const Probe& probe = setup_.probe;
  if (probe.stowed || !probe.body) return forbidden;
  const Pieces body = mirrored(pieces_of(probe.body->outline));
  for (const Obstacle& o : setup_.machine.obstacles) {
    if (!(o.height > probe.body->underside)) continue;
    add_sum(pieces_of(o.shape, -probe.offset), body, o.clearance, forbidden);
  }
  return forbidden;
}

Geometry GeosRegions::region(RegionKind kind) const {
  const Machine& machine = setup_.machine;
  const Probe& probe = setup_.probe;
  switch (kind) {
    case RegionKind::bed:
      return shrunk(machine.bed, {}, Point{}, 0);
    case RegionKind::printable:
      return common(shrunk(machine.bed, {}, Point{}, machine.print_inset),
                    without(nozzle_set(0, {}, false, false), body_while_printing()));
    case RegionKind::sensing:
      return sensing(false);
    case RegionKind::within_limits:
      return common(sensing(false), nozzle_set(probe.trigger_height, probe.offset, true, false));
    case RegionKind::reachable:
      break;
  }
  return common(sensing(true), nozzle_set(probe.trigger_height, probe.offset, true, true));
}

}  // namespace leeway::judges
