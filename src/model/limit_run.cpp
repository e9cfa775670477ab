#include "model/limit_run.h"

#include <algorithm>
#include <cmath>

#include "geometry/wide.h"

namespace leeway {
namespace {

// More than rounding can take from a bound, in ticks.
constexpr double kDoubt = 16;

// Keeps the least of what is left of the distances, and the limit it came from.
LEEWAY_WIDE void keep_least(std::size_t count, double index, double taken, double guard,
                            const double* __restrict distances, double* __restrict least,
                            double* __restrict by) {
  for (std::size_t i = 0; i < count; ++i) {
    const double here = to_ticks(distances[i] - taken) - guard;
    by[i] = here < least[i] ? index : by[i];
    least[i] = here < least[i] ? here : least[i];
  }
}

// Positions as separate coordinates, moved by `-offset`; and the box around them.
LEEWAY_WIDE void split(const Point* __restrict points, std::size_t count, Point offset,
                       double* __restrict xs, double* __restrict ys) {
  for (std::size_t i = 0; i < count; ++i) {
    xs[i] = points[i].x - offset.x;
    ys[i] = points[i].y - offset.y;
  }
}

LEEWAY_WIDE Box box_around(const double* xs, const double* ys, std::size_t count) {
  Box box{xs[0], xs[0], ys[0], ys[0]};
  for (std::size_t i = 1; i < count; ++i) {
    box.x0 = xs[i] < box.x0 ? xs[i] : box.x0;
    box.x1 = xs[i] > box.x1 ? xs[i] : box.x1;
    box.y0 = ys[i] < box.y0 ? ys[i] : box.y0;
    box.y1 = ys[i] > box.y1 ? ys[i] : box.y1;
  }
  return box;
}

}  // namespace

LimitRun::LimitRun(const std::vector<PreparedLimit>& limits, Point offset)
    : limits_(limits), offset_(offset), chosen_(limits.size()), at_center_(limits.size()) {}

void LimitRun::place(std::span<const Point> probes) {
  count_ = probes.size();
  split(probes.data(), count_, {0, 0}, probe_x_, probe_y_);
  split(probes.data(), count_, offset_, nozzle_x_, nozzle_y_);
  const Box box = box_around(probe_x_, probe_y_, count_);
  center_ = {(box.x0 + box.x1) / 2, (box.y0 + box.y1) / 2};
  reach_ = std::sqrt(box.width() * box.width() + box.depth() * box.depth()) / 2;
}

// The limits that can be the reason for some position of the run. Every leeway changes by at most
// 1 mm per mm, so that the one in the middle bounds all others.
void LimitRun::choose() {
  const double reach = reach_ * kTicksPerMillimetre + kDoubt;
  double most_leeway = Least::kUndecided;
  double most_slack = Least::kUndecided;
  double least_of_all = Least::kUndecided;
  for (std::size_t i = 0; i < limits_.size(); ++i) {
    const Limit& limit = limits_[i].limit;
    const Point at = limit.at_nozzle ? center_ - offset_ : center_;
    at_center_[i] = to_ticks(limit.field->distance(at) - limit.taken);
    most_leeway = std::min(most_leeway, at_center_[i] + reach);
    most_slack = std::min(most_slack, at_center_[i] + reach - limits_[i].least_guard);
    least_of_all = std::min(least_of_all, at_center_[i] - reach);
  }
  some_may_fail_ = least_of_all < 0;
  some_may_pass_ = most_leeway >= 0;
  chosen_count_ = 0;
  for (std::uint32_t i = 0; i < limits_.size(); ++i) {
    const double least = at_center_[i] - reach;
    const bool least_leeway = least <= most_leeway && least < 0;
    const bool least_slack = least - limits_[i].most_guard <= most_slack && some_may_pass_;
    if (least_leeway || least_slack) chosen_[chosen_count_++] = i;
  }
}

void LimitRun::take(std::uint32_t index) {
  const PreparedLimit& prepared = limits_[index];
  const Limit& limit = prepared.limit;
  double distances[kMost];
  limit.field->distances(limit.at_nozzle ? nozzle_x_ : probe_x_,
                         limit.at_nozzle ? nozzle_y_ : probe_y_, distances, count_);
  if (some_may_fail_) {
    keep_least(count_, index, limit.taken, 0, distances, leeway_, by_leeway_);
  }
  if (some_may_pass_) {
    keep_least(count_, index, limit.taken, prepared.most_guard, distances, slack_, by_slack_);
  }
}

void LimitRun::take_guarded(std::uint32_t index) {
  const PreparedLimit& prepared = limits_[index];
  for (std::size_t i = 0; i < count_; ++i) {
    const Ticks ticks = read(prepared, position(prepared.limit, i));
    if (ticks.leeway < leeway_[i]) {
      leeway_[i] = ticks.leeway;
      by_leeway_[i] = index;
    }
    if (ticks.leeway - ticks.guard < slack_[i]) {
      slack_[i] = ticks.leeway - ticks.guard;
      by_slack_[i] = index;
    }
  }
}

Point LimitRun::position(const Limit& limit, std::size_t i) const {
  return limit.at_nozzle ? Point{nozzle_x_[i], nozzle_y_[i]} : Point{probe_x_[i], probe_y_[i]};
}

void LimitRun::evaluate(std::span<const Point> probes, std::span<Finding> findings) {
  place(probes);
  choose();
  std::fill_n(leeway_, count_, Least::kUndecided);
  std::fill_n(slack_, count_, Least::kUndecided);
  for (std::size_t c = 0; c < chosen_count_; ++c) {
    if (limits_[chosen_[c]].constant_guard) {
      take(chosen_[c]);
    } else {
      take_guarded(chosen_[c]);
    }
  }
  for (std::size_t i = 0; i < count_; ++i) {
    const bool fails = leeway_[i] < 0;
    const auto reason = static_cast<std::uint32_t>(fails ? by_leeway_[i] : by_slack_[i]);
    const PreparedLimit& prepared = limits_[reason];
    findings[i] = conclude(prepared, reason, leeway_[i], slack_[i], position(prepared.limit, i));
  }
}

}  // namespace leeway
