#include "model/regions/region_draft.h"

#include "geometry/overlay/overlay.h"
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

void shrink_box(const Box& box, const Shape& spot, const Growth& growth, RegionDraft& draft) {
  const Box m = bounding_box(spot);
  draft.allow(shrunk_box({box.x0 - m.x0, box.x1 - m.x1, box.y0 - m.y0, box.y1 - m.y1}, growth));
}

void shrink_disc(const Disc& disc, const Shape& spot, Growth growth, RegionDraft& draft) {
  growth.base += radius_of(spot);
  const Ring reach =
      is_point_or_disc(spot) ? Ring{center_of(spot)} : convex_hull(outline_points(spot));
  const bool round = growth.spread.same_all_round() && growth.most() < disc.radius;
  for (const Point vertex : reach) {
    const Disc moved{disc.center - vertex, disc.radius};
    if (round) {
      draft.allow_disc({moved.center, moved.radius - growth.most()});
    } else {
      draft.allow(shrunk_disc(moved, growth));
    }
  }
}

// The plate is shrunk by itself, before the obstacles: two small overlays cost less than one large.
void shrink_polygons(const MultiPolygon& polygons, const Shape& spot, Growth growth, Sweeps& sweeps,
                     RegionDraft& draft) {
  if (is_point_or_disc(spot)) {
    growth.base += radius_of(spot);
    const MultiPolygon moved = translated(polygons, -center_of(spot));
    draft.allow(subtract(snapped(moved), unite(rim(moved, growth))));
    return;
  }
  RegionDraft eroded;
  shrink_box(bounding_box(Shape(polygons)), spot, {}, eroded);
  eroded.forbid(sweeps.around(polygons, spot)->grown(growth, {}));
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
  MultiPolygon result = all_allowed();
  if (result.empty()) return result;
  const Box box = bounding_box(Shape(result));
  std::vector<Polygon> near;
  for (const Polygon& part : forbidden_) {
    const Box b = bounding_box(part.outer);
    if (b.x0 >= box.x1 || b.x1 <= box.x0 || b.y0 >= box.y1 || b.y1 <= box.y0) continue;
    const bool convex = part.holes.empty() && turns_left(part.outer);
    near.push_back(convex ? Polygon{trimmed(part.outer, box), {}} : part);
  }
  return near.empty() ? result : subtract(result, unite(near));
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

void shrink(const Shape& shape, const Shape& spot, const Growth& growth, Sweeps& sweeps,
            RegionDraft& draft) {
  if (const Box* box = std::get_if<Box>(&shape)) {
    shrink_box(*box, spot, growth, draft);
  } else if (const Disc* disc = std::get_if<Disc>(&shape)) {
    shrink_disc(*disc, spot, growth, draft);
  } else {
    shrink_polygons(polygons_of(shape), spot, growth, sweeps, draft);
  }
}

void shrink(const Shape& shape, const Growth& growth, RegionDraft& draft) {
  Sweeps none;
  shrink(shape, Point{}, growth, none, draft);
}

Spread spread_if(Guarded guarded, const Spread& spread) {
  return guarded == Guarded::yes ? spread : kNoSpread;
}

void forbid_obstacles(const Setup& setup, Guarded guarded, Sweeps& sweeps, RegionDraft& draft) {
  for (const Obstacle& obstacle : setup.machine.obstacles) {
    const Growth growth{obstacle.clearance, spread_if(guarded, spread_at_probe(setup))};
    draft.forbid(sweeps.of(obstacle.shape, setup.probe.spot, obstacle.name, "sensing area")
                     ->grown(growth, {}));
  }
}

void forbid_head(const Setup& setup, const std::vector<MovingPart>& parts, double nozzle_height,
                 Point offset, Guarded guarded, Sweeps& sweeps, RegionDraft& draft) {
  for (const Obstacle& obstacle : setup.machine.obstacles) {
    for (const MovingPart& part : parts) {
      if (!meets(obstacle, part, nozzle_height)) continue;
      const Growth growth{obstacle.clearance, spread_if(guarded, spread_of(setup, part))};
      draft.forbid(sweeps.of(obstacle.shape, *part.outline, obstacle.name, part.name)
                       ->grown(growth, part.with_probe ? Point{} : offset));
    }
  }
}

void sense(const Setup& setup, Guarded guarded, Sweeps& sweeps, RegionDraft& draft) {
  shrink(setup.machine.bed, setup.probe.spot,
         {setup.probe.edge_distance, spread_if(guarded, spread_at_probe(setup))}, sweeps, draft);
  forbid_obstacles(setup, guarded, sweeps, draft);
}

}  // namespace leeway
