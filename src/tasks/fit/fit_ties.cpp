#include "tasks/fit/fit_ties.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

#include "geometry/plane/assert.h"
#include "leeway/setup.h"
#include "tasks/fit/block_queue.h"

namespace leeway {
namespace {

constexpr double kUnbounded = std::numeric_limits<double>::infinity();

// Which side a range of indices is about.
enum TieSide : std::size_t { kLeft, kRight, kFront, kBack };

struct IndexRange {
  std::size_t low = 0;
  std::size_t high = 0;

  std::size_t size() const { return high - low; }
};

// Meshes taken together, by the ranges of their four sides.
struct TieBlock {
  std::array<IndexRange, 4> sides;   // indices into the choices of each
  double least_leeway = kUnbounded;  // an upper bound
  double off_centre = 0;             // a lower one
  TieSide widest = kLeft;            // which range keeps the bound from being exact

  bool single() const {
    return std::all_of(sides.begin(), sides.end(), [](IndexRange r) { return r.size() == 0; });
  }
  std::size_t size() const {
    std::size_t size = 0;
    for (const IndexRange& range : sides) size += range.size();
    return size;
  }
  bool may_beat(const FoundMesh& best) const {
    if (least_leeway != best.least_leeway) return least_leeway > best.least_leeway;
    return off_centre < best.off_centre;
  }
  bool operator<(const TieBlock& other) const {
    if (least_leeway != other.least_leeway) return least_leeway < other.least_leeway;
    if (off_centre != other.off_centre) return off_centre > other.off_centre;
    // Where all may be as good the smaller one is nearer to an answer.
    if (size() != other.size()) return size() > other.size();
    for (std::size_t i = 0; i < sides.size(); ++i) {
      if (sides[i].low != other.sides[i].low) return sides[i].low > other.sides[i].low;
      if (sides[i].high != other.sides[i].high) return sides[i].high > other.sides[i].high;
    }
    return false;
  }
};

// The limits that look along one axis only: they bound what a side can have from the side alone.
class StraightLimits {
 public:
  explicit StraightLimits(const Limits& limits) : limits_(limits) {
    for (std::size_t i = 0; i < limits.size(); ++i) {
      switch (limits.info(i).side) {
        case LimitSide::left:
          of_[kLeft].push_back(i);
          break;
        case LimitSide::right:
          of_[kRight].push_back(i);
          break;
        case LimitSide::front:
          of_[kFront].push_back(i);
          break;
        case LimitSide::back:
          of_[kBack].push_back(i);
          break;
        default:
          break;
      }
    }
  }

  // The most that any mesh of the ranges can have to these limits.
  double most(const std::array<Interval, 4>& at) const {
    return std::min({least(kLeft, {at[kLeft].high, 0}), least(kRight, {at[kRight].low, 0}),
                     least(kFront, {0, at[kFront].high}), least(kBack, {0, at[kBack].low})});
  }

 private:
  double least(TieSide side, Point at) const {
    double room = kUnbounded;
    for (const std::size_t i : of_[side]) room = std::min(room, limits_.reading(i, at).leeway);
    return room;
  }

  const Limits& limits_;
  std::array<std::vector<std::size_t>, 4> of_;
};

class TieSearch {
 public:
  TieSearch(SearchGround& ground, const FoundMesh& best)
      : ground_(ground), problem_(ground.problem()), straight_(*problem_.limits), best_(best) {
    best_.area = area_of(best_.bounds);
  }

  FoundMesh run(const std::vector<SideBlock>& ties) {
    for (const SideBlock& tie : ties) {
      push({{IndexRange{tie.left0, tie.left1}, IndexRange{tie.right0, tie.right1},
             IndexRange{0, ground_.fronts().size() - 1}, IndexRange{0, ground_.backs().size() - 1}},
            kUnbounded,
            0,
            kLeft});
    }
    while (!blocks_.empty() && worked_ < problem_.most_for_ties) {
      ground_.trim();
      const TieBlock block = blocks_.pop();
      if (!block.may_beat(best_)) continue;
      if (block.single()) {
        look_into(block);
      } else {
        split(block);
      }
    }
    return best_;
  }

 private:
  void work() {
    ++worked_;
    problem_.work();
  }

  double area_of(const Box& mesh) const {
    return to_millionths(area_within(*problem_.printable, mesh));
  }

  double choice(TieSide side, std::size_t i) const {
    switch (side) {
      case kLeft:
        return problem_.lefts[i];
      case kRight:
        return problem_.rights[i];
      case kFront:
        return problem_.fronts[i];
      case kBack:
        break;
    }
    return problem_.backs[i];
  }

  std::array<Interval, 4> places(const TieBlock& block) const {
    std::array<Interval, 4> at;
    for (const TieSide side : {kLeft, kRight, kFront, kBack}) {
      at[side] = {choice(side, block.sides[side].low), choice(side, block.sides[side].high)};
    }
    return at;
  }

  void split(const TieBlock& block) {
    const IndexRange range = block.sides[block.widest];
    const std::size_t middle = range.low + range.size() / 2;
    TieBlock part = block;
    part.sides[block.widest] = {range.low, middle};
    push(part);
    part.sides[block.widest] = {middle + 1, range.high};
    push(part);
  }

  void push(TieBlock block) {
    work();
    const std::array<Interval, 4> at = places(block);
    if (at[kLeft].low >= at[kRight].high || at[kFront].low >= at[kBack].high) return;
    const std::size_t front = ground_.fronts()[block.sides[kFront].low];
    const std::size_t back = ground_.backs()[block.sides[kBack].high];
    const double most = ground_.strip(at[kLeft].low, at[kRight].high).area(front, back);
    if (most < best_.area - kSameArea) return;
    block.off_centre = least_off_centre(at);
    block.least_leeway = straight_.most(at);
    if (!block.may_beat(best_)) return;
    const GoodRows good = ground_.rows().over(at[kLeft], at[kRight]);
    if (good.empty() || !ground_.rows().may_hold(at[kFront], at[kBack], good)) return;
    bound_by_points(block, at);
    if (block.least_leeway >= 0 && block.may_beat(best_)) blocks_.push(block);
  }

  double least_off_centre(const std::array<Interval, 4>& at) const {
    const auto off = [](double low, double high, double centre) {
      return std::max({0.0, low - centre, centre - high});
    };
    return to_millionths(
        std::hypot(off((at[kLeft].low + at[kRight].low) / 2, (at[kLeft].high + at[kRight].high) / 2,
                       problem_.centre.x),
                   off((at[kFront].low + at[kBack].low) / 2, (at[kFront].high + at[kBack].high) / 2,
                       problem_.centre.y)));
  }

  // A leeway changes by no more than 1 mm per mm: at the middle of where a point of the mesh may
  // be it tells what the point can have at most.
  void bound_by_points(TieBlock& block, const std::array<Interval, 4>& at) {
    TieSide limiting = longest(block, {1, 1, 1, 1});
    double reach = 0;
    for (const LatticePlace& place : places_of(at)) {
      const Box low{at[kLeft].low, at[kRight].low, at[kFront].low, at[kBack].low};
      const Box high{at[kLeft].high, at[kRight].high, at[kFront].high, at[kBack].high};
      const Point from = grid_point(low, columns_, rows_, place.column, place.row);
      const Point to = grid_point(high, columns_, rows_, place.column, place.row);
      const Point middle{(from.x + to.x) / 2, (from.y + to.y) / 2};
      const double away = std::hypot(to.x - from.x, to.y - from.y) / 2;
      if (problem_.skip_outside_bed && !is_kept(place) &&
          problem_.limits->on_bed(middle) - away < 1e-6) {
        continue;
      }
      work();
      // Leeways are rounded, and so are these.
      const double most =
          problem_.limits->least_leeway(away > 0 ? middle : from) + (away > 0 ? away + 2e-6 : 0);
      if (most >= block.least_leeway) continue;
      block.least_leeway = most;
      reach = away;
      limiting = longest(block, weights(place));
      if (!block.may_beat(best_)) {
        remember(place);
        return;
      }
    }
    // An exact bound is not to be had any better: what is left is the centre.
    block.widest = reach > 0 ? limiting : longest(block, {1, 1, 1, 1});
  }

  // How much of each side's range a point of the lattice may move by.
  std::array<double, 4> weights(const LatticePlace& place) const {
    const double u = static_cast<double>(place.column) / (columns_ - 1);
    const double v = static_cast<double>(place.row) / (rows_ - 1);
    return {1 - u, u, 1 - v, v};
  }

  // The range that weighs most; of those that weigh nothing the longest.
  TieSide longest(const TieBlock& block, const std::array<double, 4>& weight) const {
    TieSide longest = kLeft;
    double most = -1;
    for (const TieSide side : {kLeft, kRight, kFront, kBack}) {
      const double size = static_cast<double>(block.sides[side].size());
      const double here = size > 0 ? weight[side] * size + 1e-9 * size : -1;
      if (here <= most) continue;
      most = here;
      longest = side;
    }
    return longest;
  }

  bool is_kept(const LatticePlace& place) const {
    const bool on_side = place.column == 0 || place.column == columns_ - 1;
    const bool on_end = place.row == 0 || place.row == rows_ - 1;
    return (on_side && is_middle(place.row, rows_)) ||
           (on_end && is_middle(place.column, columns_));
  }

  // Places of the lattice that all meshes of the block have: those that decided last, corners, and
  // of a small mesh all.
  std::vector<LatticePlace> places_of(const std::array<Interval, 4>& at) {
    const auto counts = [](const LineCount& lines, const Interval& low, const Interval& high) {
      return std::pair(lines.over(std::max(0.0, high.low - low.high)),
                       lines.over(high.high - low.low));
    };
    const auto [fewest_columns, columns] = counts(problem_.columns, at[kLeft], at[kRight]);
    const auto [fewest_rows, rows] = counts(problem_.rows, at[kFront], at[kBack]);
    if (fewest_columns != columns || fewest_rows != rows) {
      // Corners any of them has.
      columns_ = rows_ = 2;
      if (problem_.skip_outside_bed) return {};
      return {{0, 0}, {1, 0}, {0, 1}, {1, 1}};
    }
    columns_ = columns;
    rows_ = rows;
    std::vector<LatticePlace> out;
    for (const LatticePlace& place : decided_) {
      if (place.column < columns && place.row < rows) out.push_back(place);
    }
    constexpr int kEach = 12;
    const int over_x = std::max(1, (columns - 1) / kEach);
    const int over_y = std::max(1, (rows - 1) / kEach);
    for (const int row : {0, rows - 1}) {
      for (const int column : {0, columns - 1}) out.push_back({column, row});
    }
    for (int row = 0; row < rows; row += over_y) {
      for (int column = 0; column < columns; column += over_x) out.push_back({column, row});
    }
    if (!problem_.skip_outside_bed) return out;
    for (const int row : {(rows - 1) / 2, rows / 2}) {
      out.push_back({0, row});
      out.push_back({columns - 1, row});
    }
    for (const int column : {(columns - 1) / 2, columns / 2}) {
      out.push_back({column, 0});
      out.push_back({column, rows - 1});
    }
    return out;
  }

  void remember(const LatticePlace& place) {
    constexpr std::size_t kRemembered = 4;
    const auto at = std::find_if(decided_.begin(), decided_.end(), [&](const LatticePlace& p) {
      return p.column == place.column && p.row == place.row;
    });
    if (at != decided_.end()) {
      std::rotate(decided_.begin(), at, at + 1);
      return;
    }
    decided_.insert(decided_.begin(), place);
    if (decided_.size() > kRemembered) decided_.pop_back();
  }

  void look_into(const TieBlock& block) {
    const std::array<Interval, 4> at = places(block);
    const auto columns = ground_.columns_of(at[kLeft].low, at[kRight].low);
    const std::size_t front = ground_.fronts()[block.sides[kFront].low];
    const std::size_t back = ground_.backs()[block.sides[kBack].low];
    if (columns.empty() || !ground_.ends_hold(columns, front, back)) return;
    std::optional<FoundMesh> found =
        ground_.verified({at[kLeft].low, at[kRight].low, at[kFront].low, at[kBack].low});
    if (!found) return;
    found->area = area_of(found->bounds);
    if (found->better_than(best_)) best_ = *found;
  }

  SearchGround& ground_;
  const FitProblem& problem_;
  StraightLimits straight_;
  BlockQueue<TieBlock> blocks_;
  // The lattice of the block that is being bounded.
  int columns_ = 2;
  int rows_ = 2;
  std::vector<LatticePlace> decided_;  // the latest first
  long worked_ = 0;
  FoundMesh best_;
};

}  // namespace

FoundMesh best_of_ties(SearchGround& ground, const std::vector<SideBlock>& ties,
                       const FoundMesh& best) {
  LEEWAY_ASSERT(!ties.empty());
  return TieSearch(ground, best).run(ties);
}

}  // namespace leeway
