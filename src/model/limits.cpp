#include "leeway/limits.h"

#include <algorithm>

#include "geometry/plane/parallel.h"
#include "geometry/plane/polygons.h"
#include "model/choice_tree.h"
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
  PreparedLimit prepared{std::move(limit)};
  if (side == LimitSide::left || side == LimitSide::right) prepared.changes = Changes::along_x;
  if (side == LimitSide::front || side == LimitSide::back) prepared.changes = Changes::along_y;
  const bool straight = prepared.changes != Changes::any_way;
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

// Whether neighbours in the order given mostly lie in one leaf, as those of a lattice do: then
// sorting costs more than it saves. Judged by the first few thousand.
bool lies_in_runs(ChoiceTree& tree, std::span<const Point> probes) {
  constexpr std::size_t kSample = 4096;
  constexpr std::size_t kLongRun = 6;
  const std::size_t count = std::min(kSample, probes.size());
  std::size_t runs = 1;
  for (std::size_t i = 1; i < count; ++i) {
    runs += tree.leaf(probes[i]).index != tree.leaf(probes[i - 1]).index;
  }
  return count >= kLongRun * runs;
}

// Makes runs of its own choice.
void evaluate_unchosen(LimitRun& run, std::span<const Point> probes, std::span<Finding> findings) {
  for (std::size_t at = 0; at < probes.size(); at += LimitRun::kMostUnchosen) {
    const std::size_t count = std::min(LimitRun::kMostUnchosen, probes.size() - at);
    run.evaluate(probes.subspan(at, count), findings.subspan(at, count));
  }
}

// Asks for memory that will be wanted soon.
template <typename T>
void fetch(std::span<T> values) {
#if defined(__GNUC__)
  constexpr std::size_t kLine = 64;
  const auto* bytes = reinterpret_cast<const char*>(values.data());
  for (std::size_t at = 0; at < values.size_bytes(); at += kLine) {
    __builtin_prefetch(bytes + at, std::is_const_v<T> ? 0 : 1);
  }
#else
  static_cast<void>(values);
#endif
}

void evaluate_in_order(ChoiceTree& tree, LimitRun& run, std::span<const Point> probes,
                       std::span<Finding> findings) {
  for (std::size_t begin = 0; begin < probes.size(); begin += LimitRun::kMost) {
    const std::size_t size = std::min(LimitRun::kMost, probes.size() - begin);
    run.place(probes.subspan(begin, size));
    const std::size_t next = begin + size;
    const std::size_t ahead = std::min(LimitRun::kMost, probes.size() - next);
    fetch(probes.subspan(next, ahead));
    fetch(findings.subspan(next, ahead));
    std::size_t count = 0;
    for (std::size_t at = 0; at < size; at += count) {
      const ChoiceTree::Stretch& stretch = tree.stretch(probes[begin + at]);
      count = ChoiceTree::run_length(stretch.box, run.xs() + at, run.ys() + at, size - at);
      run.evaluate(at, findings.subspan(begin + at, count), *stretch.choice);
    }
  }
}

// Positions of one leaf together, whatever their order: full runs are what makes them cheap.
void evaluate_by_leaves(ChoiceTree& tree, LimitRun& run, std::span<const Point> probes,
                        std::span<Finding> findings) {
  // A counting sort of the positions' indices by leaf.
  std::vector<const Choice*> choices(ChoiceTree::kIndices, nullptr);
  std::vector<std::uint32_t> leaf_of(probes.size());
  std::vector<std::uint32_t> begin(ChoiceTree::kIndices + 1, 0);
  for (std::size_t i = 0; i < probes.size(); ++i) {
    const ChoiceTree::Leaf& leaf = tree.leaf(probes[i]);
    choices[leaf.index] = &leaf.choice;
    leaf_of[i] = leaf.index;
    ++begin[leaf.index + 1];
  }
  for (std::size_t c = 0; c < choices.size(); ++c) begin[c + 1] += begin[c];
  std::vector<std::uint32_t> order(probes.size());
  std::vector<std::uint32_t> next(begin.begin(), begin.end() - 1);
  for (std::size_t i = 0; i < probes.size(); ++i) {
    order[next[leaf_of[i]]++] = static_cast<std::uint32_t>(i);
  }
  Point some[LimitRun::kMost];
  Finding found[LimitRun::kMost];
  for (std::size_t c = 0; c < choices.size(); ++c) {
    for (std::size_t at = begin[c]; at < begin[c + 1]; at += LimitRun::kMost) {
      const std::size_t count = std::min<std::size_t>(LimitRun::kMost, begin[c + 1] - at);
      for (std::size_t i = 0; i < count; ++i) some[i] = probes[order[at + i]];
      run.place({some, count});
      run.evaluate(0, {found, count}, *choices[c]);
      for (std::size_t i = 0; i < count; ++i) findings[order[at + i]] = found[i];
    }
  }
}

}  // namespace

struct Limits::Impl {
  Point offset;
  std::vector<PreparedLimit> limits;
  Box area;                  // around the plate, where most positions are
  std::vector<Limit> plate;  // the plate alone, without spot and edge distance

  Point place(const Limit& limit, Point probe) const {
    return limit.at_nozzle ? probe - offset : probe;
  }

  void evaluate(std::span<const Point> probes, std::span<Finding> findings) const {
    LimitRun run(limits, offset);
    if (probes.size() < ChoiceTree::kWorthwhile) {
      evaluate_unchosen(run, probes, findings);
      return;
    }
    ChoiceTree tree(limits, offset, area);
    if (lies_in_runs(tree, probes)) {
      evaluate_in_order(tree, run, probes, findings);
    } else {
      evaluate_by_leaves(tree, run, probes, findings);
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
  impl_->area = bounding_box(setup.machine.bed);
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
  // So many are a thread's worth.
  constexpr std::size_t kPart = 100'000;
  const std::size_t parts = std::clamp<std::size_t>(probes.size() / kPart, 1, parallel_parts());
  in_parallel(parts, [&](std::size_t part) {
    const std::size_t begin = probes.size() * part / parts;
    const std::size_t count = probes.size() * (part + 1) / parts - begin;
    impl_->evaluate(probes.subspan(begin, count), findings.subspan(begin, count));
  });
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
