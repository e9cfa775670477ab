#pragma once
// Where the rows of a mesh may lie, from the regions' polygons: never too few places.

#include <unordered_map>

#include "geometry/areas/slices.h"
#include "tasks/fit/fit_mesh.h"

namespace leeway {

// The y that rows may have, by which row it is. All the same where no point may be left out.
struct GoodRows {
  Intervals inner;
  Intervals outer;   // front and back
  Intervals middle;  // the middle one, or the middle two
  // Where no move along a side can pass. The head goes on to the next row along the right side and
  // along the left one by turns.
  Intervals blocked_right;
  Intervals blocked_left;

  // Row `i` of `rows`. Of two rows each is all of these, and `outer` holds what they share.
  const Intervals& of(int i, int rows) const {
    if (i == 0 || i == rows - 1) return outer;
    return is_middle(i, rows) ? middle : inner;
  }
  bool empty() const { return inner.empty() || outer.empty() || middle.empty(); }
  bool one_range() const { return inner.size() == 1 && outer == inner && middle == inner; }
  bool sides_clear() const { return blocked_right.empty() && blocked_left.empty(); }
  // Along the side on which the head goes on from row `i`.
  const Intervals& blocked_after(int i) const { return i % 2 == 0 ? blocked_right : blocked_left; }
};

class RowRanges {
 public:
  // REQUIRES: the problem has fronts and backs.
  explicit RowRanges(const FitProblem& problem);

  // What the rows of any mesh with such sides must be among, or (inside) its front and back.
  GoodRows over(Interval lefts, Interval rights);

  // Whether all rows of a mesh from `front` to `back` are good.
  bool hold(double front, double back, const GoodRows& good) const;

  // Whether any mesh with such ends might have good rows.
  bool may_hold(Interval fronts, Interval backs, const GoodRows& good) const;

  // Where the front may be so that all rows of a mesh of this height are good.
  Intervals fronts_of(double height, const GoodRows& good) const;

 private:
  bool rows_may_hold(Interval fronts, Interval backs, const GoodRows& good) const;
  bool sides_may_hold(Interval fronts, Interval backs, const GoodRows& good) const;
  Intervals fronts_of_rows(double height, const GoodRows& good) const;
  GoodRows with_good_points(Interval lefts, Interval rights);
  Intervals good_over(double x0, double x1);
  Intervals make_good_over(double x0, double x1) const;
  Intervals kept_over(double x0, double x1) const;

  const FitProblem& problem_;
  Slices reachable_;
  Slices bed_;
  Interval ends_;                                // of all fronts and backs
  std::unordered_map<double, Intervals> known_;  // good_over of a single x
};

// Multiples of a step are rounded to 1e-6 mm, sums of them need not be.
inline constexpr double kSame = 2e-6;

}  // namespace leeway
