#include "tasks/walk/short_order.h"

#include <algorithm>
#include <numeric>

#include "geometry/plane/vector.h"

namespace leeway {
namespace {

class Way {
 public:
  Way(const std::vector<Point>& places, const std::optional<Point>& start)
      : places_(places), start_(start) {}

  double length(const std::vector<std::size_t>& order) const {
    double sum = 0;
    for (std::size_t i = 0; i < order.size(); ++i) sum += before(order, i);
    return sum;
  }

  // To the nearest that is left, again and again.
  std::vector<std::size_t> by_nearest() const {
    std::vector<std::size_t> order(places_.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    for (std::size_t i = start_ ? 0 : 1; i < order.size(); ++i) {
      const Point at = i == 0 ? *start_ : places_[order[i - 1]];
      const auto nearest = std::min_element(
          order.begin() + static_cast<long>(i), order.end(), [&](std::size_t a, std::size_t b) {
            return distance(at, places_[a]) < distance(at, places_[b]);
          });
      std::iter_swap(order.begin() + static_cast<long>(i), nearest);
    }
    return order;
  }

  // 2-opt: as long as some piece of the way makes it shorter when gone over the other way round
  // (Croes, A method for solving traveling-salesman problems, 1958; from memory).
  void turn_pieces_round(std::vector<std::size_t>& order) const {
    constexpr double kWorthwhile = 1e-6;
    for (bool shorter = true; shorter;) {
      shorter = false;
      for (std::size_t i = 0; i + 1 < order.size(); ++i) {
        for (std::size_t k = i + 1; k < order.size(); ++k) {
          if (gain(order, i, k) < kWorthwhile) continue;
          std::reverse(order.begin() + static_cast<long>(i),
                       order.begin() + static_cast<long>(k) + 1);
          shorter = true;
        }
      }
    }
  }

 private:
  double before(const std::vector<std::size_t>& order, std::size_t i) const {
    if (i > 0) return distance(places_[order[i - 1]], places_[order[i]]);
    return start_ ? distance(*start_, places_[order[0]]) : 0;
  }
  // What is gained by going from i to k the other way round.
  double gain(const std::vector<std::size_t>& order, std::size_t i, std::size_t k) const {
    const Point first = places_[order[i]];
    const Point last = places_[order[k]];
    double sum = 0;
    if (i > 0 || start_) {
      const Point to = i > 0 ? places_[order[i - 1]] : *start_;
      sum += distance(to, first) - distance(to, last);
    }
    if (k + 1 < order.size()) {
      const Point next = places_[order[k + 1]];
      sum += distance(last, next) - distance(first, next);
    }
    return sum;
  }

  const std::vector<Point>& places_;
  const std::optional<Point>& start_;
};

}  // namespace

std::vector<std::size_t> short_order(const std::vector<Point>& places,
                                     const std::optional<Point>& start) {
  const Way way(places, start);
  std::vector<std::size_t> as_given(places.size());
  std::iota(as_given.begin(), as_given.end(), std::size_t{0});
  std::vector<std::size_t> from_nearest = way.by_nearest();
  way.turn_pieces_round(as_given);
  way.turn_pieces_round(from_nearest);
  return way.length(from_nearest) < way.length(as_given) ? from_nearest : as_given;
}

}  // namespace leeway
