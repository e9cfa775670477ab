#include "leeway/limits.h"

#include <algorithm>

#include "model/limit_run.h"

namespace leeway {

const char* word(Verdict verdict) {
  switch (verdict) {
    case Verdict::reachable:
      return "reachable";
    case Verdict::marginal:
      return "marginal";
    case Verdict::unreachable:
      break;
  }
  return "unreachable";
}

PreparedLimit prepare(Limit limit) {
  PreparedLimit prepared{std::move(limit)};
  const Spread& spread = prepared.limit.spread;
  const LimitSide side = prepared.limit.info.side;
  const bool straight = side == LimitSide::left || side == LimitSide::right ||
                        side == LimitSide::front || side == LimitSide::back;
  prepared.constant_guard = straight || spread.same_all_round();
  prepared.most_guard =
      to_ticks(straight ? prepared.limit.field->room({}, spread).guard : spread.most());
  prepared.most_guard_mm = to_millimetres(prepared.most_guard);
  return prepared;
}

struct Limits::Impl {
  Point offset;
  std::vector<PreparedLimit> limits;
  std::vector<Limit> plate;  // the plate alone, without spot and edge distance

  Point place(const Limit& limit, Point probe) const {
    return limit.at_nozzle ? probe - offset : probe;
  }
};

Limits::Limits(const Setup& setup) : impl_(std::make_unique<Impl>()) {
  std::vector<Limit> limits;
  append_travel(setup, limits);
  append_bed(setup, setup.probe.spot, setup.probe.edge_distance, limits);
  append_obstacles(setup, limits);
  append_head(setup, setup.probe.trigger_height, ForMoves::no, limits);
  for (Limit& limit : limits) impl_->limits.push_back(prepare(std::move(limit)));
  append_bed(setup, Point{}, 0, impl_->plate);
  impl_->offset = setup.probe.offset;
}

Limits::~Limits() = default;
Limits::Limits(Limits&&) noexcept = default;
Limits& Limits::operator=(Limits&&) noexcept = default;

std::size_t Limits::size() const { return impl_->limits.size(); }
const LimitInfo& Limits::info(std::size_t limit) const { return impl_->limits[limit].limit.info; }

LimitReading Limits::reading(std::size_t limit, Point probe) const {
  const PreparedLimit& prepared = impl_->limits[limit];
  const Ticks ticks = read(prepared, impl_->place(prepared.limit, probe));
  return {to_millimetres(ticks.leeway), to_millimetres(ticks.guard)};
}

Finding Limits::evaluate(Point probe) const {
  Least least;
  for (std::uint32_t i = 0; i < impl_->limits.size(); ++i) {
    const PreparedLimit& prepared = impl_->limits[i];
    least.take(i, read(prepared, impl_->place(prepared.limit, probe)));
  }
  const std::uint32_t reason = least.leeway < 0 ? least.by_leeway : least.by_slack;
  const PreparedLimit& prepared = impl_->limits[reason];
  return conclude(prepared, reason, least.leeway, least.slack, impl_->place(prepared.limit, probe));
}

void Limits::evaluate(std::span<const Point> probes, std::span<Finding> findings) const {
  LimitRun run(impl_->limits, impl_->offset);
  for (std::size_t at = 0; at < probes.size(); at += LimitRun::kMost) {
    const std::size_t count = std::min(LimitRun::kMost, probes.size() - at);
    run.evaluate(probes.subspan(at, count), findings.subspan(at, count));
  }
}

double Limits::least_leeway(Point probe) const {
  double least = Least::kUndecided;
  for (const PreparedLimit& prepared : impl_->limits) {
    const Limit& limit = prepared.limit;
    least = std::min(least, limit.field->distance(impl_->place(limit, probe)) - limit.taken);
  }
  return to_millimetres(to_ticks(least));
}

double Limits::on_plate(Point probe) const {
  double least = Least::kUndecided;
  for (const Limit& limit : impl_->plate) least = std::min(least, limit.field->distance(probe));
  return to_millimetres(to_ticks(least));
}

}  // namespace leeway
