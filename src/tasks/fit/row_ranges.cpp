#include "tasks/fit/row_ranges.h"

#include <algorithm>
#include <cmath>

#include "leeway/setup.h"
#include "tasks/fit/move_ground.h"

namespace leeway {
namespace {

// More lines than these add nothing to a bound that would be worth their time.
int line_stride(int lines) { return std::max(1, lines / 128); }

Intervals moved_down(Intervals in, double by) {
  for (Interval& i : in) i = {i.low - by - kSame, i.high - by + kSame};
  return in;
}

bool meets(const Intervals& in, double low, double high) {
  return std::any_of(in.begin(), in.end(), [&](const Interval& i) {
    return high >= i.low - kSame && low <= i.high + kSame;
  });
}

// The y at which a line may be met with x in [x0, x1].
std::optional<Interval> met_by(const ReachableLine& line, double x0, double x1) {
  if (line.along == Axis::x) {
    if (line.over.low > x1 + kSame || line.over.high < x0 - kSame) return std::nullopt;
    return Interval{line.at, line.at};
  }
  if (line.at > x1 + kSame || line.at < x0 - kSame) return std::nullopt;
  return line.over;
}

// The fronts from which the sides of a mesh of this height can be passed.
Intervals passing(const Intervals& fronts, double height, int rows, const GoodRows& good) {
  if (good.sides_clear() || fronts.empty()) return fronts;
  const double spacing = height / (rows - 1);
  Intervals stopped;
  for (int i = 0; i + 1 < rows; ++i) {
    for (const Interval& blocked : good.blocked_after(i)) {
      const double low = blocked.low - (i + 1) * spacing + kSame;
      const double high = blocked.high - i * spacing - kSame;
      if (low < high) stopped = united(std::move(stopped), {{low, high}});
    }
  }
  return intersection(fronts, complement(stopped, fronts.front().low, fronts.back().high));
}

}  // namespace

RowRanges::RowRanges(const FitProblem& problem)
    : problem_(problem),
      reachable_(problem.regions->get(RegionKind::reachable)),
      bed_(problem.regions->get(RegionKind::bed)),
      ends_{std::min(problem.fronts.front(), problem.backs.front()),
            std::max(problem.fronts.back(), problem.backs.back())} {}

GoodRows RowRanges::over(Interval lefts, Interval rights) {
  GoodRows rows = with_good_points(lefts, rights);
  // Where points may be left out a row need not run from side to side.
  if (problem_.moves == nullptr || problem_.skip_outside_bed || lefts.high >= rights.low) {
    return rows;
  }
  const Intervals clear = problem_.moves->rows_over(lefts.high, rights.low);
  for (Intervals* good : {&rows.inner, &rows.outer, &rows.middle}) {
    *good = intersection(*good, clear);
  }
  rows.blocked_right = problem_.moves->blocked_at(rights.low, rights.high);
  rows.blocked_left = problem_.moves->blocked_at(lefts.low, lefts.high);
  return rows;
}

GoodRows RowRanges::with_good_points(Interval lefts, Interval rights) {
  const auto [left0, left1] = lefts;
  const auto [right0, right1] = rights;
  if (problem_.inside) {
    const Intervals good =
        left1 < right0 ? reachable_.throughout(left1, right0) : reachable_.somewhere(left0, right1);
    return {good, good, good, {}, {}};
  }
  const int fewest = problem_.columns.over(std::max(right0 - left1, 0.0));
  const int most = problem_.columns.over(right1 - left0);
  Intervals good = good_over(left0, left1);
  good = intersection(good, good_over(right0, right1));
  const Box outer{left0, right0, 0, 0};
  const Box inner{left1, right1, 0, 0};
  const auto x_of = [&](int i) {
    return Interval{grid_point(outer, most, 2, i, 0).x, grid_point(inner, most, 2, i, 0).x};
  };
  if (fewest == most) {
    const int stride = line_stride(most);
    for (int i = 1; i + 1 < most && !good.empty(); i += stride) {
      good = intersection(good, good_over(x_of(i).low, x_of(i).high));
    }
  }
  GoodRows rows{good, good, good, {}, {}};
  if (!problem_.skip_outside_bed || good.empty()) return rows;
  rows.middle = intersection(rows.middle, kept_over(left0, left1));
  rows.middle = intersection(rows.middle, kept_over(right0, right1));
  if (fewest == most) {
    for (const int i : {(most - 1) / 2, most / 2}) {
      rows.outer = intersection(rows.outer, kept_over(x_of(i).low, x_of(i).high));
    }
  }
  return rows;
}

// The y at which a point with x in [x0, x1] may be good; never too few.
Intervals RowRanges::good_over(double x0, double x1) {
  if (x0 != x1) return make_good_over(x0, x1);
  constexpr std::size_t kMostKnown = 50'000;
  if (known_.size() >= kMostKnown) known_.clear();
  const auto [at, is_new] = known_.try_emplace(x0);
  if (is_new) at->second = make_good_over(x0, x0);
  return at->second;
}

Intervals RowRanges::make_good_over(double x0, double x1) const {
  Intervals good = kept_over(x0, x1);
  if (!problem_.skip_outside_bed) return good;
  const double more = problem_.shortfall;
  const Intervals on = bed_.throughout(x0 - more, x1 + more);
  return united(std::move(good), widened(complement(on, ends_.low - 1, ends_.high + 1), more));
}

// The y at which such a point may be reachable.
Intervals RowRanges::kept_over(double x0, double x1) const {
  const double more = problem_.shortfall;
  Intervals kept = widened(reachable_.somewhere(x0 - more, x1 + more), more);
  for (const ReachableLine& line : problem_.lines) {
    if (const auto on = met_by(line, x0, x1)) kept = united(std::move(kept), {*on});
  }
  return kept;
}

bool RowRanges::hold(double front, double back, const GoodRows& good) const {
  if (problem_.inside) {
    return std::any_of(good.outer.begin(), good.outer.end(),
                       [&](const Interval& i) { return front >= i.low && back <= i.high; }) &&
           sides_may_hold({front, front}, {back, back}, good);
  }
  return may_hold({front, front}, {back, back}, good);
}

bool RowRanges::may_hold(Interval fronts, Interval backs, const GoodRows& good) const {
  return rows_may_hold(fronts, backs, good) && sides_may_hold(fronts, backs, good);
}

// What all of these meshes have to pass along their sides is not blocked.
bool RowRanges::sides_may_hold(Interval fronts, Interval backs, const GoodRows& good) const {
  if (good.sides_clear()) return true;
  const int fewest = problem_.rows.over(std::max(backs.low - fronts.high, 0.0));
  const int rows = problem_.rows.over(backs.high - fronts.low);
  if (fewest != rows) return true;
  const Box low{0, 0, fronts.low, backs.low};
  const Box high{0, 0, fronts.high, backs.high};
  for (int i = 0; i + 1 < rows; ++i) {
    const Interval all{grid_point(high, 2, rows, 0, i).y, grid_point(low, 2, rows, 0, i + 1).y};
    for (const Interval& blocked : good.blocked_after(i)) {
      if (all.low <= blocked.high - kSame && all.high >= blocked.low + kSame &&
          all.low <= all.high) {
        return false;
      }
    }
  }
  return true;
}

bool RowRanges::rows_may_hold(Interval fronts, Interval backs, const GoodRows& good) const {
  if (problem_.inside) {
    return std::any_of(good.outer.begin(), good.outer.end(), [&](const Interval& i) {
      return fronts.high >= i.low && backs.low <= i.high;
    });
  }
  if (!meets(good.outer, fronts.low, fronts.high) || !meets(good.outer, backs.low, backs.high)) {
    return false;
  }
  const int fewest = problem_.rows.over(std::max(backs.low - fronts.high, 0.0));
  const int rows = problem_.rows.over(backs.high - fronts.low);
  if (fewest != rows) return true;
  if (rows == 2) {
    return meets(good.middle, fronts.low, fronts.high) && meets(good.middle, backs.low, backs.high);
  }
  const Box low{0, 0, fronts.low, backs.low};
  const Box high{0, 0, fronts.high, backs.high};
  const int stride = line_stride(rows);
  for (int i = 1; i + 1 < rows; i += stride) {
    if (!meets(good.of(i, rows), grid_point(low, 2, rows, 0, i).y,
               grid_point(high, 2, rows, 0, i).y)) {
      return false;
    }
  }
  return true;
}

Intervals RowRanges::fronts_of(double height, const GoodRows& good) const {
  return passing(fronts_of_rows(height, good), height, problem_.rows.over(height), good);
}

Intervals RowRanges::fronts_of_rows(double height, const GoodRows& good) const {
  if (problem_.inside) {
    Intervals out;
    for (const Interval& i : good.outer) {
      if (i.high - height >= i.low - kSame) {
        out.push_back({i.low, std::max(i.low, i.high - height)});
      }
    }
    return out;
  }
  Intervals fronts = intersection(moved_down(good.outer, 0), moved_down(good.outer, height));
  if (good.one_range()) return fronts;
  const int rows = problem_.rows.over(height);
  const int stride = line_stride(rows);
  for (int i = 1; i + 1 < rows && !fronts.empty(); i += stride) {
    fronts = intersection(fronts, moved_down(good.of(i, rows), i * height / (rows - 1)));
  }
  if (rows == 2) {
    fronts = intersection(fronts, moved_down(good.middle, 0));
    fronts = intersection(fronts, moved_down(good.middle, height));
  }
  return fronts;
}

}  // namespace leeway
