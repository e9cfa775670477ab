#include "tasks/fit/fit_search.h"

#include <algorithm>
#include <cmath>

#include "leeway/setup.h"
#include "tasks/fit/block_queue.h"
#include "tasks/fit/fit_ties.h"
#include "tasks/fit/move_ground.h"
#include "tasks/fit/search_ground.h"

namespace leeway {
namespace {

// The largest area: branch and bound over left and right side, where front and back are solved for
// each block. What is equal to the best in area is kept as it is, never looked into: of it the ties
// are made (fit_ties.h).
class AreaSearch {
 public:
  explicit AreaSearch(SearchGround& ground) : ground_(ground), problem_(ground.problem()) {
    if (const auto box = bounds(*problem_.printable)) printable_ = *box;
  }

  // The best area that there is, with a mesh that has it; with `first`, the first that is found.
  std::optional<FoundMesh> run(bool first) {
    push(whole());
    while (!blocks_.empty() && !(first && best_) && !gives_up()) {
      ground_.trim();
      const SideBlock block = blocks_.pop();
      if (best_ && block.area <= best_->area) {
        keep(block);
      } else if (block.single()) {
        look_into(block);
        keep(block);
      } else {
        split(block);
      }
    }
    return best_;
  }

  // Blocks with all meshes of the best area, once run() has found one.
  std::vector<SideBlock> ties() {
    forget_worse();
    if (too_many_) return {whole()};
    return kept_;
  }

 private:
  static constexpr std::size_t kMostKept = 100'000;

  bool gives_up() const { return problem_.moves != nullptr && problem_.moves->gives_up(); }

  SideBlock whole() const {
    return {0, problem_.lefts.size() - 1, 0, problem_.rights.size() - 1, 0};
  }

  void forget_worse() {
    std::erase_if(kept_, [&](const SideBlock& b) { return b.area < best_->area - kSameArea; });
  }

  void keep(const SideBlock& block) {
    if (too_many_ || (best_ && block.area < best_->area - kSameArea)) return;
    if (kept_.size() >= kMostKept && best_) forget_worse();
    too_many_ = kept_.size() >= kMostKept;
    kept_.push_back(block);
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
    problem_.work();
    const double outer_left = problem_.lefts[block.left0];
    const double outer_right = problem_.rights[block.right1];
    if (outer_left >= outer_right) return;
    const GoodRows good = rows_of(block);
    if (good.empty()) return;
    block.area = most_area(outer_left, outer_right, good);
    if (block.area > 0) blocks_.push(block);
  }

  GoodRows rows_of(const SideBlock& block) {
    return ground_.rows().over({problem_.lefts[block.left0], problem_.lefts[block.left1]},
                               {problem_.rights[block.right0], problem_.rights[block.right1]});
  }

  // Calls visit(front, back, area) for every choice whose rows are good and whose area is above
  // `above()`. Tall ones come first.
  template <typename Above, typename Visit>
  void for_rows(double left, double right, const GoodRows& good, const Above& above,
                const Visit& visit) {
    const std::vector<double>& ys = ground_.ys();
    const SearchGround::Strip strip = ground_.strip(left, right);
    const auto look_at = [&](std::size_t front, std::size_t back) {
      const double area = strip.area(front, back);
      if (area > above()) visit(front, back, area);
    };
    if (ground_.fronts().size() == 1 || ground_.backs().size() == 1) {
      for (const std::size_t front : ground_.fronts()) {
        for (const std::size_t back : ground_.backs()) {
          if (front < back && ground_.rows().hold(ys[front], ys[back], good)) look_at(front, back);
        }
      }
      return;
    }
    const double low = std::max(good.outer.front().low, ys.front());
    const double high = std::min(good.outer.back().high, ys.back());
    if (low >= high) return;
    const double width =
        std::max(0.0, std::min(right, printable_.x1) - std::max(left, printable_.x0));
    std::size_t least = 1;
    double asked = -1;
    int looked = 0;
    for (std::size_t tall = steps_between(low, high); tall >= least; --tall) {
      const double height = static_cast<double>(tall) * problem_.step;
      if (to_millionths(width * std::min(height, printable_.depth())) + 1e-6 <= above()) return;
      // That is all there is to say of a rectangle. Of other regions the exact answer ends it
      // sooner, but costs more.
      if (++looked % kHeightsBetween == 0 && above() != asked) {
        asked = above();
        least = least_steps(strip, asked);
      }
      problem_.work();
      for (const Interval& fronts : ground_.rows().fronts_of(height, good)) {
        for (std::size_t front = ground_.index_of(fronts.low - kSame);
             front + tall < ys.size() && ys[front] <= fronts.high + kSame; ++front) {
          look_at(front, front + tall);
        }
      }
    }
  }

  static constexpr int kHeightsBetween = 16;

  std::size_t steps_between(double low, double high) const {
    return std::min(static_cast<std::size_t>((high - low + kSame) / problem_.step),
                    ground_.ys().size() - 1);
  }

  // How tall a mesh must be, in steps, to have an area above `asked`, wherever it stands: what is
  // taller has no less.
  std::size_t least_steps(const SearchGround::Strip& strip, double asked) const {
    const std::size_t ends = ground_.ys().size();
    const auto may_do = [&](std::size_t tall) {
      for (std::size_t front = 0; front + tall < ends; ++front) {
        if (strip.area(front, front + tall) > asked) return true;
      }
      return false;
    };
    std::size_t low = 1;
    std::size_t high = ends;  // too tall for any
    while (low < high) {
      const std::size_t middle = low + (high - low) / 2;
      if (may_do(middle)) {
        high = middle;
      } else {
        low = middle + 1;
      }
    }
    return low;
  }

  // The largest area of any mesh with sides no farther out, or more; 0 when there is none, or none
  // of the best area so far.
  double most_area(double left, double right, const GoodRows& good) {
    double most = 0;
    const double floor = best_ ? std::max(0.0, best_->area - 1.5 * kSameArea) : 0;
    for_rows(
        left, right, good, [&] { return std::max(most, floor); },
        [&](std::size_t, std::size_t, double area) { most = std::max(most, area); });
    return most;
  }

  void look_into(const SideBlock& block) {
    const double left = problem_.lefts[block.left0];
    const double right = problem_.rights[block.right0];
    if (left >= right) return;
    const GoodRows good = rows_of(block);
    if (good.empty()) return;
    const auto columns = ground_.columns_of(left, right);
    if (columns.empty()) return;
    for_rows(
        left, right, good, [&] { return best_ ? best_->area : 0; },
        [&](std::size_t front, std::size_t back, double area) {
          if (gives_up() || !ground_.ends_hold(columns, front, back)) return;
          const std::vector<double>& ys = ground_.ys();
          std::optional<FoundMesh> found = ground_.verified({left, right, ys[front], ys[back]});
          if (!found) return;
          found->area = area;
          best_ = found;
        });
  }

  SearchGround& ground_;
  const FitProblem& problem_;
  Box printable_{0, 0, 0, 0};
  BlockQueue<SideBlock> blocks_;
  std::vector<SideBlock> kept_;
  bool too_many_ = false;
  std::optional<FoundMesh> best_;
};

bool has_choices(const FitProblem& problem) {
  return !problem.lefts.empty() && !problem.rights.empty() && !problem.fronts.empty() &&
         !problem.backs.empty();
}

}  // namespace

std::optional<FoundMesh> best_mesh(const FitProblem& problem) {
  if (!has_choices(problem)) return std::nullopt;
  SearchGround ground(problem);
  AreaSearch search(ground);
  const std::optional<FoundMesh> best = search.run(false);
  if (!best) return std::nullopt;
  return best_of_ties(ground, search.ties(), *best);
}

bool has_mesh(const FitProblem& problem) {
  if (!has_choices(problem)) return false;
  SearchGround ground(problem);
  return AreaSearch(ground).run(true).has_value();
}

}  // namespace leeway
