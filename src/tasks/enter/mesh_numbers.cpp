#include "leeway/mesh_numbers.h"

#include <algorithm>

#include "geometry/plane/assert.h"
#include "geometry/plane/vector.h"
#include "tasks/check/requested_points.h"
#include "tasks/enter/grid_holds.h"
#include "tasks/enter/rounding.h"

namespace leeway {
namespace {

bool reachable(const Rig& rig, Point probe) {
  return rig.limits().evaluate(probe).verdict == Verdict::reachable;
}

bool alike(const Margins& m) { return m.left == m.right && m.left == m.front && m.left == m.back; }

// A mesh from its first lines on, a spacing apart.
Box spaced(const Box& first, const Grid& grid, double x, double y) {
  return {first.x0, first.x0 + x * (grid.columns - 1), first.y0, first.y0 + y * (grid.rows - 1)};
}

class Writer {
 public:
  Writer(const Rig& rig, int decimals)
      : rig_(rig),
        holds_(rig),
        decimals_(decimals),
        rounding_(decimals),
        grid_(*rig.setup().request.grid) {
    probe_ = grid_bounds_for_probe(rig.setup(), grid_);
    const Point o = rig.setup().probe.offset;
    nozzle_ = {probe_.x0 - o.x, probe_.x1 - o.x, probe_.y0 - o.y, probe_.y1 - o.y};
    numbers_.columns = grid_.columns;
    numbers_.rows = grid_.rows;
  }

  MeshNumbers write() {
    const Box bed = bounding_box(rig_.setup().machine.bed);
    const Box travel = bounding_box(rig_.setup().machine.travel);
    numbers_.probe = bounds(Frame::probe, probe_);
    numbers_.nozzle = bounds(Frame::nozzle, nozzle_);
    numbers_.probe_from_bed = margins(Frame::probe, bed, probe_, Margins::From::bed);
    numbers_.nozzle_from_bed = margins(Frame::nozzle, bed, nozzle_, Margins::From::bed);
    numbers_.nozzle_from_travel = margins(Frame::nozzle, travel, nozzle_, Margins::From::travel);
    numbers_.probe_from_travel = margins(Frame::probe, travel, probe_, Margins::From::travel);
    if (numbers_.probe_from_bed && alike(*numbers_.probe_from_bed)) {
      numbers_.uniform = numbers_.probe_from_bed->left;
    }
    write_spans();
    write_spacing();
    write_places();
    return std::move(numbers_);
  }

 private:
  Grid asked(Frame frame, const std::variant<Box, Margins>& extent) const {
    Grid grid = grid_;
    grid.frame = frame;
    grid.extent = extent;
    return grid;
  }

  bool holds(Frame frame, const std::variant<Box, Margins>& extent) const {
    return holds_(asked(frame, extent));
  }

  void write_spans() {
    const auto take = [&](Frame frame, const auto& extent) {
      if (!extent) return;
      const Box box = grid_bounds_for_probe(rig_.setup(), asked(frame, *extent));
      const Box all = numbers_.spans.value_or(box);
      numbers_.spans = Box{std::max(all.x0, box.x0), std::min(all.x1, box.x1),
                           std::max(all.y0, box.y0), std::min(all.y1, box.y1)};
    };
    take(Frame::probe, numbers_.probe);
    take(Frame::nozzle, numbers_.nozzle);
    take(Frame::probe, numbers_.probe_from_bed);
    take(Frame::nozzle, numbers_.nozzle_from_bed);
    take(Frame::probe, numbers_.probe_from_travel);
    take(Frame::nozzle, numbers_.nozzle_from_travel);
  }

  std::optional<Box> bounds(Frame frame, const Box& exact) const {
    const Box rounded = rounding_.inward(exact);
    return holds(frame, rounded) ? std::optional(rounded) : std::nullopt;
  }

  std::optional<Margins> margins(Frame frame, const Box& around, const Box& exact,
                                 Margins::From from) const {
    const Margins rounded = rounding_.margins(around, exact, from);
    return holds(frame, rounded) ? std::optional(rounded) : std::nullopt;
  }

  // One spacing serves both frames: the smaller of what fits between their rounded bounds.
  void write_spacing() {
    const Box probe = numbers_.probe.value_or(rounding_.inward(probe_));
    const Box nozzle = numbers_.nozzle.value_or(rounding_.inward(nozzle_));
    const auto between = [&](double a, double b, int lines) {
      return lines > 1 ? rounding_.down(std::min(a, b) / (lines - 1)) : 0;
    };
    const double x = between(probe.width(), nozzle.width(), grid_.columns);
    const double y = between(probe.depth(), nozzle.depth(), grid_.rows);
    if (!holds(Frame::probe, spaced(probe, grid_, x, y))) return;
    if (!holds(Frame::nozzle, spaced(nozzle, grid_, x, y))) return;
    if (grid_.columns > 1) numbers_.spacing_x = x;
    if (grid_.rows > 1) numbers_.spacing_y = y;
  }

  void write_places() {
    for (int row = 0; row < grid_.rows; ++row) {
      for (int column = 0; column < grid_.columns; ++column) {
        const Point p = grid_point(probe_, grid_.columns, grid_.rows, column, row);
        if (grid_.skip_outside_bed && rig_.limits().on_bed(p) < 0) continue;
        const PlaceNumbers place = place_numbers(rig_, p, decimals_);
        const Finding exact = rig_.limits().evaluate(p);
        numbers_.places.push_back(
            {column + 1, row + 1, p, place, finding_as_entered(rig_, place, exact)});
      }
    }
    drop_blocked(&PlaceNumbers::probe, {});
    drop_blocked(&PlaceNumbers::nozzle, rig_.setup().probe.offset);
  }

  // The rounded places are of no use where the way over them is not clear.
  void drop_blocked(std::optional<Point> PlaceNumbers::*which, Point offset) {
    std::vector<CheckedPoint> points;
    for (const MeshPlace& place : numbers_.places) {
      if (!(place.numbers.*which)) return;
      CheckedPoint point;
      point.probe = *(place.numbers.*which) + offset;
      point.column = place.column;
      point.row = place.row;
      point.finding.verdict = Verdict::reachable;
      points.push_back(point);
    }
    if (holds_.way_is_clear(points)) return;
    for (MeshPlace& place : numbers_.places) (place.numbers.*which).reset();
  }

  const Rig& rig_;
  GridHolds holds_;
  int decimals_;
  Rounding rounding_;
  Grid grid_;
  Box probe_;
  Box nozzle_;
  MeshNumbers numbers_;
};

}  // namespace

MeshNumbers mesh_numbers(const Rig& rig, int decimals) {
  LEEWAY_ASSERT(rig.setup().request.grid.has_value());
  LEEWAY_ASSERT(decimals >= 0 && decimals <= kMostDecimals);
  return Writer(rig, decimals).write();
}

PlaceNumbers place_numbers(const Rig& rig, Point probe, int decimals) {
  const Rounding rounding(decimals);
  const Point offset = rig.setup().probe.offset;
  PlaceNumbers numbers{rounding.nearest(probe), rounding.nearest(probe - offset)};
  if (!reachable(rig, probe)) return numbers;
  if (!reachable(rig, *numbers.probe)) numbers.probe.reset();
  if (!reachable(rig, *numbers.nozzle + offset)) numbers.nozzle.reset();
  return numbers;
}

Finding finding_as_entered(const Rig& rig, const PlaceNumbers& numbers, const Finding& exact) {
  if (exact.verdict != Verdict::reachable) return exact;
  std::optional<Finding> worst;
  const auto take = [&](const std::optional<Point>& at, Point offset) {
    if (!at) return;
    const Finding finding = rig.limits().evaluate(*at + offset);
    if (worst && finding.leeway - finding.guard >= worst->leeway - worst->guard) return;
    worst = finding;
  };
  take(numbers.probe, {});
  take(numbers.nozzle, rig.setup().probe.offset);
  return worst.value_or(exact);
}

}  // namespace leeway
