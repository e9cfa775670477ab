#include "tasks/fit/move_ground.h"

#include "leeway/setup.h"
#include "model/limits/swept.h"
#include "model/regions/region_draft.h"
#include "tasks/fit/fit_problem.h"

namespace leeway {
namespace {

Guarded guarded_if_all_round(const Spread& spread) {
  return spread.same_all_round() ? Guarded::yes : Guarded::no;
}

// All places where moves are clear at the travel height, but for the shortfall of regions. Where
// the guard depends on the direction moves may keep less of it than points (MoveLimits), and none
// is taken off. A convex travel is left out: points within it have their moves within it.
std::optional<Slices> places_with_clear_moves(const Rig& rig, const Box& around) {
  const Setup& setup = rig.setup();
  const Point offset = setup.probe.offset;
  RegionDraft draft;
  draft.allow(shrunk_box(around, {}));
  forbid_head(setup, moving_parts(setup), *setup.probe.travel_height, offset,
              guarded_if_all_round(spread_at_probe(setup)), *rig.limits().sweeps(), draft);
  const bool whole_travel = is_convex_set(setup.machine.travel);
  if (whole_travel && draft.forbidden().empty()) return std::nullopt;
  if (!whole_travel) {
    const Spread spread = spread_of_travel(setup);
    shrink(moved(setup.machine.travel, offset),
           {0, spread_if(guarded_if_all_round(spread), spread)}, draft);
  }
  return Slices(draft.finish());
}

}  // namespace

MoveGround::MoveGround(const Rig& rig, const Box& around)
    : rig_(rig),
      around_(around),
      limits_(rig.move_limits()),
      shortfall_(shortfall_of(rig.setup())),
      ends_{around.y0, around.y1} {}

const std::optional<Slices>& MoveGround::clear_places() const {
  if (!clear_) clear_ = places_with_clear_moves(rig_, around_);
  return *clear_;
}

bool MoveGround::clear(std::span<const Point> way) const {
  MoveStop stop;
  for (std::size_t i = 0; i + 1 < way.size(); ++i) {
    if (!limits_.blocked(way[i], way[i + 1], stop)) continue;
    failed_last_ = i;
    ++refused_;
    return false;
  }
  return true;
}

bool MoveGround::fails_again(const Box& bounds, int columns, int rows) const {
  const auto points = static_cast<std::size_t>(columns) * static_cast<std::size_t>(rows);
  if (failed_last_ + 1 >= points) return false;
  MoveStop stop;
  const bool fails =
      limits_.blocked(serpentine_point(bounds, columns, rows, failed_last_),
                      serpentine_point(bounds, columns, rows, failed_last_ + 1), stop);
  refused_ += fails;
  return fails;
}

Intervals MoveGround::rows_over(double x0, double x1) const {
  const std::optional<Slices>& places = clear_places();
  if (!places) return {ends_};
  // Narrower by what the region may fall short of.
  const double low = x0 + shortfall_;
  const double high = x1 - shortfall_;
  if (low >= high) return {ends_};
  return widened(places->throughout(low, high), shortfall_);
}

Intervals MoveGround::blocked_at(double x0, double x1) const {
  const std::optional<Slices>& places = clear_places();
  if (!places) return {};
  const Intervals clear = widened(places->somewhere(x0 - shortfall_, x1 + shortfall_), shortfall_);
  return complement(clear, ends_.low, ends_.high);
}

Point serpentine_point(const Box& bounds, int columns, int rows, std::size_t number) {
  const auto in_row = static_cast<std::size_t>(columns);
  const auto row = static_cast<int>(number / in_row);
  const auto along = static_cast<int>(number % in_row);
  return grid_point(bounds, columns, rows, row % 2 == 0 ? along : columns - 1 - along, row);
}

}  // namespace leeway
