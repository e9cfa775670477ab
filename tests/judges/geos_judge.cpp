#include "judges/geos_judge.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "judges/shapes.h"

namespace leeway::judges {
namespace {

using geos::context;

// A point is a disc of radius 0 here, and so is what is as round as one.
bool is_round(const Shape& shape) { return std::holds_alternative<Point>(taken_apart(shape).core); }

Disc placed_disc(const Shape& shape, Point at) {
  const Grown grown = taken_apart(shape);
  return {std::get<Point>(grown.core) + at, grown.radius};
}

// What of the shape is grown by its radius. REQUIRES: it is not round.
geos::Geometry placed(const Shape& shape, Point at) {
  const Grown grown = taken_apart(shape);
  if (const auto* polygons = std::get_if<MultiPolygon>(&grown.core)) {
    return geos::polygons(*polygons, at);
  }
  const Box& b = std::get<Box>(grown.core);
  const Box there{b.x0 + at.x, b.x1 + at.x, b.y0 + at.y, b.y1 + at.y};
  if (b.width() > 0 && b.depth() > 0) return geos::box(there);
  return geos::hull_of({{there.x0, there.y0}, {there.x1, there.y1}});
}

double apart(Point a, Point b) { return std::hypot(a.x - b.x, a.y - b.y); }

// How thick the thickest piece of an overlap is: exact for a long strip. Pieces without an area
// count nothing: shapes that touch.
double thickness(const GEOSGeometry* overlap) {
  const int parts = GEOSGetNumGeometries_r(context(), overlap);
  double most = 0;
  for (int i = 0; i < parts; ++i) {
    const GEOSGeometry* part = GEOSGetGeometryN_r(context(), overlap, i);
    double area = 0;
    double outline = 0;
    GEOSArea_r(context(), part, &area);
    GEOSLength_r(context(), part, &outline);
    if (area > 0) most = std::max(most, 2 * area / outline);
  }
  return most;
}

}  // namespace

GeosJudge::Standing GeosJudge::standing(const Shape& shape) {
  Standing s;
  s.is_box = std::holds_alternative<Box>(shape);
  const Grown grown = taken_apart(shape);
  s.radius = grown.radius;
  if (is_round(shape)) {
    s.is_disc = true;
    s.disc = placed_disc(shape, {});
    return s;
  }
  if (std::holds_alternative<RoundedBox>(shape)) s.rounded = std::get<Box>(grown.core);
  s.area = placed(shape, {});
  s.is_line = GEOSGeom_getDimensions_r(context(), s.area.get()) < 2;
  s.edge = s.is_line ? placed(shape, {}) : geos::boundary(s.area);
  s.ready = geos::prepared(s.area);
  s.ready_edge = geos::prepared(s.edge);
  return s;
}

GeosJudge::GeosJudge(const Setup& setup)
    : setup_(setup), bed_(standing(setup.machine.bed)), travel_(standing(setup.machine.travel)) {
  demands_.push_back({LimitGroup::travel, "", ""});
  demands_.push_back({LimitGroup::bed, "", ""});
  for (const Obstacle& o : setup.machine.obstacles) {
    obstacles_.push_back(standing(o.shape));
    demands_.push_back({LimitGroup::obstacle, "", o.name});
  }
  add_pairs("nozzle", Point{}, 0, false);
  for (const HeadPart& part : setup.machine.head) {
    add_pairs(part.name, part.outline, part.underside, false);
  }
  if (const auto& body = setup.probe.body) {
    add_pairs("probe body", body->outline, body->underside, true);
  }
}

void GeosJudge::add_pairs(const std::string& part, const Shape& outline, double underside,
                          bool with_probe) {
  for (std::size_t i = 0; i < obstacles_.size(); ++i) {
    const Obstacle& o = setup_.machine.obstacles[i];
    if (!(o.height > setup_.probe.trigger_height + underside)) continue;
    pairs_.push_back({outline, with_probe, i});
    demands_.push_back({LimitGroup::head, part, o.name});
  }
}

double GeosJudge::signed_distance(const Standing& to, Point from) {
  const geos::Geometry p = geos::point(from);
  double d = 0;
  geos::checked(static_cast<char>(
      GEOSPreparedDistance_r(context(), to.ready_edge.get(), p.get(), &d) ? 1 : 2));
  const bool inside = geos::checked(GEOSPreparedIntersects_r(context(), to.ready.get(), p.get()));
  return inside ? -d : d;
}

GeosJudge::Measured GeosJudge::covered(const Standing& by, const Shape& shape, Point at,
                                       double edge_distance) {
  if (is_round(shape)) {
    const Disc d = placed_disc(shape, at);
    const double in = by.is_disc   ? by.disc.radius - apart(by.disc.center, d.center)
                      : by.rounded ? by.radius - beyond(*by.rounded, d.center)
                                   : -signed_distance(by, d.center);
    return {in - d.radius - edge_distance, !by.is_box || in >= 0};
  }
  const Grown grown = taken_apart(shape);
  const double wanted = grown.radius + edge_distance;
  if (by.is_disc || by.rounded) {
    double in = std::numeric_limits<double>::infinity();
    for (const Point& v : vertices(grown)) {
      in = std::min(in, by.is_disc ? by.disc.radius - apart(v + at, by.disc.center)
                                   : by.radius - beyond(*by.rounded, v + at));
    }
    return {in - wanted, in - grown.radius >= 0};
  }
  const geos::Geometry spot = placed(shape, at);
  if (geos::checked(GEOSPreparedCovers_r(context(), by.ready.get(), spot.get()))) {
    double d = 0;
    geos::checked(static_cast<char>(
        GEOSPreparedDistance_r(context(), by.ready_edge.get(), spot.get(), &d) ? 1 : 2));
    return {d - wanted, true};
  }
  if (wanted > kDoubt_mm) return {-wanted, false};
  const auto off = geos::checked(GEOSDifference_r(context(), spot.get(), by.area.get()));
  return {-thickness(off.get()) - wanted, false};
}

GeosJudge::Measured GeosJudge::kept_off(const Standing& what, const Shape& shape, Point at,
                                        double clearance) {
  if (is_round(shape)) {
    const Disc d = placed_disc(shape, at);
    const double out = what.is_disc ? apart(what.disc.center, d.center) - what.disc.radius
                                    : signed_distance(what, d.center) - what.radius;
    return {out - d.radius - clearance, true};
  }
  const geos::Geometry there = placed(shape, at);
  const double radius = taken_apart(shape).radius;
  if (what.is_disc) {
    const geos::Geometry center = geos::point(what.disc.center);
    double out = geos::distance(there, center);
    if (out == 0 && GEOSGeom_getDimensions_r(context(), there.get()) == 2) {
      out = -geos::distance(geos::boundary(there), center);
    }
    return {out - what.disc.radius - radius - clearance, true};
  }
  const double wanted = what.radius + radius + clearance;
  double d = 0;
  if (what.is_line) {
    // A prepared line in the middle of an area is not seen to be in it.
    d = geos::distance(what.area, there);
  } else {
    geos::checked(static_cast<char>(
        GEOSPreparedDistance_r(context(), what.ready.get(), there.get(), &d) ? 1 : 2));
  }
  if (d > 0) return {d - wanted, true};
  if (wanted > kDoubt_mm) return {-wanted, false};
  // An overlay, not a predicate: it also answers where rounded coordinates all but touch.
  const auto both = geos::checked(GEOSIntersection_r(context(), what.area.get(), there.get()));
  const double overlap = thickness(both.get());
  return {-overlap - wanted, overlap == 0};
}

const std::vector<Demand>& GeosJudge::demands(Point probe, Point by) {
  const Machine& machine = setup_.machine;
  const Point nozzle = probe - setup_.probe.offset;
  const Point moved = probe + by;
  auto demand = demands_.begin();
  const auto put = [&](Measured m, double wanted) {
    demand->mm = m.mm;
    demand->exact = m.exact;
    demand->wanted = wanted;
    ++demand;
  };
  const double edge_distance = setup_.probe.edge_distance;
  put(covered(travel_, Point{}, nozzle, 0), 0);
  put(covered(bed_, setup_.probe.spot, moved, edge_distance), edge_distance);
  for (std::size_t i = 0; i < obstacles_.size(); ++i) {
    const double clearance = machine.obstacles[i].clearance;
    put(kept_off(obstacles_[i], setup_.probe.spot, moved, clearance), clearance);
  }
  for (const Pair& pair : pairs_) {
    const double clearance = machine.obstacles[pair.obstacle].clearance;
    const Point at = pair.with_probe ? moved : nozzle;
    put(kept_off(obstacles_[pair.obstacle], pair.outline, at, clearance), clearance);
  }
  return demands_;
}

double GeosJudge::least_leeway(Point probe, Point by) {
  double least = demands(probe, by).front().mm;
  for (const Demand& r : demands_) least = std::min(least, r.mm);
  return least;
}

}  // namespace leeway::judges
