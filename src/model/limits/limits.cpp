#include "leeway/limits.h"

#include <algorithm>

#include "geometry/plane/assert.h"
#include "geometry/plane/infinity.h"
#include "geometry/plane/position.h"
#include "model/limits/limit_run.h"
#include "model/setup/door.h"

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

struct Limits::List {
  std::vector<PreparedLimit> limits;
  std::vector<Limit> bed;  // the bed alone, without spot and edge distance
};

namespace {

// What no position can be evaluated with, the offset included.
bool can_be(Point probe, Point offset) { return is_position(probe) && is_position(offset); }

// The finding of what is no position.
// It has the first limit for a reason, as every finding must have one.
Finding off(const PreparedLimit& first) {
  return {-kInfinity, first.most_guard_mm, 0, Verdict::unreachable};
}

Point place(const Limit& limit, Point probe, Point offset) {
  return limit.at_nozzle ? probe - offset : probe;
}

}  // namespace

Limits::Limits(const Setup& setup)
    // Refused before anything is built of it.
    : Limits((require_valid(setup), setup), std::make_shared<SweptSets>()) {}

Limits::Limits(const Setup& setup, std::shared_ptr<SweptSets> swept_sets)
    : offset_(setup.probe.offset), swept_sets_(std::move(swept_sets)) {
  std::vector<Limit> limits;
  // In the order in which ties are decided: of equal limits the first is the reason. Those of the
  // mount bound the offset and no position, and are asked in offsets/.
  for (const LimitGroup group : kLimitGroups) {
    if (!is_of_mount(group)) append_group(group, setup, *swept_sets_, limits);
  }
  auto list = std::make_shared<List>();
  for (Limit& limit : limits) list->limits.push_back(prepare(std::move(limit)));
  append_bed(setup, Point{}, 0, *swept_sets_, list->bed);
  list_ = std::move(list);
}

Limits Limits::at(Point offset) const {
  Limits moved = *this;
  moved.offset_ = offset;
  return moved;
}

Limits Limits::with(const Setup& changed) const {
  require_valid_trial(changed);
  return {changed, swept_sets_->for_change()};
}

std::size_t Limits::size() const { return list_->limits.size(); }
const LimitInfo& Limits::info(std::size_t limit) const { return list_->limits[limit].limit.info; }

LimitReading Limits::reading(std::size_t limit, Point probe) const {
  const PreparedLimit& prepared = list_->limits[limit];
  if (!can_be(probe, offset_)) return {-kInfinity, prepared.most_guard_mm};
  const Ticks ticks = read(prepared, place(prepared.limit, probe, offset_));
  return {to_millimetres(ticks.leeway), to_millimetres(ticks.guard)};
}

Finding Limits::evaluate(Point probe) const {
  if (!can_be(probe, offset_)) return off(list_->limits.front());
  Least least;
  for (std::uint32_t i = 0; i < list_->limits.size(); ++i) {
    const PreparedLimit& prepared = list_->limits[i];
    least.take(i, read(prepared, place(prepared.limit, probe, offset_)));
  }
  const std::uint32_t reason = least.leeway < 0 ? least.by_leeway : least.by_after_guard;
  const PreparedLimit& prepared = list_->limits[reason];
  return conclude(prepared, reason, least.leeway, least.after_guard,
                  place(prepared.limit, probe, offset_));
}

void Limits::evaluate(std::span<const Point> probes, std::span<Finding> findings) const {
  LEEWAY_ASSERT(findings.size() == probes.size());
  // A block can't tell what is no position. Then each is asked by itself.
  if (!is_position(offset_) || !std::all_of(probes.begin(), probes.end(), is_position)) {
    std::transform(probes.begin(), probes.end(), findings.begin(),
                   [&](Point probe) { return evaluate(probe); });
    return;
  }
  LimitRun run(list_->limits, offset_);
  for (std::size_t at = 0; at < probes.size(); at += LimitRun::kMost) {
    const std::size_t count = std::min(LimitRun::kMost, probes.size() - at);
    run.evaluate(probes.subspan(at, count), findings.subspan(at, count));
  }
}

double Limits::least_leeway(Point probe) const {
  if (!can_be(probe, offset_)) return -kInfinity;
  double least = Least::kUndecided;
  for (const PreparedLimit& prepared : list_->limits) {
    const Limit& limit = prepared.limit;
    least = std::min(least, limit.field->distance(place(limit, probe, offset_)) - limit.taken);
  }
  return to_millimetres(to_ticks(least));
}

double Limits::on_bed(Point probe) const {
  if (!is_position(probe)) return -kInfinity;
  double least = Least::kUndecided;
  for (const Limit& limit : list_->bed) least = std::min(least, limit.field->distance(probe));
  return to_millimetres(to_ticks(least));
}

}  // namespace leeway
