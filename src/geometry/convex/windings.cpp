#include "geometry/convex/windings.h"

#include <algorithm>

namespace leeway {

void Windings::add(Point a, Point b) {
  // A level ray crosses no level edge. That at() counts only one end of the others makes up for it.
  if (a.y == b.y) return;
  const bool up = a.y < b.y;
  const Point low = up ? a : b;
  const Point high = up ? b : a;
  edges_.push_back({low.y, high.y, low.x, (high.x - low.x) / (high.y - low.y),
                    std::max(low.x, high.x), up ? 1 : -1});
}

std::size_t Windings::row_of(double y) const {
  const double row = (y - from_) * rows_per_y_;
  return std::min(static_cast<std::size_t>(std::max(row, 0.0)), ends_.size() - 1);
}

void Windings::prepare() {
  if (edges_.empty()) return;
  from_ = edges_.front().y0;
  to_ = edges_.front().y1;
  double depth = 0;
  for (const Edge& e : edges_) {
    from_ = std::min(from_, e.y0);
    to_ = std::max(to_, e.y1);
    depth += e.y1 - e.y0;
  }
  // Rows half as deep as an edge is on average: each edge is in three or four.
  constexpr double kMostRows = 4096;
  const double count = static_cast<double>(edges_.size());
  const double rows = std::clamp(2 * (to_ - from_) * count / depth, 1.0, kMostRows);
  rows_per_y_ = rows / (to_ - from_);
  ends_.assign(static_cast<std::size_t>(rows) + 1, 0);
  std::sort(edges_.begin(), edges_.end(),
            [](const Edge& a, const Edge& b) { return a.most_x > b.most_x; });
  // Counted first, then filled, in the order of the edges: in each row the farthest right stays
  // first.
  for (const Edge& e : edges_) {
    for (std::size_t row = row_of(e.y0); row <= row_of(e.y1); ++row) ++ends_[row];
  }
  std::size_t sum = 0;
  for (std::size_t& end : ends_) {
    const std::size_t here = end;
    end = sum;
    sum += here;
  }
  sorted_.resize(sum);
  for (const Edge& e : edges_) {
    for (std::size_t row = row_of(e.y0); row <= row_of(e.y1); ++row) sorted_[ends_[row]++] = e;
  }
  edges_.clear();
  edges_.shrink_to_fit();
}

int Windings::at(Point p) const {
  if (sorted_.empty() || !(p.y >= from_ && p.y < to_)) return 0;
  const std::size_t row = row_of(p.y);
  int sum = 0;
  for (std::size_t i = row > 0 ? ends_[row - 1] : 0; i < ends_[row]; ++i) {
    const Edge& e = sorted_[i];
    // This one and all after it end to the left of p: a ray to the right meets none.
    if (e.most_x < p.x) break;
    const bool meets = (e.y0 <= p.y) & (p.y < e.y1);
    const bool right = p.x < e.x0 + (p.y - e.y0) * e.x_per_y;
    sum += meets & right ? e.step : 0;
  }
  return sum;
}

}  // namespace leeway
