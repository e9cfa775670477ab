#include "model/choice.h"

#include <algorithm>

namespace leeway {
namespace {

// More than rounding can take from a bound, in ticks.
constexpr double kDoubt = 16;

// By how much the limit's leeway can differ from the one in the middle, in ticks.
double most_change(const PreparedLimit& prepared, const Around& around, double reach) {
  double mm = reach;
  if (prepared.changes == Changes::along_x) mm = around.half_width;
  if (prepared.changes == Changes::along_y) mm = around.half_depth;
  return mm * kTicksPerMillimetre + kDoubt;
}

}  // namespace

std::vector<Candidate> all_of(const std::vector<PreparedLimit>& limits) {
  std::vector<Candidate> all;
  all.reserve(limits.size());
  for (std::uint32_t i = 0; i < limits.size(); ++i) all.push_back({i, limits[i].limit.field.get()});
  return all;
}

void choose(const std::vector<PreparedLimit>& limits, Point offset, const Around& around,
            std::span<const Candidate> from, std::vector<double>& at_middle, Choice& choice) {
  const double reach = around.reach();
  double most_leeway = Least::kUndecided;
  double most_slack = Least::kUndecided;
  double least_of_all = Least::kUndecided;
  at_middle.resize(from.size());
  for (std::size_t i = 0; i < from.size(); ++i) {
    const PreparedLimit& prepared = limits[from[i].limit];
    const Limit& limit = prepared.limit;
    const Point at = limit.at_nozzle ? around.middle - offset : around.middle;
    const double change = most_change(prepared, around, reach);
    at_middle[i] = to_ticks(from[i].distances->distance(at) - limit.taken);
    most_leeway = std::min(most_leeway, at_middle[i] + change);
    most_slack = std::min(most_slack, at_middle[i] + change - prepared.least_guard);
    least_of_all = std::min(least_of_all, at_middle[i] - change);
  }
  choice.some_may_fail = least_of_all < 0;
  choice.some_may_pass = most_leeway >= 0;
  choice.candidates.clear();
  for (std::size_t i = 0; i < from.size(); ++i) {
    const PreparedLimit& prepared = limits[from[i].limit];
    const double least = at_middle[i] - most_change(prepared, around, reach);
    const bool least_leeway = least <= most_leeway && least < 0;
    const bool least_slack = least - prepared.most_guard <= most_slack && choice.some_may_pass;
    if (least_leeway || least_slack) choice.candidates.push_back(from[i]);
  }
}

}  // namespace leeway
