// Inches for millimetres, and decimal points in the wrong place: of one number, one pair, one
// shape, the whole machine.

#include "tasks/explain/hypotheses/mistake_table.h"

#include <algorithm>
#include <cmath>

#include "geometry/plane/by_kind.h"
#include "model/limits/ticks.h"

namespace leeway {
namespace {

constexpr double kInch = 25.4;

// Of a number that was rounded in inches: the roundest that it may have been in mm.
double as_meant(double value, double by) {
  const double plain = value * by;
  if (by != kInch) return rounded_to_ticks(plain);
  for (const double step : {10.0, 5.0, 1.0, 0.5, 0.1}) {
    const double near = std::round(plain / step) * step;
    if (std::abs(near - plain) <= 0.005 * kInch + 1e-9) return rounded_to_ticks(near);
  }
  return rounded_to_ticks(plain);
}

Box box_as_meant(const Box& b, double by) {
  return {as_meant(b.x0, by), as_meant(b.x1, by), as_meant(b.y0, by), as_meant(b.y1, by)};
}

Shape shape_as_meant(const Shape& shape, double by) {
  if (const Box* box = std::get_if<Box>(&shape)) return box_as_meant(*box, by);
  return scaled(shape, by);
}

Changes margins_as_meant(const Margins& m, double by) {
  return {GridMargin{GridSide::left, as_meant(m.left, by)},
          GridMargin{GridSide::right, as_meant(m.right, by)},
          GridMargin{GridSide::front, as_meant(m.front, by)},
          GridMargin{GridSide::back, as_meant(m.back, by)}};
}

Changes request_as_meant(const Trials& trials, double by) {
  if (const Margins* margins = trials.margins()) return margins_as_meant(*margins, by);
  if (const Box* bounds = trials.bounds()) return bounds_changes(box_as_meant(*bounds, by));
  return {};
}

// Several numbers at once.
void groups(Trials& trials, Mistake mistake, double by, double share) {
  const Point o = trials.setup().probe.offset;
  const Machine& machine = trials.setup().machine;
  const Changes offset{ProbeOffset{{as_meant(o.x, by), as_meant(o.y, by)}}};
  const Changes bed{BedShape{shape_as_meant(machine.bed, by)}};
  const Changes travel{TravelShape{shape_as_meant(machine.travel, by)}};
  trials.add(mistake, offset, share);
  trials.add(mistake, bed, share);
  trials.add(mistake, travel, share);
  trials.add(mistake, together(bed, travel), share);
  const Changes request = request_as_meant(trials, by);
  trials.add(mistake, request, share);
  if (!request.empty()) trials.add(mistake, together(together(bed, travel), request), share);
}

bool sound(const Box& box) { return box.x0 < box.x1 && box.y0 < box.y1; }

std::optional<Box> with_side(const Box& box, double Box::*side, double by) {
  if (box.*side == 0) return std::nullopt;
  Box out = box;
  out.*side = as_meant(out.*side, by);
  if (!sound(out)) return std::nullopt;
  return out;
}

void one_side(Trials& trials, Mistake mistake, double by, double Box::*side, double share) {
  const Machine& machine = trials.setup().machine;
  const auto of_shape = [&](const Shape& shape) -> std::optional<Box> {
    const Box* box = std::get_if<Box>(&shape);
    return box == nullptr ? std::nullopt : with_side(*box, side, by);
  };
  if (const auto bed = of_shape(machine.bed)) trials.add(mistake, {BedShape{*bed}}, share);
  if (const auto travel = of_shape(machine.travel)) {
    trials.add(mistake, {TravelShape{*travel}}, share);
  }
  if (trials.bounds() == nullptr) return;
  const auto bounds = with_side(*trials.bounds(), side, by);
  if (!bounds) return;
  const bool along_x = side == &Box::x0 || side == &Box::x1;
  trials.add(mistake,
             {along_x ? Change(GridAlongX{bounds->x0, bounds->x1})
                      : Change(GridAlongY{bounds->y0, bounds->y1})},
             share);
}

// One number alone.
void single(Trials& trials, Mistake mistake, double by, double share) {
  const Point o = trials.setup().probe.offset;
  trials.add_offset(mistake, {as_meant(o.x, by), o.y}, share);
  trials.add_offset(mistake, {o.x, as_meant(o.y, by)}, share);
  for (double Box::*side : kBoxSides) one_side(trials, mistake, by, side, share);
  const Margins* m = trials.margins();
  if (m == nullptr) return;
  const auto margin = [&](GridSide edge, double value) {
    trials.add(mistake, {GridMargin{edge, as_meant(value, by)}}, share / 2);
  };
  margin(GridSide::left, m->left);
  margin(GridSide::right, m->right);
  margin(GridSide::front, m->front);
  margin(GridSide::back, m->back);
}

}  // namespace

void add_units(Trials& trials) {
  for (const double by : {kInch, 1 / kInch}) {
    const double way = by > 1 ? 1 : 0.2;
    groups(trials, Mistake::inches, by, 0.15 * way);
    single(trials, Mistake::inches, by, 0.03 * way);
  }
  for (const double by : {0.1, 10.0}) {
    groups(trials, Mistake::decimal_point, by, 0.02);
    single(trials, Mistake::decimal_point, by, 0.05);
  }
}

}  // namespace leeway
