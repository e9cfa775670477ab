#include <algorithm>

#include "geometry/plane/infinity.h"
#include "geometry/plane/position.h"
#include "geometry/plane/vector.h"
#include "model/limits/limit_list.h"
#include "model/limits/ticks.h"

namespace leeway {
namespace {

// The nozzle's height at which the lowest part of the head touches the bed, or the probe triggers.
// A part may reach below the nozzle, as a probe's pin does: an underside less than 0.
double lowest_height(const Setup& setup) {
  double lowest = setup.probe.trigger_height;
  for (const MovingPart& part : moving_parts(setup)) lowest = std::max(lowest, -part.underside);
  return to_ticks(lowest);
}

}  // namespace

struct MoveLimits::Impl {
  // One limit with the height of the nozzle, in ticks, from which on it is no limit any more.
  struct MoveLimit {
    Limit limit;
    double enough = kInfinity;
    double guard = 0;  // ticks
  };

  Point offset;
  std::vector<MoveLimit> limits;
  double height = 0;         // stated, in ticks
  double trigger = 0;        // ticks
  double lowest_height = 0;  // ticks

  // In ticks: the least leeway of a way, and what it should be.
  struct Reading {
    double leeway = 0;
    double wanted = 0;
    bool short_of() const { return leeway < wanted; }
  };
  void add(const Setup& setup, double lowest, SweptSets& swept_sets);
  Reading read(const MoveLimit& move, Point from_probe, Point to_probe, double height) const;
  static MoveStop stop(const MoveLimit& move, const Reading& reading) {
    return {move.limit.info, to_millimetres(reading.leeway), to_millimetres(reading.wanted)};
  }
};

// Made for the lowest height that will be asked. At a greater one `enough` tells which of them are
// no limits any more.
void MoveLimits::Impl::add(const Setup& setup, double lowest, SweptSets& swept_sets) {
  std::vector<Limit> made;
  append_travel(setup, made);
  append_head(setup, lowest, ForMoves::yes, swept_sets, made);
  for (Limit& limit : made) {
    MoveLimit move{std::move(limit)};
    const LimitInfo& info = move.limit.info;
    if (family_of(info.group).of_part) {
      move.enough = height_above(setup.machine.obstacles[info.obstacle_id],
                                 underside_of(setup, info.part_id));
    }
    move.guard = to_ticks(move.limit.spread.most());
    limits.push_back(std::move(move));
  }
}

MoveLimits::Impl::Reading MoveLimits::Impl::read(const MoveLimit& move, Point from_probe,
                                                 Point to_probe, double at_height) const {
  const Limit& limit = move.limit;
  const Point shift = limit.at_nozzle ? offset : Point{};
  const Point from = from_probe - shift;
  const Point to = to_probe - shift;
  const double at_from = limit.field->distance(from) - limit.taken;
  // A distance changes by no more than the way that is gone.
  if (to_ticks(at_from - distance(from, to)) > move.guard) return {kInfinity, 0};
  Reading reading{to_ticks(limit.field->least_along(from, to) - limit.taken), move.guard};
  // A way is asked for no more than its two ends have. That a point is marginal is told of the
  // point, and blocks no move.
  if (at_height >= trigger) {
    const double at_to = limit.field->distance(to) - limit.taken;
    reading.wanted = std::clamp(to_ticks(std::min(at_from, at_to)), 0.0, move.guard);
  }
  return reading;
}

MoveLimits::MoveLimits(const Setup& setup) : MoveLimits(setup, Limits(setup)) {}

MoveLimits::MoveLimits(const Setup& setup, const Limits& limits) : impl_(std::make_unique<Impl>()) {
  const double trigger = setup.probe.trigger_height;
  const double height = setup.probe.travel_height.value_or(trigger);
  impl_->offset = setup.probe.offset;
  impl_->height = to_ticks(height);
  impl_->trigger = to_ticks(trigger);
  impl_->lowest_height = lowest_height(setup);
  impl_->add(setup, std::min(height, trigger), *limits.sweeps());
}

MoveLimits::~MoveLimits() = default;
MoveLimits::MoveLimits(MoveLimits&&) noexcept = default;
MoveLimits& MoveLimits::operator=(MoveLimits&&) noexcept = default;

bool MoveLimits::blocked(Point from_probe, Point to_probe, MoveStop& stop) const {
  if (!is_position(from_probe) || !is_position(to_probe) || !is_position(impl_->offset)) {
    const Impl::MoveLimit& first = impl_->limits.front();
    stop = Impl::stop(first, {-kInfinity, first.guard});
    return true;
  }
  double worst = 0;
  for (const Impl::MoveLimit& move : impl_->limits) {
    if (move.enough <= impl_->height) continue;
    const Impl::Reading reading = impl_->read(move, from_probe, to_probe, impl_->height);
    if (!reading.short_of() || reading.leeway - reading.wanted >= worst) continue;
    worst = reading.leeway - reading.wanted;
    stop = Impl::stop(move, reading);
  }
  return worst < 0;
}

SafeHeight MoveLimits::safe_height(std::span<const Point> way) const {
  // The highest pair of a part and an obstacle that any move needs decides. From the top down it is
  // the first one found, and lower ones need not be looked at.
  std::vector<const Impl::MoveLimit*> highest_first;
  for (const Impl::MoveLimit& move : impl_->limits) {
    if (move.enough > impl_->lowest_height) highest_first.push_back(&move);
  }
  std::stable_sort(
      highest_first.begin(), highest_first.end(),
      [](const Impl::MoveLimit* a, const Impl::MoveLimit* b) { return a->enough > b->enough; });
  const auto found = [&](const Impl::MoveLimit& move) -> std::optional<MoveStop> {
    for (std::size_t i = 0; i + 1 < way.size(); ++i) {
      if (!is_position(way[i]) || !is_position(way[i + 1])) {
        return Impl::stop(move, {-kInfinity, move.guard});
      }
      const Impl::Reading reading = impl_->read(move, way[i], way[i + 1], impl_->trigger);
      if (reading.short_of()) return Impl::stop(move, reading);
    }
    return std::nullopt;
  };
  for (const Impl::MoveLimit* move : highest_first) {
    if (std::optional<MoveStop> why = found(*move)) {
      // The travel, or an obstacle of unlimited height: no height helps.
      if (move->enough == kInfinity) return {std::nullopt, std::move(why)};
      return {to_millimetres(move->enough), std::move(why)};
    }
  }
  return {to_millimetres(impl_->lowest_height), std::nullopt};
}

bool MoveLimits::drags() const { return impl_->height < impl_->lowest_height; }

}  // namespace leeway
