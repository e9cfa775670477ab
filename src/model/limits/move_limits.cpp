#include "geometry/plane/infinity.h"
#include "geometry/plane/position.h"
#include "geometry/plane/vector.h"
#include "model/limits/limit_list.h"
#include "model/limits/ticks.h"

namespace leeway {

struct MoveLimits::Impl {
  Point offset;
  std::vector<Limit> limits;
};

MoveLimits::MoveLimits(const Setup& setup) : MoveLimits(setup, Limits(setup)) {}

MoveLimits::MoveLimits(const Setup& setup, const Limits& limits) : impl_(std::make_unique<Impl>()) {
  impl_->offset = setup.probe.offset;
  append_travel(setup, impl_->limits);
  append_head(setup, setup.probe.travel_height, ForMoves::yes, *limits.sweeps(), impl_->limits);
}

MoveLimits::~MoveLimits() = default;
MoveLimits::MoveLimits(MoveLimits&&) noexcept = default;
MoveLimits& MoveLimits::operator=(MoveLimits&&) noexcept = default;

bool MoveLimits::blocked(Point from_probe, Point to_probe, MoveStop& stop) const {
  if (!is_position(from_probe) || !is_position(to_probe) || !is_position(impl_->offset)) {
    stop = {impl_->limits.front().info, -kInfinity};
    return true;
  }
  const double length = distance(from_probe, to_probe);
  double least = 0;
  for (const Limit& limit : impl_->limits) {
    const Point shift = limit.at_nozzle ? impl_->offset : Point{};
    const Point from = from_probe - shift;
    // A distance changes by no more than the way that is gone.
    if (limit.field->distance(from) - limit.taken > length) continue;
    const double leeway = to_ticks(limit.field->least_along(from, to_probe - shift) - limit.taken);
    if (leeway >= least) continue;
    least = leeway;
    stop = {limit.info, to_millimetres(leeway)};
  }
  return least < 0;
}

}  // namespace leeway
