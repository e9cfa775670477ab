#include "leeway/regions.h"

#include <array>
#include <cmath>

#include "geometry/growth.h"
#include "geometry/measure.h"
#include "geometry/overlay.h"
#include "geometry/vector.h"
#include "model/limit_list.h"
#include "model/sweep.h"

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

// A region in the making: what allows, to be intersected, and what forbids, to be united and
// subtracted once.
struct Draft {
  std::vector<MultiPolygon> allowed;
  std::vector<Disc> discs;  // allowed too
  std::vector<Polygon> forbidden;

  void forbid(std::vector<Polygon> parts) {
    for (Polygon& part : parts) forbidden.push_back(std::move(part));
  }
  void allow(std::optional<Polygon> polygon) {
    allowed.emplace_back();
    if (polygon) allowed.back().push_back(std::move(*polygon));
  }

  MultiPolygon finish() const {
    MultiPolygon result = all_allowed();
    if (result.empty()) return result;
    const Box box = bounding_box(Shape(result));
    std::vector<Polygon> near;
    for (const Polygon& part : forbidden) {
      const Box b = bounding_box(part.outer);
      if (b.x0 >= box.x1 || b.x1 <= box.x0 || b.y0 >= box.y1 || b.y1 <= box.y0) continue;
      const bool convex = part.holes.empty() && turns_left(part.outer);
      near.push_back(convex ? Polygon{trimmed(part.outer, box), {}} : part);
    }
    return near.empty() ? result : subtract(result, unite(near));
  }

 private:
  MultiPolygon all_allowed() const {
    MultiPolygon result;
    if (!discs.empty()) {
      std::optional<Polygon> lens =
          discs.size() == 1 ? shrunk_disc(discs.front(), {}) : within_discs(discs);
      if (!lens) return result;
      result.push_back(*std::move(lens));
    }
    for (std::size_t i = 0; i < allowed.size(); ++i) {
      result = i == 0 && discs.empty() ? allowed[i] : intersect(result, allowed[i]);
    }
    return result;
  }
};

void shrink_box(const Box& box, const Shape& spot, const Growth& growth, Draft& draft) {
  const Box m = bounding_box(spot);
  draft.allow(shrunk_box({box.x0 - m.x0, box.x1 - m.x1, box.y0 - m.y0, box.y1 - m.y1}, growth));
}

void shrink_disc(const Disc& disc, const Shape& spot, Growth growth, Draft& draft) {
  growth.base += radius_of(spot);
  const Ring reach =
      is_point_or_disc(spot) ? Ring{center_of(spot)} : convex_hull(outline_points(spot));
  const bool round = growth.spread.same_all_round() && growth.most() < disc.radius;
  for (const Point vertex : reach) {
    const Disc moved{disc.center - vertex, disc.radius};
    if (round) {
      draft.discs.push_back({moved.center, moved.radius - growth.most()});
    } else {
      draft.allow(shrunk_disc(moved, growth));
    }
  }
}

// The plate is shrunk by itself, before the obstacles: two small overlays cost less than one large.
void shrink_polygons(const MultiPolygon& polygons, const Shape& spot, Growth growth, Draft& draft) {
  if (is_point_or_disc(spot)) {
    growth.base += radius_of(spot);
    const MultiPolygon moved = translated(polygons, -center_of(spot));
    draft.allowed.push_back(subtract(snapped(moved), unite(rim(moved, growth))));
    return;
  }
  Draft eroded;
  const Box box = bounding_box(Shape(polygons));
  const Box m = bounding_box(spot);
  shrink_box(box, spot, {}, eroded);
  const double beyond = 10 + m.width() + m.depth();
  const Box frame{box.x0 - beyond, box.x1 + beyond, box.y0 - beyond, box.y1 + beyond};
  for (const Ring& piece : sweep_surroundings(polygons, spot, frame)) {
    eroded.forbidden.push_back(grown_convex(piece, growth));
  }
  draft.allowed.push_back(eroded.finish());
}

// Positions at which all of `spot` lies in `shape`, as far from its edge as the growth says.
void shrink(const Shape& shape, const Shape& spot, const Growth& growth, Draft& draft) {
  if (const Box* box = std::get_if<Box>(&shape)) {
    shrink_box(*box, spot, growth, draft);
  } else if (const Disc* disc = std::get_if<Disc>(&shape)) {
    shrink_disc(*disc, spot, growth, draft);
  } else {
    shrink_polygons(polygons_of(shape), spot, growth, draft);
  }
}

Shape moved(const Shape& shape, Point by) {
  if (const Box* b = std::get_if<Box>(&shape)) {
    return Box{b->x0 + by.x, b->x1 + by.x, b->y0 + by.y, b->y1 + by.y};
  }
  if (const Disc* disc = std::get_if<Disc>(&shape)) return Disc{disc->center + by, disc->radius};
  return translated(std::get<MultiPolygon>(shape), by);
}

enum class Guarded : bool { no, yes };

Spread spread_if(Guarded guarded, const Spread& spread) {
  return guarded == Guarded::yes ? spread : kNoSpread;
}

void forbid_obstacles(const Setup& setup, Guarded guarded, Draft& draft) {
  for (const Obstacle& obstacle : setup.machine.obstacles) {
    const Swept swept = sweep(obstacle.shape, setup.probe.spot, obstacle.name, "sensing spot");
    draft.forbid(grown(swept, {obstacle.clearance, spread_if(guarded, spread_at_probe(setup))}));
  }
}

// `parts` come down on the obstacles; those of the head are `offset` away from the probe.
void forbid_head(const Setup& setup, const std::vector<MovingPart>& parts, double nozzle_height,
                 Point offset, Guarded guarded, Draft& draft) {
  for (const Obstacle& obstacle : setup.machine.obstacles) {
    for (const MovingPart& part : parts) {
      if (!meets(obstacle, part, nozzle_height)) continue;
      const Shape shape = part.with_probe ? obstacle.shape : moved(obstacle.shape, offset);
      const Swept swept = sweep(shape, *part.outline, obstacle.name, part.name);
      draft.forbid(grown(swept, {obstacle.clearance, spread_if(guarded, spread_of(setup, part))}));
    }
  }
}

MultiPolygon printable(const Setup& setup) {
  Draft draft;
  shrink(setup.machine.bed, Point{}, {setup.machine.print_inset, kNoSpread}, draft);
  shrink(setup.machine.travel, Point{}, {}, draft);
  std::vector<MovingPart> parts = moving_parts(setup);
  if (parts.back().with_probe) parts.pop_back();
  forbid_head(setup, parts, 0, {}, Guarded::no, draft);
  return draft.finish();
}

void sense(const Setup& setup, Guarded guarded, Draft& draft) {
  shrink(setup.machine.bed, setup.probe.spot,
         {setup.probe.edge_distance, spread_if(guarded, spread_at_probe(setup))}, draft);
  forbid_obstacles(setup, guarded, draft);
}

MultiPolygon sensing(const Setup& setup) {
  Draft draft;
  sense(setup, Guarded::no, draft);
  return draft.finish();
}

MultiPolygon reachable(const Setup& setup, Guarded guarded) {
  Draft draft;
  const Point offset = setup.probe.offset;
  shrink(moved(setup.machine.travel, offset), Point{},
         {0, spread_if(guarded, spread_of_travel(setup))}, draft);
  sense(setup, guarded, draft);
  forbid_head(setup, moving_parts(setup), setup.probe.trigger_height, offset, guarded, draft);
  return draft.finish();
}

MultiPolygon plate(const Setup& setup) {
  Draft draft;
  shrink(setup.machine.bed, Point{}, {}, draft);
  return draft.finish();
}

MultiPolygon build(const Setup& setup, RegionKind kind) {
  switch (kind) {
    case RegionKind::bed:
      return plate(setup);
    case RegionKind::printable:
      return printable(setup);
    case RegionKind::sensing:
      return sensing(setup);
    case RegionKind::reachable:
      return reachable(setup, Guarded::no);
    case RegionKind::guarded:
      break;
  }
  return reachable(setup, Guarded::yes);
}

bool spot_fits(const Setup& setup) {
  Draft draft;
  shrink(setup.machine.bed, setup.probe.spot, {setup.probe.edge_distance, kNoSpread}, draft);
  return !draft.finish().empty();
}

bool travel_meets_plate(const Setup& setup) {
  Draft draft;
  shrink(setup.machine.bed, Point{}, {}, draft);
  shrink(setup.machine.travel, Point{}, {}, draft);
  return !draft.finish().empty();
}

}  // namespace

const char* word(RegionKind kind) {
  switch (kind) {
    case RegionKind::bed:
      return "bed";
    case RegionKind::printable:
      return "printable";
    case RegionKind::sensing:
      return "sensing";
    case RegionKind::reachable:
      return "reachable";
    case RegionKind::guarded:
      break;
  }
  return "guarded";
}

struct Regions::Impl {
  Setup setup;
  mutable std::array<std::optional<MultiPolygon>, kRegionKinds> made;

  const MultiPolygon& get(RegionKind kind) const {
    std::optional<MultiPolygon>& region = made[static_cast<std::size_t>(kind)];
    if (!region) region = build(setup, kind);
    return *region;
  }

  std::string why_printable_is_empty() const {
    if (!travel_meets_plate(setup)) return "the nozzle's travel does not reach the plate";
    if (setup.machine.print_inset > 0) {
      return "the print inset and the obstacles leave nothing of the plate";
    }
    return "the obstacles, with what the head would bring down on them, leave nothing of the plate";
  }

  std::string why_sensing_is_empty() const {
    if (!spot_fits(setup)) {
      return setup.probe.edge_distance > 0
                 ? "the sensing spot with its edge distance does not fit on the plate"
                 : "the sensing spot does not fit on the plate";
    }
    return "the obstacles leave no place on the plate for the sensing spot";
  }

  std::string why_empty(RegionKind kind) const {
    switch (kind) {
      case RegionKind::bed:
        return "the plate is too small to measure";
      case RegionKind::printable:
        return why_printable_is_empty();
      case RegionKind::sensing:
        return why_sensing_is_empty();
      case RegionKind::reachable:
        if (get(RegionKind::sensing).empty()) return why_sensing_is_empty();
        return "with this offset the nozzle's travel, or an obstacle under the head, keeps the "
               "probe from every place where it could sense";
      case RegionKind::guarded:
        break;
    }
    if (get(RegionKind::reachable).empty()) return why_empty(RegionKind::reachable);
    return "the stated uncertainty is larger than the room there is";
  }
};

Regions::Regions(const Setup& setup) : impl_(std::make_unique<Impl>()) { impl_->setup = setup; }
Regions::~Regions() = default;
Regions::Regions(Regions&&) noexcept = default;
Regions& Regions::operator=(Regions&&) noexcept = default;

const MultiPolygon& Regions::get(RegionKind kind) const { return impl_->get(kind); }

std::optional<std::string> Regions::why_empty(RegionKind kind) const {
  if (!get(kind).empty()) return std::nullopt;
  return impl_->why_empty(kind);
}

}  // namespace leeway
