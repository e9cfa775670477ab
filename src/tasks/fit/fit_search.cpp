#include "tasks/fit/fit_search.h"

#include <algorithm>
#include <cmath>
#include <queue>
#include <unordered_map>

#include "geometry/areas/area_sums.h"
#include "geometry/areas/slices.h"
#include "leeway/setup.h"
#include "tasks/fit/fit_mesh.h"

namespace leeway {
namespace {

constexpr double kUnbounded = std::numeric_limits<double>::infinity();

// An upper bound of what better_than compares, for a set of meshes.
struct Bound {
  double area = 0;
  double least_leeway = kUnbounded;
  double off_centre = 0;  // a lower one

  bool may_beat(const std::optional<FoundMesh>& best) const {
    if (!best || area > best->area) return true;
    if (area < best->area) return false;
    if (least_leeway != best->least_leeway) return least_leeway > best->least_leeway;
    return off_centre < best->off_centre;
  }
  bool operator<(const Bound& other) const {
    if (area != other.area) return area < other.area;
    if (least_leeway != other.least_leeway) return least_leeway < other.least_leeway;
    return off_centre > other.off_centre;
  }
};

// The limits that look along one axis only: they bound what a side can have from the side alone.
class SideRoom {
 public:
  SideRoom(const Limits& limits, LimitSide low, LimitSide high) : limits_(limits) {
    for (std::size_t i = 0; i < limits.size(); ++i) {
      if (limits.info(i).side == low) low_.push_back(i);
      if (limits.info(i).side == high) high_.push_back(i);
    }
  }

  // The most that a side between two places can have: room to the low limits grows with the
  // coordinate, room to the high ones falls.
  double most(Point low_end, Point high_end) const {
    return std::min(least(low_, high_end), least(high_, low_end));
  }

 private:
  double least(const std::vector<std::size_t>& which, Point at) const {
    double room = kUnbounded;
    for (const std::size_t i : which) room = std::min(room, limits_.reading(i, at).leeway);
    return room;
  }

  const Limits& limits_;
  std::vector<std::size_t> low_;
  std::vector<std::size_t> high_;
};

// Left and right sides taken together: indices into the choices, ends included.
struct SideBlock {
  std::size_t left0 = 0, left1 = 0, right0 = 0, right1 = 0;
  Bound bound;

  bool single() const { return left0 == left1 && right0 == right1; }
  bool operator<(const SideBlock& other) const { return bound < other.bound; }
};

// The y that rows may have, by which row it is. All the same where no point may be left out.
struct GoodRows {
  Intervals inner;
  Intervals outer;   // front and back
  Intervals middle;  // the middle one, or the middle two

  // Row `i` of `rows`. Of two rows each is all of these, and `outer` holds what they share.
  const Intervals& of(int i, int rows) const {
    if (i == 0 || i == rows - 1) return outer;
    return is_middle(i, rows) ? middle : inner;
  }
  bool empty() const { return inner.empty() || outer.empty() || middle.empty(); }
  bool one_range() const { return inner.size() == 1 && outer == inner && middle == inner; }
};

class MeshSearch {
 public:
  explicit MeshSearch(const FitProblem& problem)
      : problem_(problem),
        guarded_(problem.regions->get(RegionKind::guarded)),
        plate_(problem.regions->get(RegionKind::bed)),
        ys_(all_ys(problem)),
        sums_(problem.regions->get(RegionKind::printable), ys_),
        x_room_(*problem.limits, LimitSide::left, LimitSide::right) {
    const SideRoom y_room(*problem.limits, LimitSide::front, LimitSide::back);
    for (const double y : ys_) y_most_.push_back(y_room.most({0, y}, {0, y}));
    if (const auto box = bounds(problem.regions->get(RegionKind::printable))) printable_ = *box;
    for (const double y : problem.fronts) fronts_.push_back(index_of(y));
    for (const double y : problem.backs) backs_.push_back(index_of(y));
  }

  std::optional<FoundMesh> run() {
    if (problem_.lefts.empty() || problem_.rights.empty() || fronts_.empty() || backs_.empty()) {
      return std::nullopt;
    }
    push({0, problem_.lefts.size() - 1, 0, problem_.rights.size() - 1, {}});
    while (!blocks_.empty()) {
      const SideBlock block = blocks_.top();
      blocks_.pop();
      if (problem_.breathe) problem_.breathe();
      if (!block.bound.may_beat(best_)) break;
      if (block.single()) {
        look_into(block);
      } else {
        split(block);
      }
    }
    return best_;
  }

 private:
  static std::vector<double> all_ys(const FitProblem& problem) {
    std::vector<double> ys = problem.fronts;
    ys.insert(ys.end(), problem.backs.begin(), problem.backs.end());
    std::sort(ys.begin(), ys.end());
    ys.erase(std::unique(ys.begin(), ys.end()), ys.end());
    return ys;
  }

  std::size_t index_of(double y) const {
    return static_cast<std::size_t>(std::lower_bound(ys_.begin(), ys_.end(), y) - ys_.begin());
  }

  void split(const SideBlock& block) {
    SideBlock low = block;
    SideBlock high = block;
    if (block.left1 - block.left0 >= block.right1 - block.right0) {
      low.left1 = block.left0 + (block.left1 - block.left0) / 2;
      high.left0 = low.left1 + 1;
    } else {
      low.right1 = block.right0 + (block.right1 - block.right0) / 2;
      high.right0 = low.right1 + 1;
    }
    push(low);
    push(high);
  }

  void push(SideBlock block) {
    const double outer_left = problem_.lefts[block.left0];
    const double inner_left = problem_.lefts[block.left1];
    const double inner_right = problem_.rights[block.right0];
    const double outer_right = problem_.rights[block.right1];
    if (outer_left >= outer_right) return;
    block.bound.least_leeway = std::min(x_room_.most({outer_left, 0}, {inner_left, 0}),
                                        x_room_.most({inner_right, 0}, {outer_right, 0}));
    const double middle0 = (outer_left + inner_right) / 2;
    const double middle1 = (inner_left + outer_right) / 2;
    block.bound.off_centre =
        to_millionths(std::max({0.0, middle0 - problem_.centre.x, problem_.centre.x - middle1}));
    block.bound.area = kUnbounded;
    const GoodRows good = good_rows(block);
    if (good.empty()) return;
    block.bound.area = most_area(block, good);
    if (block.bound.area >= 0 && block.bound.may_beat(best_)) blocks_.push(block);
  }

  // What the rows of any mesh of the block must be among (points), or its front and back (inside).
  GoodRows good_rows(const SideBlock& block) {
    const double left0 = problem_.lefts[block.left0];
    const double left1 = problem_.lefts[block.left1];
    const double right0 = problem_.rights[block.right0];
    const double right1 = problem_.rights[block.right1];
    if (problem_.inside) {
      const Intervals good =
          left1 < right0 ? guarded_.throughout(left1, right0) : guarded_.somewhere(left0, right1);
      return {good, good, good};
    }
    const int fewest = problem_.columns.over(std::max(right0 - left1, 0.0));
    const int most = problem_.columns.over(right1 - left0);
    Intervals good = good_over(left0, left1);
    good = intersection(good, good_over(right0, right1));
    const auto x_of = [&](int i) {
      return Interval{lattice_point({left0, right0, 0, 0}, most, 2, i, 0).x,
                      lattice_point({left1, right1, 0, 0}, most, 2, i, 0).x};
    };
    if (fewest == most) {
      for (int i = 1; i + 1 < most && !good.empty(); ++i) {
        good = intersection(good, good_over(x_of(i).low, x_of(i).high));
      }
    }
    GoodRows rows{good, good, good};
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
  Intervals good_over(double x0, double x1) {
    if (x0 != x1) return make_good_over(x0, x1);
    const auto [at, is_new] = columns_.try_emplace(x0);
    if (is_new) at->second = make_good_over(x0, x0);
    return at->second;
  }

  Intervals make_good_over(double x0, double x1) const {
    Intervals good = kept_over(x0, x1);
    if (!problem_.skip_outside_bed) return good;
    const double more = problem_.shortfall;
    const Intervals on = plate_.throughout(x0 - more, x1 + more);
    return united(std::move(good), widened(complement(on, ys_.front() - 1, ys_.back() + 1), more));
  }

  // The y at which such a point may be reachable.
  Intervals kept_over(double x0, double x1) const {
    const double more = problem_.shortfall;
    return widened(guarded_.somewhere(x0 - more, x1 + more), more);
  }

  const std::vector<double>& sums_at(double x) {
    const auto [at, is_new] = sums_at_.try_emplace(x);
    if (is_new) at->second = sums_.left_of(x);
    return at->second;
  }

  // Calls visit(front, back, area) for every choice whose rows are good, unless the largest area
  // that is left cannot reach `least_area()`. Tall ones come first.
  template <typename LeastArea, typename Visit>
  void for_rows(double left, double right, const GoodRows& good, const LeastArea& least_area,
                const Visit& visit) {
    const std::vector<double>& to_left = sums_at(left);
    const std::vector<double>& to_right = sums_at(right);
    const auto area = [&](std::size_t front, std::size_t back) {
      return to_millionths(to_right[back] - to_left[back] - to_right[front] + to_left[front]);
    };
    const double width =
        std::max(0.0, std::min(right, printable_.x1) - std::max(left, printable_.x0));
    const auto at_most = [&](double height) {
      return to_millionths(width * std::min(height, printable_.depth())) + 1e-6;
    };
    if (fronts_.size() == 1 || backs_.size() == 1) {
      for (const std::size_t front : fronts_) {
        for (const std::size_t back : backs_) {
          if (front >= back || at_most(ys_[back] - ys_[front]) < least_area()) continue;
          if (rows_are_good(ys_[front], ys_[back], good)) visit(front, back, area(front, back));
        }
      }
      return;
    }
    const double low = std::max(good.outer.front().low, ys_.front());
    const double high = std::min(good.outer.back().high, ys_.back());
    if (low >= high) return;
    for (std::size_t tall = steps_between(low, high); tall > 0; --tall) {
      const double height = static_cast<double>(tall) * problem_.step;
      if (at_most(height) < least_area()) return;
      for (const Interval& fronts : fronts_of(height, good)) {
        for (std::size_t front = index_of(fronts.low - kSame);
             front + tall < ys_.size() && ys_[front] <= fronts.high + kSame; ++front) {
          visit(front, front + tall, area(front, front + tall));
        }
      }
    }
  }

  // Multiples of a step are rounded to 1e-6 mm, sums of them need not be.
  static constexpr double kSame = 2e-6;

  std::size_t steps_between(double low, double high) const {
    return std::min(static_cast<std::size_t>((high - low + kSame) / problem_.step), ys_.size() - 1);
  }

  bool rows_are_good(double front, double back, const GoodRows& good) const {
    const auto within = [](double y, const Intervals& in) {
      return std::any_of(in.begin(), in.end(), [y](const Interval& i) {
        return y >= i.low - kSame && y <= i.high + kSame;
      });
    };
    if (problem_.inside) {
      return std::any_of(good.outer.begin(), good.outer.end(),
                         [&](const Interval& i) { return front >= i.low && back <= i.high; });
    }
    const int rows = problem_.rows.over(back - front);
    for (int i = 0; i < rows; ++i) {
      const double y = lattice_point({0, 0, front, back}, 2, rows, 0, i).y;
      if (!within(y, good.of(i, rows))) return false;
    }
    return rows > 2 || (within(front, good.middle) && within(back, good.middle));
  }

  // Where the front may be so that all rows of a mesh of this height are good.
  Intervals fronts_of(double height, const GoodRows& good) const {
    const auto shifted = [](Intervals in, double by) {
      for (Interval& i : in) i = {i.low - by - kSame, i.high - by + kSame};
      return in;
    };
    if (problem_.inside) {
      Intervals out;
      for (const Interval& i : good.outer) {
        if (i.high - height >= i.low - kSame) {
          out.push_back({i.low, std::max(i.low, i.high - height)});
        }
      }
      return out;
    }
    Intervals fronts = intersection(shifted(good.outer, 0), shifted(good.outer, height));
    if (good.one_range()) return fronts;
    const int rows = problem_.rows.over(height);
    for (int i = 1; i + 1 < rows && !fronts.empty(); ++i) {
      fronts = intersection(fronts, shifted(good.of(i, rows), i * height / (rows - 1)));
    }
    if (rows == 2) {
      fronts = intersection(fronts, shifted(good.middle, 0));
      fronts = intersection(fronts, shifted(good.middle, height));
    }
    return fronts;
  }

  // The largest area of any mesh of the block, or more; -1 when it holds none.
  double most_area(const SideBlock& block, const GoodRows& good) {
    double most = -1;
    // What cannot beat the best is of no interest.
    const double floor = best_ ? best_->area : 0;
    for_rows(
        problem_.lefts[block.left0], problem_.rights[block.right1], good,
        [&] { return std::max(most, floor); },
        [&](std::size_t, std::size_t, double area) { most = std::max(most, area); });
    return most;
  }

  // What is known of the points of one column at each of ys_.
  struct Column {
    enum : char { unknown, good, bad };
    std::vector<char> at;
    bool looked = false;
    bool some_good = false;
  };

  bool is_good(Column& column, double x, std::size_t y) const {
    char& known = column.at[y];
    if (known == Column::unknown) {
      const Point p{x, ys_[y]};
      const bool good = (problem_.skip_outside_bed && problem_.limits->on_plate(p) < 0) ||
                        problem_.limits->evaluate(p).verdict == Verdict::reachable;
      known = good ? Column::good : Column::bad;
    }
    return known == Column::good;
  }

  // Whether some point of the column is good at all. Where a column runs along a limit the
  // polygons cannot tell, and all of it may be bad.
  bool has_good(Column& column, double x) const {
    if (!column.looked) {
      column.looked = true;
      // From the middle, where there is most room as a rule.
      const std::size_t middle = ys_.size() / 2;
      for (std::size_t i = 0; i < ys_.size() && !column.some_good; ++i) {
        const std::size_t away = (i + 1) / 2;
        const std::size_t y = i % 2 == 0 ? middle + away : middle - away;
        column.some_good = y < ys_.size() && is_good(column, x, y);
      }
    }
    return column.some_good;
  }

  // Whether one of the points that failed last in meshes like this fails here too.
  bool fails_again(const Box& mesh) {
    const int columns = problem_.columns.over(mesh.width());
    const int rows = problem_.rows.over(mesh.depth());
    const auto at = std::find_if(failed_.begin(), failed_.end(), [&](const LatticePlace& place) {
      if (place.column >= columns || place.row >= rows) return false;
      const Point p = lattice_point(mesh, columns, rows, place.column, place.row);
      if (problem_.skip_outside_bed && problem_.limits->on_plate(p) < 0) return false;
      return problem_.limits->evaluate(p).verdict != Verdict::reachable;
    });
    if (at == failed_.end()) return false;
    std::rotate(failed_.begin(), at, at + 1);
    return true;
  }

  std::optional<FoundMesh> verified(const Box& mesh) {
    if (fails_again(mesh)) return std::nullopt;
    LatticePlace failed;
    std::optional<FoundMesh> found = mesh_over(problem_, mesh, &failed);
    if (!found) {
      constexpr std::size_t kRemembered = 12;
      failed_.insert(failed_.begin(), failed);
      if (failed_.size() > kRemembered) failed_.pop_back();
    }
    return found;
  }

  struct KnownColumn {
    double x = 0;
    Column* column = nullptr;
  };

  // The columns of a mesh, outer ones first; empty when one of them has no good point.
  std::vector<KnownColumn> columns_of(double left, double right) {
    std::vector<KnownColumn> columns;
    const int count = problem_.columns.over(right - left);
    for (const int i : inward_from_ends(count)) {
      const double x = lattice_point({left, right, 0, 0}, count, 2, i, 0).x;
      Column& column = known_[x];
      if (column.at.empty()) column.at.resize(ys_.size(), Column::unknown);
      if (!has_good(column, x)) return {};
      columns.push_back({x, &column});
    }
    return columns;
  }

  void look_into(const SideBlock& block) {
    const double left = problem_.lefts[block.left0];
    const double right = problem_.rights[block.right0];
    if (left >= right) return;
    const GoodRows good = good_rows(block);
    if (good.empty()) return;
    const std::vector<KnownColumn> columns = columns_of(left, right);
    if (columns.empty()) return;
    // The front row and the back row: most of what the polygons let pass by mistake fails here, and
    // many meshes share these points.
    const auto ends_are_good = [&](std::size_t front, std::size_t back) {
      return std::all_of(columns.begin(), columns.end(), [&](const KnownColumn& known) {
        return is_good(*known.column, known.x, front) && is_good(*known.column, known.x, back);
      });
    };
    for_rows(
        left, right, good, [&] { return best_ ? best_->area : 0; },
        [&](std::size_t front, std::size_t back, double area) {
          const Box mesh{left, right, ys_[front], ys_[back]};
          const double most = std::min({block.bound.least_leeway, y_most_[front], y_most_[back]});
          const Bound bound{area, most, off_centre(mesh, problem_.centre)};
          if (!bound.may_beat(best_) || !ends_are_good(front, back)) return;
          std::optional<FoundMesh> found = verified(mesh);
          if (!found) return;
          found->area = area;
          if (!best_ || found->better_than(*best_)) best_ = found;
        });
  }

  const FitProblem& problem_;
  Slices guarded_;
  Slices plate_;
  std::vector<double> ys_;  // of fronts and backs together
  AreaSums sums_;
  SideRoom x_room_;
  std::vector<double> y_most_;  // for each of ys_
  Box printable_{0, 0, 0, 0};
  std::vector<std::size_t> fronts_;  // indices into ys_
  std::vector<std::size_t> backs_;
  std::unordered_map<double, Intervals> columns_;
  std::unordered_map<double, Column> known_;
  std::vector<LatticePlace> failed_;  // the latest first
  std::unordered_map<double, std::vector<double>> sums_at_;
  std::priority_queue<SideBlock> blocks_;
  std::optional<FoundMesh> best_;
};

}  // namespace

std::optional<FoundMesh> best_mesh(const FitProblem& problem) { return MeshSearch(problem).run(); }

}  // namespace leeway
