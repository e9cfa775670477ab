#include "model/limits/limit_list.h"

#include "geometry/growth/disc_fits.h"
#include "geometry/plane/by_kind.h"
#include "geometry/plane/core.h"
#include "geometry/plane/polygons.h"
#include "model/limits/ticks.h"

namespace leeway {
namespace {

const Shape kPoint = Point{};

const char* side_word(LimitSide side) {
  switch (side) {
    case LimitSide::left:
      return "left";
    case LimitSide::right:
      return "right";
    case LimitSide::front:
      return "front";
    case LimitSide::back:
      return "back";
    case LimitSide::rim:
      return "rim";
    case LimitSide::edge:
      return "edge";
    case LimitSide::none:
      break;
  }
  return "";
}

const char* area_word(LimitGroup group) {
  switch (group) {
    case LimitGroup::travel:
      return "travel ";
    case LimitGroup::envelope:
      return "envelope ";
    case LimitGroup::bed:
    case LimitGroup::obstacle:
    case LimitGroup::head:
    case LimitGroup::beside:
      break;
  }
  return "bed ";
}

// What the limits of one area have in common.
struct Area {
  LimitGroup group;
  bool at_nozzle;
  double wanted;
  Spread spread;
};

void append(const Area& area, LimitSide side, SharedField field, double radius,
            std::vector<Limit>& limits) {
  Limit limit;
  limit.info.name = area_word(area.group) + std::string(side_word(side));
  limit.info.group = area.group;
  limit.info.side = side;
  limit.info.wanted = area.wanted;
  limit.field = std::move(field);
  limit.at_nozzle = area.at_nozzle;
  // A radius is taken off the distance and never added to a set: so nothing round becomes a
  // polygon.
  limit.taken = area.wanted + radius;
  limit.spread = area.spread;
  limits.push_back(std::move(limit));
}

// Narrower than a rounding of leeways can tell from empty is not empty.
bool is_empty(const Box& box) {
  constexpr double kNothing = 5e-7;
  return box.width() < -kNothing || box.depth() < -kNothing;
}

// An empty box keeps its four limits, so that the reason still has the name of a side.
void append_sides(const Area& area, const Box& box, std::vector<Limit>& limits) {
  const bool empty = is_empty(box);
  const auto side = [&](LimitSide which, Axis axis, double bound, int facing) {
    append(area, which, empty ? nowhere() : beyond_side(axis, bound, facing), 0, limits);
  };
  side(LimitSide::left, Axis::x, box.x0, 1);
  side(LimitSide::right, Axis::x, box.x1, -1);
  side(LimitSide::front, Axis::y, box.y0, 1);
  side(LimitSide::back, Axis::y, box.y1, -1);
}

SharedField or_nowhere(SharedField field) { return field ? std::move(field) : nowhere(); }

void append_disc(const Area& area, const Disc& disc, const Core& spot, std::vector<Limit>& limits) {
  if (const Point* at = point_of(spot)) {
    FieldPtr field =
        spot.radius > disc.radius ? nowhere() : inside_disc({disc.center - *at, disc.radius});
    append(area, LimitSide::rim, std::move(field), spot.radius, limits);
    return;
  }
  std::vector<Point> centers;
  // The spot lies in the disc where all vertices of its hull do: in the disc moved back by each.
  // Growing the spot by its radius makes those discs smaller, which is exact, so it is not taken
  // off later.
  for (Point vertex : hull_of(spot)) centers.push_back(disc.center - vertex);
  const double left = disc.radius - spot.radius;
  append(area, LimitSide::rim, left > 0 ? or_nowhere(inside_discs(centers, left)) : nowhere(), 0,
         limits);
}

void append_rounded(const Area& area, const RoundedBox& rounded, const Shape& spot,
                    std::vector<Limit>& limits) {
  const Core around = core_of(rounded);
  const Core inner = core_of(spot);
  SharedField field;
  if (!is_empty(eroded(rounded.box, bounding_box(spot)))) {
    field = inside_rounded(box_of(around), around.radius, hull_of(inner));
  }
  // Of the spots that leave something some do not once they are grown by their radius.
  const bool fits = field && (point_of(inner) || inner.radius == 0 ||
                              disc_fits(*field, eroded(rounded.box, box_of(inner)), inner.radius));
  append(area, LimitSide::edge, fits ? field : nowhere(), inner.radius, limits);
}

void append_polygons(const Area& area, const MultiPolygon& polygons, const Shape& spot,
                     SweptSets& swept_sets, std::vector<Limit>& limits) {
  const Box box = bounding_box(Shape(polygons));
  const Core inner = core_of(spot);
  const Box where = eroded(box, box_of(inner));
  SharedField field;
  // A point needs no sum. Else the bed is eroded by asking how far the spot is from all that is not
  // bed; if not even its box fits there is nothing to ask.
  if (const Point* at = point_of(inner)) {
    field = inside_polygons(translated(polygons, -*at));
  } else if (!where.empty()) {
    field = swept_sets.around(polygons, spot)->outside();
  }
  if (field && inner.radius > 0 && !disc_fits(*field, where, inner.radius)) field = nullptr;
  append(area, LimitSide::edge, or_nowhere(std::move(field)), inner.radius, limits);
}

void append_area(const Area& area, const Shape& shape, const Shape& spot, SweptSets& swept_sets,
                 std::vector<Limit>& limits) {
  by_kind(
      shape,
      [&](Point p) {
        append_sides(area, eroded({p.x, p.x, p.y, p.y}, bounding_box(spot)), limits);
      },
      [&](const Box& box) { append_sides(area, eroded(box, bounding_box(spot)), limits); },
      [&](const Disc& disc) { append_disc(area, disc, core_of(spot), limits); },
      [&](const RoundedBox& rounded) { append_rounded(area, rounded, spot, limits); },
      [&](const MultiPolygon& polygons) {
        append_polygons(area, polygons, spot, swept_sets, limits);
      });
}

}  // namespace

// The body comes last: whoever wants the parts without it takes off the last one.
std::vector<MovingPart> moving_parts(const Setup& setup) {
  std::vector<MovingPart> parts = {{{PartId::Kind::nozzle, 0}, "nozzle", &kPoint, 0, false}};
  for (std::size_t i = 0; i < setup.machine.head.size(); ++i) {
    const HeadPart& part = setup.machine.head[i];
    parts.push_back({{PartId::Kind::head, i}, part.name, &part.outline, part.underside, false});
  }
  if (setup.probe.body) {
    parts.push_back({{PartId::Kind::body, 0},
                     "probe body",
                     &setup.probe.body->outline,
                     setup.probe.body->underside,
                     true});
  }
  return parts;
}

const Shape& outline_of(const Setup& setup, PartId part) {
  switch (part.kind) {
    case PartId::Kind::nozzle:
      break;
    case PartId::Kind::head:
      return setup.machine.head[part.index].outline;
    case PartId::Kind::body:
      return body_outline(setup);
    case PartId::Kind::kept_clear:
      return setup.mount.keep_clear[part.index].outline;
  }
  return kPoint;
}

namespace {

// Whether a part of the head passes above the probe's body, or below it.
bool clears_in_height(const HeadPart& part, const ProbeBody& body) {
  const bool above = body.top && to_ticks(part.underside) >= to_ticks(*body.top);
  const bool below = part.top && to_ticks(body.underside) >= to_ticks(*part.top);
  return above || below;
}

}  // namespace

std::vector<MovingPart> parts_beside_probe(const Setup& setup) {
  std::vector<MovingPart> parts;
  const bool has_extent = setup.probe.body || !std::holds_alternative<Point>(setup.probe.spot);
  for (MovingPart& part : moving_parts(setup)) {
    switch (part.id.kind) {
      case PartId::Kind::nozzle:
        if (has_extent) parts.push_back(std::move(part));
        break;
      case PartId::Kind::head:
        if (setup.probe.body &&
            clears_in_height(setup.machine.head[part.id.index], *setup.probe.body)) {
          break;
        }
        parts.push_back(std::move(part));
        break;
      case PartId::Kind::body:
      case PartId::Kind::kept_clear:
        break;
    }
  }
  return parts;
}

std::vector<MovingPart> parts_kept_clear(const Setup& setup) {
  std::vector<MovingPart> parts;
  for (std::size_t i = 0; i < setup.mount.keep_clear.size(); ++i) {
    const KeptClear& kept = setup.mount.keep_clear[i];
    parts.push_back({{PartId::Kind::kept_clear, i}, kept.name, &kept.outline, 0, false});
  }
  return parts;
}

const Shape& body_outline(const Setup& setup) {
  return setup.probe.body ? setup.probe.body->outline : setup.probe.spot;
}

double underside_of(const Setup& setup, PartId part) {
  switch (part.kind) {
    case PartId::Kind::nozzle:
      break;
    case PartId::Kind::head:
      return setup.machine.head[part.index].underside;
    case PartId::Kind::body:
      return setup.probe.body ? setup.probe.body->underside : 0;
    case PartId::Kind::kept_clear:
      break;
  }
  return 0;
}

// Heights are decimals too. In ticks 6 - 2.9 is 3.1, so that a nozzle at just that height passes.
double height_above(const Obstacle& obstacle, double underside) {
  return to_ticks(obstacle.height - underside);
}

bool meets(const Obstacle& obstacle, const MovingPart& part, double nozzle_height) {
  return height_above(obstacle, part.underside) > to_ticks(nozzle_height);
}

// The controller sends the nozzle to the point less the offset that it was told. If that is wrong
// the nozzle is where it should be, and the probe with its body is beside its place on the bed. So
// the offset's uncertainty belongs to these limits and not to those of the travel.
Spread spread_at_probe(const Setup& setup) {
  const Point u = setup.probe.offset_uncertainty;
  return {setup.coverage_factor, u.x, u.y, setup.machine.bed_uncertainty};
}

Spread spread_of_travel(const Setup& setup) {
  return {setup.coverage_factor, 0, 0, setup.machine.travel_uncertainty};
}

Spread spread_of_head(const Setup& setup) {
  // The head and what stands on the bed may both be off, each by itself: in quadrature (JCGM
  // 100:2008, 5.1.2).
  return {setup.coverage_factor, 0, 0,
          std::hypot(setup.machine.travel_uncertainty, setup.machine.bed_uncertainty)};
}

Spread spread_of(const Setup& setup, const MovingPart& part) {
  return part.with_probe ? spread_at_probe(setup) : spread_of_head(setup);
}

void append_travel(const Setup& setup, std::vector<Limit>& limits) {
  SweptSets none;
  append_area({LimitGroup::travel, true, 0, spread_of_travel(setup)}, setup.machine.travel, kPoint,
              none, limits);
}

void append_bed(const Setup& setup, const Shape& spot, double edge_distance, SweptSets& swept_sets,
                std::vector<Limit>& limits) {
  append_area({LimitGroup::bed, false, edge_distance, spread_at_probe(setup)}, setup.machine.bed,
              spot, swept_sets, limits);
}

void append_envelope(const Setup& setup, SweptSets& swept_sets, std::vector<Limit>& limits) {
  if (!setup.mount.envelope) return;
  append_area({LimitGroup::envelope, false, 0, {}}, *setup.mount.envelope, kPoint, swept_sets,
              limits);
}

namespace {

void append_off(const Setup& setup, const MovingPart& part, const char* how, SweptSets& swept_sets,
                std::vector<Limit>& limits) {
  const SharedSweptSet swept =
      swept_sets.of(*part.outline, body_outline(setup), part.name, "probe body");
  Limit limit;
  limit.info.name = how + part.name;
  limit.info.group = LimitGroup::beside;
  limit.info.part = part.name;
  limit.info.part_id = part.id;
  limit.field = swept->outside();
  limit.taken = swept->radius();
  limits.push_back(std::move(limit));
}

}  // namespace

void append_beside(const Setup& setup, SweptSets& swept_sets, std::vector<Limit>& limits) {
  for (const MovingPart& part : parts_beside_probe(setup)) {
    append_off(setup, part, "beside ", swept_sets, limits);
  }
}

void append_kept_clear(const Setup& setup, SweptSets& swept_sets, std::vector<Limit>& limits) {
  for (const MovingPart& part : parts_kept_clear(setup)) {
    append_off(setup, part, "clear of ", swept_sets, limits);
  }
}

// Whatever their height: what lies flat on the bed, or under its sheet, spoils a reading too.
void append_obstacles(const Setup& setup, SweptSets& swept_sets, std::vector<Limit>& limits) {
  for (std::size_t i = 0; i < setup.machine.obstacles.size(); ++i) {
    const Obstacle& obstacle = setup.machine.obstacles[i];
    const SharedSweptSet swept =
        swept_sets.of(obstacle.shape, setup.probe.spot, obstacle.name, "sensing area");
    Limit limit;
    limit.info.name = "obstacle " + obstacle.name;
    limit.info.group = LimitGroup::obstacle;
    limit.info.obstacle = obstacle.name;
    limit.info.obstacle_id = i;
    limit.info.wanted = obstacle.clearance;
    limit.field = swept->outside();
    limit.taken = swept->radius() + obstacle.clearance;
    limit.spread = spread_at_probe(setup);
    limits.push_back(std::move(limit));
  }
}

void append_head(const Setup& setup, double nozzle_height, ForMoves moves, SweptSets& swept_sets,
                 std::vector<Limit>& limits) {
  const std::vector<MovingPart> parts = moving_parts(setup);
  for (std::size_t i = 0; i < setup.machine.obstacles.size(); ++i) {
    const Obstacle& obstacle = setup.machine.obstacles[i];
    for (const MovingPart& part : parts) {
      if (!meets(obstacle, part, nozzle_height)) continue;
      const SharedSweptSet swept =
          swept_sets.of(obstacle.shape, *part.outline, obstacle.name, part.name);
      Limit limit;
      limit.info.name = part.name + " over " + obstacle.name;
      limit.info.group = LimitGroup::head;
      limit.info.part = part.name;
      limit.info.part_id = part.id;
      limit.info.obstacle = obstacle.name;
      limit.info.obstacle_id = i;
      limit.info.wanted = obstacle.clearance;
      limit.field = moves == ForMoves::yes ? swept->outside_by_pieces() : swept->outside();
      // What goes with the probe is asked for the probe's place. So the offset does not enter.
      limit.at_nozzle = !part.with_probe;
      limit.taken = swept->radius() + obstacle.clearance;
      limit.spread = spread_of(setup, part);
      limits.push_back(std::move(limit));
    }
  }
}

void append_group(LimitGroup group, const Setup& setup, SweptSets& swept_sets,
                  std::vector<Limit>& limits) {
  switch (group) {
    case LimitGroup::travel:
      return append_travel(setup, limits);
    case LimitGroup::bed:
      return append_bed(setup, setup.probe.spot, setup.probe.edge_distance, swept_sets, limits);
    case LimitGroup::obstacle:
      return append_obstacles(setup, swept_sets, limits);
    case LimitGroup::head:
      return append_head(setup, setup.probe.trigger_height, ForMoves::no, swept_sets, limits);
    case LimitGroup::envelope:
      return append_envelope(setup, swept_sets, limits);
    case LimitGroup::beside:
      append_beside(setup, swept_sets, limits);
      return append_kept_clear(setup, swept_sets, limits);
  }
}

}  // namespace leeway
