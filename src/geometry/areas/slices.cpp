#include "geometry/areas/slices.h"

#include <algorithm>

#include "geometry/plane/assert.h"

namespace leeway {
namespace {

double y_at(Point left, Point right, double x) {
  if (x == left.x) return left.y;
  if (x == right.x) return right.y;
  return left.y + (right.y - left.y) * (x - left.x) / (right.x - left.x);
}

Intervals merged(Intervals all) {
  std::sort(all.begin(), all.end(),
            [](const Interval& a, const Interval& b) { return a.low < b.low; });
  Intervals out;
  for (const Interval& next : all) {
    if (!out.empty() && next.low <= out.back().high) {
      out.back().high = std::max(out.back().high, next.high);
    } else {
      out.push_back(next);
    }
  }
  return out;
}

// `a` without the insides of the intervals of `b`.
Intervals without_insides(const Intervals& a, const Intervals& b) {
  Intervals out;
  for (const Interval& from : a) {
    double low = from.low;
    for (const Interval& hole : b) {
      if (hole.high <= low || hole.low >= from.high) continue;
      if (hole.low >= low) out.push_back({low, hole.low});
      low = hole.high;
    }
    if (low <= from.high) out.push_back({low, from.high});
  }
  return out;
}

}  // namespace

Intervals intersection(const Intervals& a, const Intervals& b) {
  Intervals out;
  for (auto i = a.begin(), k = b.begin(); i != a.end() && k != b.end();) {
    const double low = std::max(i->low, k->low);
    const double high = std::min(i->high, k->high);
    if (low <= high) out.push_back({low, high});
    if (i->high < k->high) {
      ++i;
    } else {
      ++k;
    }
  }
  return out;
}

Intervals complement(const Intervals& a, double low, double high) {
  Intervals out;
  for (const Interval& taken : a) {
    if (taken.low > low) out.push_back({low, std::min(taken.low, high)});
    low = std::max(low, taken.high);
    if (low >= high) return out;
  }
  if (low < high) out.push_back({low, high});
  return out;
}

Intervals widened(const Intervals& a, double by) {
  LEEWAY_ASSERT(by >= 0);
  Intervals out = a;
  for (Interval& interval : out) {
    LEEWAY_ASSERT(interval.low <= interval.high);
    interval.low -= by;
    interval.high += by;
  }
  return merged(std::move(out));
}

Intervals united(Intervals a, const Intervals& b) {
  a.insert(a.end(), b.begin(), b.end());
  return merged(std::move(a));
}

Slices::Slices(const MultiPolygon& region) {
  const auto add = [this](const Ring& ring) {
    for (std::size_t i = 0; i < ring.size(); ++i) {
      const Point a = ring[i];
      const Point b = ring[(i + 1) % ring.size()];
      edges_.push_back(a.x <= b.x ? Edge{a, b} : Edge{b, a});
    }
  };
  for (const Polygon& polygon : region) {
    add(polygon.outer);
    for (const Ring& hole : polygon.holes) add(hole);
  }
  std::sort(edges_.begin(), edges_.end(),
            [](const Edge& a, const Edge& b) { return a.left.x < b.left.x; });
}

// A line through a vertex is taken to run beside it, so that crossings always pair up.
Intervals Slices::just_right_of(double x) const {
  std::vector<double> crossings;
  for (const Edge& edge : edges_) {
    if (edge.left.x > x) break;
    if (edge.right.x > x) crossings.push_back(y_at(edge.left, edge.right, x));
  }
  std::sort(crossings.begin(), crossings.end());
  Intervals out;
  for (std::size_t i = 0; i + 1 < crossings.size(); i += 2) {
    out.push_back({crossings[i], crossings[i + 1]});
  }
  return merged(std::move(out));
}

Intervals Slices::somewhere(double x0, double x1) const {
  LEEWAY_ASSERT(x0 < x1);
  // Further to the right something can begin only where the boundary runs.
  Intervals out = just_right_of(x0);
  for (const Edge& edge : edges_) {
    if (edge.left.x > x1) break;
    if (edge.right.x < x0) continue;
    const double a = edge.left.x < x0 ? y_at(edge.left, edge.right, x0) : edge.left.y;
    const double b = edge.right.x > x1 ? y_at(edge.left, edge.right, x1) : edge.right.y;
    out.push_back({std::min(a, b), std::max(a, b)});
  }
  return merged(std::move(out));
}

Intervals Slices::throughout(double x0, double x1) const {
  LEEWAY_ASSERT(x0 < x1);
  // Heights that the boundary does not pass stay, across the strip, what they are at its left end.
  // Those it passes are out of the region at some x.
  Intervals boundary;
  for (const Edge& edge : edges_) {
    if (edge.left.x >= x1) break;
    if (edge.right.x <= x0) continue;
    const double a = edge.left.x < x0 ? y_at(edge.left, edge.right, x0) : edge.left.y;
    const double b = edge.right.x > x1 ? y_at(edge.left, edge.right, x1) : edge.right.y;
    if (a != b) boundary.push_back({std::min(a, b), std::max(a, b)});
  }
  std::sort(boundary.begin(), boundary.end(),
            [](const Interval& a, const Interval& b) { return a.low < b.low; });
  return without_insides(just_right_of(x0), boundary);
}

}  // namespace leeway
