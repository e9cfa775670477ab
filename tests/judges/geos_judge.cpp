#include "judges/geos_judge.h"

#include <algorithm>
#include <cmath>

#include "judges/shapes.h"

namespace leeway::judges {
namespace {

using geos::context;

// A point is a disc of radius 0 here.
bool is_round(const Shape& shape) {
  return std::holds_alternative<Point>(shape) || std::holds_alternative<Disc>(shape);
}

Disc placed_disc(const Shape& shape, Point at) {
  if (const auto* p = std::get_if<Point>(&shape)) return {*p + at, 0};
  const Disc& d = std::get<Disc>(shape);
  return {d.center + at, d.radius};
}

geos::Geometry placed(const Shape& shape, Point at) {
  return geos::polygons(as_polygons(shape), at);
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
  if (const auto* d = std::get_if<Disc>(&shape)) {
    s.is_disc = true;
    s.disc = *d;
    return s;
  }
  s.area = geos::polygons(as_polygons(shape));
  s.edge = geos::boundary(s.area);
  s.ready = geos::prepared(s.area);
  s.ready_edge = geos::prepared(s.edge);
  return s;
}

GeosJudge::GeosJudge(const Setup& setup)
    : setup_(setup), bed_(standing(setup.machine.bed)), travel_(standing(setup.machine.travel)) {
  rooms_.push_back({LimitGroup::travel, "", ""});
  rooms_.push_back({LimitGroup::bed, "", ""});
  for (const Obstacle& o : setup.machine.obstacles) {
    obstacles_.push_back(standing(o.shape));
    rooms_.push_back({LimitGroup::obstacle, "", o.name});
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
    rooms_.push_back({LimitGroup::head, part, o.name});
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
    const double in = by.is_disc ? by.disc.radius - apart(by.disc.center, d.center)
                                 : -signed_distance(by, d.center);
    return {in - d.radius - edge_distance, !by.is_box || in >= 0};
  }
  if (by.is_disc) {
    double farthest = 0;
    for (const Polygon& polygon : as_polygons(shape)) {
      for (const Point& v : polygon.outer) {
        farthest = std::max(farthest, apart(v + at, by.disc.center));
      }
    }
    const double in = by.disc.radius - farthest;
    return {in - edge_distance, in >= 0};
  }
  const geos::Geometry spot = placed(shape, at);
  if (geos::checked(GEOSPreparedCovers_r(context(), by.ready.get(), spot.get()))) {
    double d = 0;
    geos::checked(static_cast<char>(
        GEOSPreparedDistance_r(context(), by.ready_edge.get(), spot.get(), &d) ? 1 : 2));
    return {d - edge_distance, true};
  }
  if (edge_distance > kDoubt_mm) return {-edge_distance, false};
  const auto off = geos::checked(GEOSDifference_r(context(), spot.get(), by.area.get()));
  return {-thickness(off.get()) - edge_distance, false};
}

GeosJudge::Measured GeosJudge::kept_off(const Standing& what, const Shape& shape, Point at,
                                        double clearance) {
  if (is_round(shape)) {
    const Disc d = placed_disc(shape, at);
    const double out = what.is_disc ? apart(what.disc.center, d.center) - what.disc.radius
                                    : signed_distance(what, d.center);
    return {out - d.radius - clearance, true};
  }
  const geos::Geometry there = placed(shape, at);
  if (what.is_disc) {
    const geos::Geometry center = geos::point(what.disc.center);
    double out = geos::distance(there, center);
    if (out == 0) out = -geos::distance(geos::boundary(there), center);
    return {out - what.disc.radius - clearance, true};
  }
  double d = 0;
  geos::checked(static_cast<char>(
      GEOSPreparedDistance_r(context(), what.ready.get(), there.get(), &d) ? 1 : 2));
  if (d > 0) return {d - clearance, true};
  if (clearance > kDoubt_mm) return {-clearance, false};
  // An overlay, not a predicate: it also answers where rounded coordinates all but touch.
  const auto both = geos::checked(GEOSIntersection_r(context(), what.area.get(), there.get()));
  const double overlap = thickness(both.get());
  return {-overlap - clearance, overlap == 0};
}

const std::vector<Room>& GeosJudge::rooms(Point probe, Point slip) {
  const Machine& machine = setup_.machine;
  const Point nozzle = probe - setup_.probe.offset;
  const Point moved = probe + slip;
  auto room = rooms_.begin();
  const auto put = [&](Measured m, double wanted) {
    room->mm = m.mm;
    room->exact = m.exact;
    room->wanted = wanted;
    ++room;
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
  return rooms_;
}

double GeosJudge::room(Point probe, Point slip) {
  double least = rooms(probe, slip).front().mm;
  for (const Room& r : rooms_) least = std::min(least, r.mm);
  return least;
}

}  // namespace leeway::judges
