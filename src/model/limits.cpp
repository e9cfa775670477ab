#include "leeway/limits.h"

#include <algorithm>

#include "model/choice_grid.h"
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
  const LimitSide side = limit.info.side;
  const bool straight = side == LimitSide::left || side == LimitSide::right ||
                        side == LimitSide::front || side == LimitSide::back;
  PreparedLimit prepared{std::move(limit)};
  const Spread& spread = prepared.limit.spread;
  prepared.constant_guard = straight || spread.same_all_round();
  if (straight) {
    prepared.most_guard = to_ticks(prepared.limit.field->room({}, spread).guard);
    prepared.least_guard = prepared.most_guard;
  } else {
    prepared.least_guard = to_ticks(spread.least());
    prepared.most_guard = to_ticks(spread.most());
  }
  prepared.most_guard_mm = to_millimetres(prepared.most_guard);
  return prepared;
}

namespace {

// Whether neighbours in the order given mostly lie in one cell, as those of a lattice do: then
// sorting costs more than it saves. Judged by the first few thousand.
bool lies_in_runs(const ChoiceGrid& grid, std::span<const Point> probes) {
  constexpr std::size_t kSample = 4096;
  constexpr std::size_t kLongRun = 6;
  const std::size_t count = std::min(kSample, probes.size());
  std::size_t runs = 1;
  for (std::size_t i = 1; i < count; ++i) {
    runs += grid.index(probes[i]) != grid.index(probes[i - 1]);
  }
  return count >= kLongRun * runs;
}

// Positions of one cell together, whatever their order: full runs are what makes them cheap.
void evaluate_by_cells(ChoiceGrid& grid, LimitRun& run, std::span<const Point> probes,
                       std::span<Finding> findings) {
  // A counting sort of the positions' indices by cell.
  std::vector<std::uint32_t> cell_of(probes.size());
  std::vector<std::uint32_t> begin(grid.size() + 1, 0);
  for (std::size_t i = 0; i < probes.size(); ++i) {
    const std::size_t cell = grid.index(probes[i]);
    cell_of[i] = static_cast<std::uint32_t>(cell);
    ++begin[cell + 1];
  }
  for (std::size_t c = 0; c < grid.size(); ++c) begin[c + 1] += begin[c];
  std::vector<std::uint32_t> order(probes.size());
  std::vector<std::uint32_t> next(begin.begin(), begin.end() - 1);
  for (std::size_t i = 0; i < probes.size(); ++i) {
    order[next[cell_of[i]]++] = static_cast<std::uint32_t>(i);
  }
  Point some[LimitRun::kMost];
  Finding found[LimitRun::kMost];
  for (std::size_t c = 0; c < grid.size(); ++c) {
    for (std::size_t at = begin[c]; at < begin[c + 1]; at += LimitRun::kMost) {
      const std::size_t count = std::min<std::size_t>(LimitRun::kMost, begin[c + 1] - at);
      for (std::size_t i = 0; i < count; ++i) some[i] = probes[order[at + i]];
      run.evaluate({some, count}, {found, count}, grid.cell(c).choice);
      for (std::size_t i = 0; i < count; ++i) findings[order[at + i]] = found[i];
    }
  }
}

}  // namespace

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
  if (probes.size() < ChoiceGrid::kWorthwhile) {
    for (std::size_t at = 0; at < probes.size(); at += LimitRun::kMost) {
      const std::size_t count = std::min(LimitRun::kMost, probes.size() - at);
      run.evaluate(probes.subspan(at, count), findings.subspan(at, count));
    }
    return;
  }
  ChoiceGrid grid(impl_->limits, impl_->offset, probes);
  if (!lies_in_runs(grid, probes)) {
    evaluate_by_cells(grid, run, probes, findings);
    return;
  }
  for (std::size_t at = 0; at < probes.size();) {
    const ChoiceGrid::Cell& cell = grid.cell(probes[at]);
    const std::size_t most = std::min(probes.size(), at + LimitRun::kMost);
    std::size_t end = at + 1;
    while (end < most && cell.holds(probes[end])) ++end;
    run.evaluate(probes.subspan(at, end - at), findings.subspan(at, end - at), cell.choice);
    at = end;
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
