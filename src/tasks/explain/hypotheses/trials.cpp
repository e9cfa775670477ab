#include "tasks/explain/hypotheses/trials.h"

#include <algorithm>

#include "geometry/plane/by_kind.h"
#include "geometry/plane/polygons.h"
#include "model/limits/ticks.h"

namespace leeway {
namespace {

Ring mapped(Ring ring, const auto& map) {
  for (Point& p : ring) p = rounded_to_ticks(map(p));
  return ring;
}

// `map` is a move, a scaling or an exchange of axes. REQUIRES: it leaves discs round.
Shape mapped(const Shape& shape, const auto& map, double scale) {
  const auto mapped_box = [&](const Box& box) {
    const Point a = rounded_to_ticks(map(Point{box.x0, box.y0}));
    const Point b = rounded_to_ticks(map(Point{box.x1, box.y1}));
    return Box{std::min(a.x, b.x), std::max(a.x, b.x), std::min(a.y, b.y), std::max(a.y, b.y)};
  };
  return by_kind(
      shape, [&](Point p) -> Shape { return rounded_to_ticks(map(p)); },
      [&](const Box& box) -> Shape { return mapped_box(box); },
      [&](const Disc& disc) -> Shape {
        return Disc{rounded_to_ticks(map(disc.center)), rounded_to_ticks(disc.radius * scale)};
      },
      [&](const RoundedBox& rounded) -> Shape {
        return RoundedBox{mapped_box(rounded.box), rounded_to_ticks(rounded.radius * scale)};
      },
      [&](const MultiPolygon& polygons) -> Shape {
        MultiPolygon out = polygons;
        for (Polygon& polygon : out) {
          polygon.outer = mapped(polygon.outer, map);
          for (Ring& hole : polygon.holes) hole = mapped(hole, map);
        }
        return out;
      });
}

}  // namespace

const Margins* Trials::margins() const {
  if (!setup_.request.grid) return nullptr;
  return std::get_if<Margins>(&setup_.request.grid->extent);
}

const Box* Trials::bounds() const {
  if (!setup_.request.grid) return nullptr;
  return std::get_if<Box>(&setup_.request.grid->extent);
}

void Trials::add(Mistake mistake, Changes changes, double weight, Unknown unknown) {
  if (changes.empty()) return;
  Setup changed = applied(changes, setup_);
  if (changed == setup_) return;
  trials_.push_back({mistake, std::move(changes), std::move(changed), weight, unknown});
}

void Trials::add_offset(Mistake mistake, Point offset, double weight, Unknown unknown) {
  // Never minus zero.
  add(mistake, {ProbeOffset{rounded_to_ticks(offset)}}, weight, unknown);
}

Shape shifted(const Shape& shape, Point by) {
  return mapped(
      shape, [by](Point p) { return p + by; }, 1);
}
Shape scaled(const Shape& shape, double by) {
  return mapped(
      shape, [by](Point p) { return by * p; }, by);
}
Shape turned(const Shape& shape) {
  return mapped(
      shape,
      [](Point p) {
        return Point{p.y, p.x};
      },
      1);
}

Changes together(Changes changes, const Changes& further) {
  changes.insert(changes.end(), further.begin(), further.end());
  return changes;
}

Changes bounds_changes(const Box& bounds) {
  const Point low = rounded_to_ticks(Point{bounds.x0, bounds.y0});
  const Point high = rounded_to_ticks(Point{bounds.x1, bounds.y1});
  return {GridAlongX{low.x, high.x}, GridAlongY{low.y, high.y}};
}

}  // namespace leeway
