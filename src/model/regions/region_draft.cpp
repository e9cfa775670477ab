#include "model/regions/region_draft.h"

#include <algorithm>

#include "geometry/distance/field.h"
#include "geometry/overlay/overlay.h"
#include "geometry/plane/assert.h"
#include "geometry/plane/by_kind.h"
#include "geometry/plane/core.h"
#include "geometry/plane/polygons.h"
#include "geometry/plane/vector.h"

namespace leeway {
namespace {

const Spread kNoSpread{};

// Whether a counter-clockwise ring is convex.
bool turns_left(const Ring& ring) {
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const Point a = ring[i];
    const Point b = ring[(i + 1) % ring.size()];
    const Point c = ring[(i + 2) % ring.size()];
    if (cross(a, b, c) < 0) return false;
  }
  return true;
}

// Without the vertices that only shape what lies beyond one side of the box: of each run of them
// the first and the last stay. REQUIRES: a convex ring.
Ring trimmed(const Ring& ring, const Box& box) {
  const auto sides_beyond = [&box](Point p) {
    return (p.x < box.x0 ? 1U : 0U) | (p.x > box.x1 ? 2U : 0U) | (p.y < box.y0 ? 4U : 0U) |
           (p.y > box.y1 ? 8U : 0U);
  };
  Ring kept{ring.front()};
  for (std::size_t i = 1; i < ring.size(); ++i) {
    const unsigned before = sides_beyond(kept.back());
    const unsigned after = sides_beyond(ring[(i + 1) % ring.size()]);
    if ((before & sides_beyond(ring[i]) & after) == 0) kept.push_back(ring[i]);
  }
  return kept;
}

// A place may be taken for spared only if rounding cannot have moved an edge over it.
constexpr double kRounding = 0.002;
// A place well inside the largest polygon of a region: the middle of the widest stretch of a line
// across the middle of it. The pole of inaccessibility would be better, and takes far longer to
// find than one more part to take away. REQUIRES: a region with an area.
Point place_inside(const MultiPolygon& region) {
  const Polygon& largest =
      *std::max_element(region.begin(), region.end(),
                        [](const Polygon& a, const Polygon& b) { return area(a) < area(b); });
  const Box box = bounding_box(largest.outer);
  const double y = (box.y0 + box.y1) / 2;
  std::vector<double> crossings;
  const auto cross = [&](const Ring& ring) {
    Point a = ring.back();
    for (const Point b : ring) {
      if ((a.y > y) != (b.y > y)) crossings.push_back(a.x + (y - a.y) * (b.x - a.x) / (b.y - a.y));
      a = b;
    }
  };
  cross(largest.outer);
  for (const Ring& hole : largest.holes) cross(hole);
  std::sort(crossings.begin(), crossings.end());
  Point place = largest.outer.front();
  double widest = 0;
  for (std::size_t i = 0; i + 1 < crossings.size(); i += 2) {
    const double width = crossings[i + 1] - crossings[i];
    if (width <= widest) continue;
    widest = width;
    place = {(crossings[i] + crossings[i + 1]) / 2, y};
  }
  return place;
}

double depth_in(const Box& box, Point p) {
  return std::min({p.x - box.x0, box.x1 - p.x, p.y - box.y0, box.y1 - p.y});
}

// A part that a place lies in, if any: of several one that probably takes much away around it.
std::vector<Polygon>::iterator forbids(std::vector<Polygon>& parts, Point place) {
  struct BoxDepth {
    double depth;  // in its box
    std::vector<Polygon>::iterator part;
  };
  std::vector<BoxDepth> candidates;
  for (auto part = parts.begin(); part != parts.end(); ++part) {
    const double depth = depth_in(bounding_box(part->outer), place);
    if (depth > -kRounding) candidates.push_back({depth, part});
  }
  std::stable_sort(candidates.begin(), candidates.end(),
                   [](const BoxDepth& a, const BoxDepth& b) { return a.depth > b.depth; });
  for (const BoxDepth& candidate : candidates) {
    if (inside_polygons({*candidate.part})->distance(place) > -kRounding) return candidate.part;
  }
  return parts.end();
}

void shrink_box(const Box& box, const Shape& spot, const Growth& growth, RegionDraft& draft) {
  const Box m = bounding_box(spot);
  draft.allow(shrunk_box({box.x0 - m.x0, box.x1 - m.x1, box.y0 - m.y0, box.y1 - m.y1}, growth));
}

// Of a convex set only the hull of the spot matters: the spot lies in a disc where all of its
// hull's vertices do. Discs stay discs as long as the guard is the same all round: they are cut
// exactly.
void shrink_disc(const Disc& disc, const Core& spot, Growth growth, RegionDraft& draft) {
  growth.base += spot.radius;
  const bool round = growth.spread.same_all_round() && growth.most() < disc.radius;
  for (const Point vertex : hull_of(spot)) {
    const Disc moved{disc.center - vertex, disc.radius};
    if (round) {
      draft.allow_disc({moved.center, moved.radius - growth.most()});
    } else {
      draft.allow(shrunk_disc(moved, growth));
    }
  }
}

// Taking off a strip along the boundary shrinks any polygon, holes and notches included.
MultiPolygon shrunk_polygons(const MultiPolygon& polygons, const Growth& growth) {
  return subtract(snapped(polygons), unite(rim(polygons, growth)));
}

void shrink_rounded(const RoundedBox& rounded, const Core& spot, Growth growth,
                    RegionDraft& draft) {
  growth.base += spot.radius;
  const Core around = core_of(rounded);
  for (const Point vertex : hull_of(spot)) {
    const Box b = box_of(around);
    const Box moved{b.x0 - vertex.x, b.x1 - vertex.x, b.y0 - vertex.y, b.y1 - vertex.y};
    if (growth.spread.same_all_round()) {
      draft.allow(shrunk_rounded(moved, around.radius, growth.most()));
      // A guard that differs by direction has no closed form at round corners: the outline becomes
      // a polygon on the safe side first.
    } else if (const auto inner = shrunk_rounded(moved, around.radius, 0)) {
      draft.allow(shrunk_polygons({*inner}, growth));
    } else {
      draft.allow(MultiPolygon{});
    }
  }
}

// The bed is shrunk by itself, before the obstacles: two small overlays cost less than one large.
void shrink_polygons(const MultiPolygon& polygons, const Shape& spot, Growth growth,
                     SweptSets& swept_sets, RegionDraft& draft) {
  const Core inner = core_of(spot);
  if (const Point* at = point_of(inner)) {
    growth.base += inner.radius;
    draft.allow(shrunk_polygons(translated(polygons, -*at), growth));
    return;
  }
  // What the spot must not touch is all that is not bed. Its sweep is cut to a frame beyond which
  // the spot cannot be on the bed.
  RegionDraft eroded;
  const Box m = box_of(inner);
  eroded.allow(shrunk_box(leeway::eroded(bounding_box(Shape(polygons)), m), {}));
  eroded.forbid(swept_sets.around(polygons, spot)->grown(growth, {}));
  draft.allow(eroded.finish());
}

}  // namespace

void RegionDraft::forbid(std::vector<Polygon> parts) {
  for (Polygon& part : parts) forbidden_.push_back(std::move(part));
}

void RegionDraft::allow(std::optional<Polygon> polygon) {
  allowed_.emplace_back();
  if (polygon) allowed_.back().push_back(std::move(*polygon));
}

MultiPolygon RegionDraft::finish() const {
  LEEWAY_ASSERT(!allowed_.empty() || !discs_.empty());
  MultiPolygon result = all_allowed();
  if (result.empty()) return result;
  const std::vector<Polygon> near = forbidden_near(bounding_box(Shape(result)));
  return near.empty() ? result : subtract(result, unite(near));
}

bool RegionDraft::leaves_nothing() const {
  LEEWAY_ASSERT(!allowed_.empty() || !discs_.empty());
  MultiPolygon left = all_allowed();
  if (left.empty()) return true;
  std::vector<Polygon> near = forbidden_near(bounding_box(Shape(left)));
  // The deepest place of what is left is looked at. If no part covers it something is left; else
  // that part is taken away.
  while (!left.empty()) {
    const auto cut = forbids(near, place_inside(left));
    if (cut == near.end()) return false;
    left = subtract(left, unite({*cut}));
    near.erase(cut);
  }
  return true;
}

// What keeps off is left out, and far ends of what is near are cut: the overlay takes the time of
// what it is given.
std::vector<Polygon> RegionDraft::forbidden_near(const Box& box) const {
  std::vector<Polygon> near;
  for (const Polygon& part : forbidden_) {
    const Box b = bounding_box(part.outer);
    if (b.x0 >= box.x1 || b.x1 <= box.x0 || b.y0 >= box.y1 || b.y1 <= box.y0) continue;
    const bool convex = part.holes.empty() && turns_left(part.outer);
    near.push_back(convex ? Polygon{trimmed(part.outer, box), {}} : part);
  }
  return near;
}

MultiPolygon RegionDraft::all_allowed() const {
  MultiPolygon result;
  if (!discs_.empty()) {
    std::optional<Polygon> lens =
        discs_.size() == 1 ? shrunk_disc(discs_.front(), {}) : within_discs(discs_);
    if (!lens) return result;
    result.push_back(*std::move(lens));
  }
  for (std::size_t i = 0; i < allowed_.size(); ++i) {
    result = i == 0 && discs_.empty() ? allowed_[i] : intersect(result, allowed_[i]);
  }
  return result;
}

void shrink(const Shape& shape, const Shape& spot, const Growth& growth, SweptSets& swept_sets,
            RegionDraft& draft) {
  by_kind(
      shape,
      [&](Point p) {
        shrink_box({p.x, p.x, p.y, p.y}, spot, growth, draft);
      },
      [&](const Box& box) { shrink_box(box, spot, growth, draft); },
      [&](const Disc& disc) { shrink_disc(disc, core_of(spot), growth, draft); },
      [&](const RoundedBox& rounded) { shrink_rounded(rounded, core_of(spot), growth, draft); },
      [&](const MultiPolygon& polygons) {
        shrink_polygons(polygons, spot, growth, swept_sets, draft);
      });
}

void shrink(const Shape& shape, const Growth& growth, RegionDraft& draft) {
  SweptSets none;
  shrink(shape, Point{}, growth, none, draft);
}

Spread spread_if(Guarded guarded, const Spread& spread) {
  return guarded == Guarded::yes ? spread : kNoSpread;
}

void forbid_obstacles(const Setup& setup, Guarded guarded, SweptSets& swept_sets,
                      RegionDraft& draft) {
  for (const Obstacle& obstacle : setup.machine.obstacles) {
    const Growth growth{obstacle.clearance, spread_if(guarded, spread_at_probe(setup))};
    draft.forbid(swept_sets.of(obstacle.shape, setup.probe.spot, obstacle.name, "sensing area")
                     ->grown(growth, {}));
  }
}

void forbid_head(const Setup& setup, const std::vector<MovingPart>& parts, double nozzle_height,
                 Point offset, Guarded guarded, SweptSets& swept_sets, RegionDraft& draft) {
  for (const Obstacle& obstacle : setup.machine.obstacles) {
    for (const MovingPart& part : parts) {
      if (!meets(obstacle, part, nozzle_height)) continue;
      const Growth growth{obstacle.clearance, spread_if(guarded, spread_of(setup, part))};
      draft.forbid(swept_sets.of(obstacle.shape, *part.outline, obstacle.name, part.name)
                       ->grown(growth, part.with_probe ? Point{} : offset));
    }
  }
}

void shrink_bed(const Setup& setup, Guarded guarded, SweptSets& swept_sets, RegionDraft& draft) {
  shrink(setup.machine.bed, setup.probe.spot,
         {setup.probe.edge_distance, spread_if(guarded, spread_at_probe(setup))}, swept_sets,
         draft);
}

void sense(const Setup& setup, Guarded guarded, SweptSets& swept_sets, RegionDraft& draft) {
  shrink_bed(setup, guarded, swept_sets, draft);
  forbid_obstacles(setup, guarded, swept_sets, draft);
}

}  // namespace leeway
