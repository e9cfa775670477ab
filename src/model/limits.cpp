#include "leeway/limits.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

#include "model/limit_list.h"
#include "model/ticks.h"

namespace leeway {
namespace {

constexpr double kInfinity = std::numeric_limits<double>::infinity();

// Positions are evaluated in runs of this many. A limit that cannot decide anything within a run
// is left out for the whole run, which is what makes a lattice cheap.
constexpr std::size_t kRun = 64;

// More than rounding can take from a bound in ticks.
constexpr double kDoubt = 16;

// A limit with what never changes about it.
struct Prepared {
  Limit limit;
  bool constant_guard = false;
  double least_guard = 0;  // ticks
  double most_guard = 0;
};

Prepared prepare(Limit limit) {
  const bool sided = limit.info.side != LimitSide::none && limit.info.side != LimitSide::rim &&
                     limit.info.side != LimitSide::edge;
  Prepared prepared{std::move(limit)};
  const Spread& spread = prepared.limit.spread;
  prepared.constant_guard = sided || spread.same_all_round();
  if (sided) {
    const double guard = to_ticks(prepared.limit.field->room({}, spread).guard);
    prepared.least_guard = prepared.most_guard = guard;
  } else {
    prepared.least_guard = to_ticks(spread.least());
    prepared.most_guard = to_ticks(spread.most());
  }
  return prepared;
}

// In ticks.
struct Ticks {
  double leeway = 0;
  double guard = 0;
};

Ticks read(const Prepared& prepared, Point at) {
  const Limit& limit = prepared.limit;
  if (prepared.constant_guard) {
    return {to_ticks(limit.field->distance(at) - limit.taken), prepared.most_guard};
  }
  const Room room = limit.field->room(at, limit.spread);
  return {to_ticks(room.distance - limit.taken), to_ticks(room.guard)};
}

// The least leeway, and the least leeway minus guard, met so far at one position.
struct Least {
  double leeway = kInfinity;
  double slack = kInfinity;
  std::uint32_t by_leeway = 0;
  std::uint32_t by_slack = 0;

  void take(std::uint32_t limit, const Ticks& ticks) {
    if (ticks.leeway < leeway) {
      leeway = ticks.leeway;
      by_leeway = limit;
    }
    if (ticks.leeway - ticks.guard < slack) {
      slack = ticks.leeway - ticks.guard;
      by_slack = limit;
    }
  }
};

// A run of positions in the layout that vectorizes.
struct Run {
  std::size_t count = 0;
  std::array<double, kRun> probe_x, probe_y, nozzle_x, nozzle_y;
  std::array<double, kRun> leeway, slack, by_leeway, by_slack;

  void start(std::span<const Point> probes, Point offset) {
    count = probes.size();
    for (std::size_t i = 0; i < count; ++i) {
      probe_x[i] = probes[i].x;
      probe_y[i] = probes[i].y;
      nozzle_x[i] = probes[i].x - offset.x;
      nozzle_y[i] = probes[i].y - offset.y;
      leeway[i] = slack[i] = kInfinity;
      by_leeway[i] = by_slack[i] = 0;
    }
  }

  void take(std::uint32_t index, const Prepared& prepared) {
    std::array<double, kRun> values;
    std::array<double, kRun> guards;
    const Limit& limit = prepared.limit;
    const auto& xs = limit.at_nozzle ? nozzle_x : probe_x;
    const auto& ys = limit.at_nozzle ? nozzle_y : probe_y;
    if (prepared.constant_guard) {
      limit.field->distances(xs.data(), ys.data(), values.data(), count);
      take_constant(index, limit.taken, prepared.most_guard, values);
      return;
    }
    for (std::size_t i = 0; i < count; ++i) {
      const Ticks ticks = read(prepared, {xs[i], ys[i]});
      values[i] = ticks.leeway;
      guards[i] = ticks.guard;
    }
    take_each(index, values, guards);
  }

 private:
  void take_constant(double index, double taken, double guard,
                     const std::array<double, kRun>& distances) {
    for (std::size_t i = 0; i < count; ++i) {
      const double here = to_ticks(distances[i] - taken);
      by_leeway[i] = here < leeway[i] ? index : by_leeway[i];
      leeway[i] = here < leeway[i] ? here : leeway[i];
      by_slack[i] = here - guard < slack[i] ? index : by_slack[i];
      slack[i] = here - guard < slack[i] ? here - guard : slack[i];
    }
  }
  void take_each(double index, const std::array<double, kRun>& leeways,
                 const std::array<double, kRun>& guards) {
    for (std::size_t i = 0; i < count; ++i) {
      const double left = leeways[i] - guards[i];
      by_leeway[i] = leeways[i] < leeway[i] ? index : by_leeway[i];
      leeway[i] = leeways[i] < leeway[i] ? leeways[i] : leeway[i];
      by_slack[i] = left < slack[i] ? index : by_slack[i];
      slack[i] = left < slack[i] ? left : slack[i];
    }
  }
};

struct Disk {
  Point center;
  double radius = 0;
};

Disk around(std::span<const Point> points) {
  double x0 = kInfinity;
  double x1 = -kInfinity;
  double y0 = kInfinity;
  double y1 = -kInfinity;
  for (Point p : points) {
    x0 = std::min(x0, p.x);
    x1 = std::max(x1, p.x);
    y0 = std::min(y0, p.y);
    y1 = std::max(y1, p.y);
  }
  return {{(x0 + x1) / 2, (y0 + y1) / 2}, std::hypot(x1 - x0, y1 - y0) / 2};
}

}  // namespace

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

struct Limits::Impl {
  Point offset;
  std::vector<Prepared> limits;
  std::vector<Limit> plate;  // the plate alone, without spot and edge distance

  Point place(const Limit& limit, Point probe) const {
    return limit.at_nozzle ? probe - offset : probe;
  }

  Finding conclude(const Least& least, Point probe) const {
    Finding finding;
    const bool unreachable = least.leeway < 0;
    finding.limit = unreachable ? least.by_leeway : least.by_slack;
    finding.verdict = unreachable       ? Verdict::unreachable
                      : least.slack < 0 ? Verdict::marginal
                                        : Verdict::reachable;
    const Prepared& prepared = limits[finding.limit];
    const double guard = prepared.constant_guard
                             ? prepared.most_guard
                             : read(prepared, place(prepared.limit, probe)).guard;
    finding.guard = to_millimetres(guard);
    finding.leeway = to_millimetres(unreachable ? least.leeway : least.slack + guard);
    return finding;
  }

  Finding evaluate_one(Point probe) const {
    Least least;
    for (std::uint32_t i = 0; i < limits.size(); ++i) {
      least.take(i, read(limits[i], place(limits[i].limit, probe)));
    }
    return conclude(least, probe);
  }

  // The limits that can be the reason for some position of the run. Every leeway changes by at
  // most 1 mm per mm, so that the one in the middle bounds all others.
  std::size_t candidates(const Disk& disk, std::vector<std::uint32_t>& chosen,
                         std::vector<double>& leeways) const {
    const double reach = disk.radius * kTicksPerMillimetre + kDoubt;
    double most_leeway = kInfinity;
    double most_slack = kInfinity;
    for (std::size_t i = 0; i < limits.size(); ++i) {
      const Limit& limit = limits[i].limit;
      leeways[i] = to_ticks(limit.field->distance(place(limit, disk.center)) - limit.taken);
      most_leeway = std::min(most_leeway, leeways[i] + reach);
      most_slack = std::min(most_slack, leeways[i] + reach - limits[i].least_guard);
    }
    std::size_t count = 0;
    for (std::uint32_t i = 0; i < limits.size(); ++i) {
      const double least = leeways[i] - reach;
      const bool least_leeway = least <= most_leeway && least < 0;
      const bool least_slack = least - limits[i].most_guard <= most_slack && most_leeway >= 0;
      if (least_leeway || least_slack) chosen[count++] = i;
    }
    return count;
  }

  void evaluate_run(std::span<const Point> probes, std::span<Finding> findings, Run& run,
                    std::vector<std::uint32_t>& chosen, std::vector<double>& leeways) const {
    const std::size_t count = candidates(around(probes), chosen, leeways);
    run.start(probes, offset);
    for (std::size_t c = 0; c < count; ++c) run.take(chosen[c], limits[chosen[c]]);
    for (std::size_t i = 0; i < probes.size(); ++i) {
      const Least least{run.leeway[i], run.slack[i], static_cast<std::uint32_t>(run.by_leeway[i]),
                        static_cast<std::uint32_t>(run.by_slack[i])};
      findings[i] = conclude(least, probes[i]);
    }
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
  const Prepared& prepared = impl_->limits[limit];
  const Ticks ticks = read(prepared, impl_->place(prepared.limit, probe));
  return {to_millimetres(ticks.leeway), to_millimetres(ticks.guard)};
}

Finding Limits::evaluate(Point probe) const { return impl_->evaluate_one(probe); }

void Limits::evaluate(std::span<const Point> probes, std::span<Finding> findings) const {
  Run run;
  std::vector<std::uint32_t> chosen(impl_->limits.size());
  std::vector<double> leeways(impl_->limits.size());
  for (std::size_t at = 0; at < probes.size(); at += kRun) {
    const std::size_t count = std::min(kRun, probes.size() - at);
    impl_->evaluate_run(probes.subspan(at, count), findings.subspan(at, count), run, chosen,
                        leeways);
  }
}

double Limits::on_plate(Point probe) const {
  double least = kInfinity;
  for (const Limit& limit : impl_->plate) least = std::min(least, limit.field->distance(probe));
  return to_millimetres(to_ticks(least));
}

}  // namespace leeway
