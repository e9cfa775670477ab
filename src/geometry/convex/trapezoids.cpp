#include "geometry/convex/decomposition.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <map>
#include <utility>

#include "geometry/plane/polygons.h"

namespace leeway::decomposition {
namespace {

// An edge that is not level, from its lower to its upper end.
struct Riser {
  Point low;
  Point high;

  double x_at(double y) const {
    if (y <= low.y) return low.x;
    if (y >= high.y) return high.x;
    return low.x + (high.x - low.x) * ((y - low.y) / (high.y - low.y));
  }
};

void add_risers(const Ring& ring, std::vector<Riser>& risers) {
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const Point a = ring[i];
    const Point b = ring[(i + 1) % ring.size()];
    if (a.y != b.y) risers.push_back(a.y < b.y ? Riser{a, b} : Riser{b, a});
  }
}

void add_trapezoid(const Riser& left, const Riser& right, double y0, double y1,
                   std::vector<Ring>& out) {
  const auto corners = [&](double y) {
    const double a = left.x_at(y);
    const double b = right.x_at(y);
    return a <= b ? std::pair{a, b} : std::pair{(a + b) / 2, (a + b) / 2};  // rounding at a tip
  };
  const auto [bottom_left, bottom_right] = corners(y0);
  const auto [top_left, top_right] = corners(y1);
  Ring ring = normalized({{bottom_left, y0}, {bottom_right, y0}, {top_right, y1}, {top_left, y1}});
  if (ring.size() >= 3) out.push_back(std::move(ring));
}

}  // namespace

std::vector<Ring> trapezoids(const Polygon& polygon) {
  std::vector<Riser> risers;
  add_risers(polygon.outer, risers);
  for (const Ring& hole : polygon.holes) add_risers(hole, risers);
  std::sort(risers.begin(), risers.end(),
            [](const Riser& a, const Riser& b) { return a.low.y < b.low.y; });
  std::vector<double> levels;
  for (const Riser& riser : risers) levels.insert(levels.end(), {riser.low.y, riser.high.y});
  std::sort(levels.begin(), levels.end());
  levels.erase(std::unique(levels.begin(), levels.end()), levels.end());

  std::vector<Ring> pieces;
  // A trapezoid goes on as long as the same two risers are neighbours. Else each vertex would cut
  // all that lies beside it.
  std::map<std::pair<std::size_t, std::size_t>, double> open;  // between two risers, since when
  std::vector<std::size_t> active;
  std::size_t next = 0;
  const auto close_all_but = [&](const auto& kept, double y) {
    for (const auto& [pair, since] : open) {
      if (kept.count(pair) == 0) {
        add_trapezoid(risers[pair.first], risers[pair.second], since, y, pieces);
      }
    }
  };
  for (std::size_t k = 0; k + 1 < levels.size(); ++k) {
    // The order is that in the middle of the strip: at its ends risers may meet.
    const double middle = levels[k] + (levels[k + 1] - levels[k]) / 2;
    active.erase(std::remove_if(active.begin(), active.end(),
                                [&](std::size_t i) { return risers[i].high.y <= levels[k]; }),
                 active.end());
    while (next < risers.size() && risers[next].low.y <= levels[k]) active.push_back(next++);
    std::sort(active.begin(), active.end(), [&](std::size_t a, std::size_t b) {
      const double at_a = risers[a].x_at(middle);
      const double at_b = risers[b].x_at(middle);
      return at_a != at_b ? at_a < at_b : a < b;
    });
    std::map<std::pair<std::size_t, std::size_t>, double> still_open;
    for (std::size_t i = 0; i + 1 < active.size(); i += 2) {  // inside between odd and even
      const std::pair pair{active[i], active[i + 1]};
      const auto before = open.find(pair);
      still_open[pair] = before == open.end() ? levels[k] : before->second;
    }
    close_all_but(still_open, levels[k]);
    open = std::move(still_open);
  }
  if (!levels.empty()) {
    close_all_but(std::map<std::pair<std::size_t, std::size_t>, double>{}, levels.back());
  }
  return pieces;
}

}  // namespace leeway::decomposition
