#include "model/offsets/offset_window.h"

#include <algorithm>

#include "geometry/overlay/overlay.h"
#include "geometry/plane/assert.h"
#include "geometry/plane/by_kind.h"
#include "geometry/plane/core.h"
#include "geometry/plane/micrometres.h"
#include "geometry/plane/polygons.h"
#include "geometry/plane/vector.h"
#include "leeway/limits.h"
#include "model/limits/ticks.h"

namespace leeway {
namespace {

// More than half the diagonal of a square micrometre.
constexpr double kOffLattice = 0.001;

bool meet(const Box& a, const Box& b) {
  return a.x0 < b.x1 && b.x0 < a.x1 && a.y0 < b.y1 && b.y0 < a.y1;
}

// Where the offset must be for p less the offset to be in it.
RoundedBox mirrored_about(const RoundedBox& travel, Point p) {
  const Box& b = travel.box;
  return {{p.x - b.x1, p.x - b.x0, p.y - b.y1, p.y - b.y0}, travel.radius};
}

MultiPolygon shrunk(const Shape& shape, const Growth& growth) {
  RegionDraft draft;
  shrink(shape, growth, draft);
  return draft.finish();
}

}  // namespace

WindowMaker::WindowMaker(const Rig& rig)
    : setup_(rig.setup()),
      swept_sets_(rig.limits().sweeps()),
      spread_(spread_of_travel(rig.setup())) {
  const Setup& setup = setup_;
  setup_.request = {};

  // What of the travel's hull is not travel, grown by the guard with all else that is forbidden.
  const MultiPolygon notches = by_kind(
      setup.machine.travel, [](Point) { return MultiPolygon{}; },
      [](const Box&) { return MultiPolygon{}; }, [](const Disc&) { return MultiPolygon{}; },
      [](const RoundedBox&) { return MultiPolygon{}; },
      [this](const MultiPolygon& travel) {
        travel_is_empty_ = shrunk(travel, {0, spread_}).empty();
        hull_ = convex_hull(outline_points(travel));
        Ring around;
        for (const Point p : hull_) around.push_back(to_lattice(p));
        return subtract({Polygon{around, {}}}, snapped(travel));
      });
  // A point on the lattice moves the parts as they are. One between whole micrometres makes them be
  // rounded, and gets parts that are larger by as much.
  for (const double more : {0.0, kOffLattice}) {
    RegionDraft draft;
    // With the clearances a little wider there is nothing more to do for the obstacles.
    Setup wider = setup;
    for (Obstacle& obstacle : wider.machine.obstacles) obstacle.clearance += more;
    std::vector<MovingPart> head = moving_parts(wider);
    if (head.back().with_probe) head.pop_back();
    forbid_head(wider, head, setup.probe.trigger_height, {}, Guarded::yes, *swept_sets_, draft);
    // Snapping the travel may have made a notch smaller.
    draft.forbid(grown(notches, {more + (notches.empty() ? 0 : kOffLattice), spread_}));
    if (!draft.forbidden().empty()) {
      // At p an offset o is forbidden where p - o lies in a part. So the parts are mirrored here,
      // and later moved by p.
      (more > 0 ? wider_ : parts_) = mirrored(unite(draft.forbidden()));
    }
  }
}

void WindowMaker::allow(const std::vector<Point>& probes, RegionDraft& draft) const {
  LEEWAY_ASSERT(!probes.empty());
  by_kind(
      setup_.machine.travel,
      [&](Point) { draft.allow(shrunk_box(*window_of_box(setup_, probes), {})); },
      [&](const Box&) { draft.allow(shrunk_box(*window_of_box(setup_, probes), {})); },
      [&](const Disc& travel) { allow_in(travel, probes, draft); },
      [&](const RoundedBox& travel) {
        for (const Point p : convex_hull(probes)) {
          shrink(mirrored_about(travel, p), {0, spread_}, draft);
        }
      },
      [&](const MultiPolygon&) { allow_in_hull(probes, draft); });
}

void WindowMaker::allow_in(const Disc& travel, const std::vector<Point>& probes,
                           RegionDraft& draft) const {
  const double radius = travel.radius - spread_.most();
  if (radius <= 0) {
    draft.allow(MultiPolygon{});
    return;
  }
  // p - o lies in the travel where o lies in a disc as large around p less its centre.
  for (const Point p : convex_hull(probes)) draft.allow_disc({p - travel.center, radius});
}

void WindowMaker::allow_in_hull(const std::vector<Point>& probes, RegionDraft& draft) const {
  if (travel_is_empty_) {
    draft.allow(MultiPolygon{});
    return;
  }
  // Of all points only those matter that are farthest out, seen along the normal of an edge.
  std::vector<Point> farthest;
  for (std::size_t i = 0; i < hull_.size(); ++i) {
    const Point n = right_of(hull_[(i + 1) % hull_.size()] - hull_[i]);
    const Point p = *std::max_element(probes.begin(), probes.end(),
                                      [n](Point a, Point b) { return dot(n, a) < dot(n, b); });
    if (std::find(farthest.begin(), farthest.end(), p) == farthest.end()) farthest.push_back(p);
  }
  const MultiPolygon mirror = mirrored(MultiPolygon{Polygon{hull_, {}}});
  for (const Point p : farthest) shrink(translated(mirror, p), {0, spread_}, draft);
}

void WindowMaker::forbid(const std::vector<Point>& probes, const Box& within,
                         RegionDraft& draft) const {
  // Which of the two a point takes must not depend on the others.
  std::vector<Point> on;
  std::vector<Point> off;
  for (const Point p : probes) (on_lattice(p) ? on : off).push_back(p);
  std::size_t copies = 0;
  const auto take = [&](const std::vector<Polygon>& parts, const std::vector<Point>& points) {
    for (const Polygon& part : parts) {
      const Box box = bounding_box(part.outer);
      for (const Point p : points) {
        if (!meet({box.x0 + p.x, box.x1 + p.x, box.y0 + p.y, box.y1 + p.y}, within)) continue;
        if (++copies > kMostCopies) {
          throw SetupTooDetailed("too many points for the window of offsets: more than " +
                                 std::to_string(kMostCopies) +
                                 " times a point and an obstacle bound it; ask for fewer points");
        }
        draft.forbid({moved_on_lattice(part, p)});
      }
    }
  };
  take(parts_, on);
  take(wider_, off);
}

void WindowMaker::allow_mount(RegionDraft& draft) const {
  if (setup_.mount.envelope) shrink(*setup_.mount.envelope, {}, draft);
}

void WindowMaker::forbid_mount(RegionDraft& draft) const {
  for (const auto& parts : {parts_beside_probe(setup_), parts_kept_clear(setup_)}) {
    for (const MovingPart& part : parts) {
      draft.forbid(swept_sets_->of(*part.outline, body_outline(setup_), part.name, "probe body")
                       ->grown({}, {}));
    }
  }
}

namespace {

// What the limits of a group leave of the window of offsets: first the sets that the offset must be
// in, then those that it must not be in.
void allow_group(LimitGroup group, const WindowPart& part, RegionDraft& draft) {
  switch (group) {
    case LimitGroup::travel:
      if (!part.probes.empty()) part.maker->allow(part.probes, draft);
      return;
    case LimitGroup::envelope:
      return part.maker->allow_mount(draft);
    case LimitGroup::bed:
    case LimitGroup::obstacle:  // Of the probe's own place, whatever the offset.
    case LimitGroup::head:
    case LimitGroup::beside:
      return;
  }
}

void forbid_group(LimitGroup group, const WindowPart& part, const Box& within, RegionDraft& draft) {
  switch (group) {
    case LimitGroup::head:  // The travel's notches are among what the maker forbids here.
      return part.maker->forbid(part.probes, within, draft);
    case LimitGroup::beside:
      return part.maker->forbid_mount(draft);
    case LimitGroup::travel:
    case LimitGroup::bed:
    case LimitGroup::obstacle:
    case LimitGroup::envelope:
      return;
  }
}

}  // namespace

namespace {

RegionDraft window_draft(const std::vector<WindowPart>& parts, const Box& frame) {
  // First what allows. Only what forbids near the rest has to be moved and united then, and that is
  // most of the work.
  RegionDraft convex;
  convex.allow(shrunk_box(frame, {}));
  for (const WindowPart& part : parts) {
    for (const LimitGroup group : kLimitGroups) allow_group(group, part, convex);
  }
  const MultiPolygon allowed = convex.finish();
  RegionDraft window;
  window.allow(allowed);
  if (allowed.empty()) return window;
  const Box box = bounding_box(Shape(allowed));
  for (const WindowPart& part : parts) {
    for (const LimitGroup group : kLimitGroups) forbid_group(group, part, box, window);
  }
  return window;
}

}  // namespace

MultiPolygon offset_window(const std::vector<WindowPart>& parts, const Box& frame) {
  return window_draft(parts, frame).finish();
}

MultiPolygon shrunk_window(const MultiPolygon& window, const Tolerance& tolerance) {
  if (tolerance.none() || window.empty()) return window;
  RegionDraft draft;
  draft.allow(window);
  if (tolerance.round > 0) draft.forbid(rim(window, {tolerance.round, {}}));
  const MultiPolygon round = draft.finish();
  // Along each edge a box, in whole micrometres.
  const Point box = tolerance.box;
  if (box == Point{} || round.empty()) return round;
  const Point half{lattice_ceil(box.x), lattice_ceil(box.y)};
  std::vector<Polygon> along;
  const auto add = [&](const Ring& ring) {
    for (std::size_t i = 0; i < ring.size(); ++i) {
      Ring around;
      for (const Point end : {ring[i], ring[(i + 1) % ring.size()]}) {
        for (const double right : {-1.0, 1.0}) {
          for (const double up : {-1.0, 1.0}) {
            around.push_back(to_lattice(end + Point{right * half.x, up * half.y}));
          }
        }
      }
      along.push_back(Polygon{convex_hull(std::move(around)), {}});
    }
  };
  for (const Polygon& polygon : round) {
    add(polygon.outer);
    for (const Ring& hole : polygon.holes) add(hole);
  }
  RegionDraft rest;
  rest.allow(round);
  rest.forbid(std::move(along));
  return rest.finish();
}

bool offset_window_is_empty(const std::vector<WindowPart>& parts, const Box& frame) {
  return window_draft(parts, frame).leaves_nothing();
}

std::optional<Box> window_of_box(const Setup& setup, const std::vector<Point>& probes) {
  LEEWAY_ASSERT(!probes.empty());
  const auto window = [&](const Box& travel) -> std::optional<Box> {
    // As verdicts round it: an offset on the very edge of the window must come out reachable.
    const double guard = to_millimetres(to_ticks(spread_of_travel(setup).most()));
    // A box holds all points where it holds their box.
    const Box all = bounding_box(probes);
    return Box{all.x1 - travel.x1 + guard, all.x0 - travel.x0 - guard, all.y1 - travel.y1 + guard,
               all.y0 - travel.y0 - guard};
  };
  using None = std::optional<Box>;
  return by_kind(
      setup.machine.travel,
      [&](Point p) {
        return window({p.x, p.x, p.y, p.y});
      },
      [&](const Box& travel) { return window(travel); }, [](const Disc&) { return None(); },
      [](const RoundedBox&) { return None(); }, [](const MultiPolygon&) { return None(); });
}

}  // namespace leeway
