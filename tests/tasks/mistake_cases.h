#pragma once
// Good setups of invented machines, and each common mistake made in them.

#include <functional>
#include <optional>
#include <random>
#include <string>
#include <vector>

#include "leeway/explain.h"
#include "leeway/fit.h"
#include "leeway/validate.h"

namespace leeway {

class Rolls {
 public:
  explicit Rolls(std::uint64_t seed) : engine_(seed) {}
  int below(int n) { return static_cast<int>(engine_() % static_cast<std::uint64_t>(n)); }
  bool one_in(int n) { return below(n) == 0; }
  // A multiple of `step` in [low, high].
  double of(double low, double high, double step) {
    return low + step * below(static_cast<int>((high - low) / step + 1.5));
  }
  double sign() { return one_in(2) ? -1 : 1; }

 private:
  std::mt19937_64 engine_;
};

// A machine and probe as people have them, with a mesh that fits; by bounds or by margins.
struct GoodSetup {
  leeway::Setup setup;
  bool travel_is_bed = false;
};

inline std::optional<GoodSetup> good_setup(std::uint64_t seed, bool by_margins,
                                           bool margins_from_travel, bool centred,
                                           bool travel_is_bed) {
  Rolls rolls(seed);
  GoodSetup good;
  leeway::Setup& s = good.setup;
  good.travel_is_bed = travel_is_bed;
  const double width = rolls.of(160, 330, 5);
  const double depth = rolls.of(150, 320, 5);
  const double x0 = centred ? -width / 2 : 0;
  const double y0 = centred ? -depth / 2 : 0;
  s.name = "case " + std::to_string(seed);
  s.machine.bed = Box{x0, x0 + width, y0, y0 + depth};
  const auto more = [&] { return travel_is_bed ? 0.0 : rolls.of(2, 16, 1); };
  s.machine.travel = Box{x0 - more(), x0 + width + more(), y0 - more(), y0 + depth + more()};
  s.machine.bed_uncertainty = 0.1;
  s.machine.travel_uncertainty = 0.1;
  s.probe.offset = {rolls.sign() * rolls.of(18, 52, 0.5), rolls.sign() * rolls.of(4, 45, 0.5)};
  if (rolls.one_in(4)) s.probe.offset.y = 0;
  if (rolls.one_in(6)) s.probe.offset = {0, rolls.sign() * rolls.of(20, 50, 0.5)};
  s.probe.offset_uncertainty = {0.1, 0.1};
  s.probe.spot = Disc{{0, 0}, rolls.of(2, 6, 1)};
  s.probe.edge_distance = 1;
  s.probe.trigger_height = 1;
  if (rolls.one_in(2)) {
    s.machine.obstacles.push_back(
        {"clip", Box{x0 + width / 2 - 15, x0 + width / 2 + 15, y0 - 4, y0 + 5}, 5, 1});
    s.machine.head.push_back({"duct", Box{-16, 16, -24, -6}, 3});
  }
  s.request.grid = Grid{3 + rolls.below(5), 3 + rolls.below(5), std::get<Box>(s.machine.bed),
                        Frame::probe, false};
  FitOptions options;
  options.step = 1;
  options.remedies = false;
  const FitResult fitted = fit(s, options);
  if (!fitted.mesh) return std::nullopt;
  Box b = fitted.mesh->bounds;
  if (b.width() < width / 2 || b.depth() < depth / 2) return std::nullopt;
  if (by_margins) {
    const Box around = bounding_box(margins_from_travel ? s.machine.travel : s.machine.bed);
    const double extra = rolls.of(0, 6, 1);
    s.request.grid->extent = Margins{
        b.x0 - around.x0 + extra, around.x1 - b.x1 + extra, b.y0 - around.y0 + extra,
        around.y1 - b.y1 + extra, margins_from_travel ? Margins::From::travel : Margins::From::bed};
  } else {
    s.request.grid->extent = b;
  }
  const Rig rig(s);
  if (check(rig).verdict != Verdict::reachable) return std::nullopt;
  return good;
}

// A good setup with one mistake made in it; nothing when the mistake breaks nothing, or does not
// apply.
inline std::optional<leeway::Setup> mistaken(Mistake mistake, std::uint64_t seed) {
  Rolls rolls(seed * 7919 + static_cast<std::uint64_t>(mistake));
  const bool margins = mistake == Mistake::margins_from_bed ||
                       mistake == Mistake::margins_from_travel ||
                       mistake == Mistake::travel_beyond_bed;
  const bool from_travel = mistake == Mistake::margins_from_bed ||
                           mistake == Mistake::travel_beyond_bed;  // as was meant
  const bool centred = mistake == Mistake::origin_at_centre;
  auto good =
      good_setup(seed * 31 + static_cast<std::uint64_t>(mistake), margins || rolls.one_in(3),
                 from_travel, centred, mistake == Mistake::travel_beyond_bed);
  if (!good) return std::nullopt;
  leeway::Setup s = good->setup;
  const Box bed = bounding_box(s.machine.bed);
  Point& o = s.probe.offset;
  Box* grid = std::get_if<Box>(&s.request.grid->extent);
  Margins* m = std::get_if<Margins>(&s.request.grid->extent);
  switch (mistake) {
    case Mistake::sign_of_x:
      o.x = -o.x;
      break;
    case Mistake::sign_of_y:
      o.y = -o.y;
      break;
    case Mistake::both_signs:
      if (o.x == 0 || o.y == 0) return std::nullopt;
      o = -o;
      break;
    case Mistake::axes_swapped:
      o = {rolls.sign() * o.y, rolls.sign() * o.x};
      break;
    case Mistake::frame:
      if (grid == nullptr) return std::nullopt;
      // The bounds of the nozzle, said to be those of the probe; or the other way round.
      if (rolls.one_in(2)) {
        *grid = {grid->x0 - o.x, grid->x1 - o.x, grid->y0 - o.y, grid->y1 - o.y};
      } else {
        s.request.grid->frame = Frame::nozzle;
      }
      break;
    case Mistake::margins_from_travel:
      m->from = Margins::From::travel;
      break;
    case Mistake::margins_from_bed:
      m->from = Margins::From::bed;
      break;
    case Mistake::origin_at_centre:
    case Mistake::origin_at_corner: {
      // Either the bed or the mesh was written by the other origin.
      const double way = mistake == Mistake::origin_at_centre ? 1 : -1;
      const Point by{way * bed.width() / 2, way * bed.depth() / 2};
      if (rolls.one_in(2) || grid == nullptr) {
        s.machine.bed = Box{bed.x0 + by.x, bed.x1 + by.x, bed.y0 + by.y, bed.y1 + by.y};
      } else {
        *grid = {grid->x0 + by.x, grid->x1 + by.x, grid->y0 + by.y, grid->y1 + by.y};
      }
      break;
    }
    case Mistake::travel_equals_bed:
      s.machine.travel = bed;
      break;
    case Mistake::travel_beyond_bed:
      s.machine.travel = Box{bed.x0 - rolls.of(4, 20, 1), bed.x1 + rolls.of(4, 20, 1),
                             bed.y0 - rolls.of(4, 20, 1), bed.y1 + rolls.of(4, 20, 1)};
      break;
    case Mistake::offset_left_at_zero:
      if (grid == nullptr) return std::nullopt;
      // With the mesh given for the nozzle, a probe under the nozzle is off the bed.
      *grid = {grid->x0 - o.x, grid->x1 - o.x, grid->y0 - o.y, grid->y1 - o.y};
      s.request.grid->frame = Frame::nozzle;
      o = {0, 0};
      break;
    case Mistake::inches:
      switch (rolls.below(3)) {
        case 0:
          o = (1 / 25.4) * o;
          break;
        case 1:
          s.machine.bed = Box{bed.x0 / 25.4, bed.x1 / 25.4, bed.y0 / 25.4, bed.y1 / 25.4};
          break;
        default:
          if (grid == nullptr) return std::nullopt;
          *grid = {grid->x0 / 25.4, grid->x1 / 25.4, grid->y0 / 25.4, grid->y1 / 25.4};
      }
      break;
    case Mistake::decimal_point:
      switch (rolls.below(4)) {
        case 0:
          o.x *= 10;
          break;
        case 1:
          o = 0.1 * o;
          break;
        case 2:
          if (grid == nullptr) return std::nullopt;
          grid->x1 *= 10;
          break;
        default:
          s.machine.travel = Box{-4, bed.x1 / 10, -4, bed.y1 + 4};
      }
      break;
    case Mistake::columns_and_rows_exchanged:
      std::swap(s.request.grid->columns, s.request.grid->rows);
      break;
    case Mistake::width_and_depth_exchanged:
      s.machine.bed = Box{bed.y0, bed.y1, bed.x0, bed.x1};
      break;
  }
  if (!validate(s).empty()) return std::nullopt;  // no file may say so
  if (check(Rig(s)).verdict == Verdict::reachable) return std::nullopt;
  return s;
}

}  // namespace leeway
