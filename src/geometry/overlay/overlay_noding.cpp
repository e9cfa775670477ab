#include "geometry/overlay/overlay_noding.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <utility>

// Snap rounding: the unit square around every end point and around every rounded crossing is hot,
// and an edge that passes through a hot square is bent through its centre. Then no two edges cross
// any more, and no edge passes over an end point of another.

namespace leeway::overlay {
namespace {

bool by_ends(const NodedSegment& a, const NodedSegment& b) {
  return a.low == b.low ? below(a.high, b.high) : below(a.low, b.low);
}

void add(Point from, Point to, std::array<int, 2> steps, std::vector<NodedSegment>& segments) {
  if (from == to) return;
  // Always upwards: then the same edge of two rings has the same ends, and merge() finds it.
  if (below(to, from)) {
    std::swap(from, to);
    for (int& step : steps) step = -step;
  }
  segments.push_back({from, to, steps});
}

void add(const Ring& ring, std::size_t layer, std::vector<NodedSegment>& segments) {
  std::array<int, 2> steps{};
  steps[layer] = -1;  // upwards the inside is to the left
  for (std::size_t i = 0; i < ring.size(); ++i) {
    add(ring[i], ring[i + 1 < ring.size() ? i + 1 : 0], steps, segments);
  }
}

void add(const MultiPolygon& polygons, std::size_t layer, std::vector<NodedSegment>& segments) {
  for (const Polygon& polygon : polygons) {
    add(polygon.outer, layer, segments);
    for (const Ring& hole : polygon.holes) add(hole, layer, segments);
  }
}

// Segments with the same ends become one; those that no longer bound anything go.
void merge(std::vector<NodedSegment>& segments) {
  std::sort(segments.begin(), segments.end(), by_ends);
  std::size_t kept = 0;
  for (std::size_t i = 0; i < segments.size();) {
    NodedSegment sum = segments[i];
    for (++i; i < segments.size() && segments[i].low == sum.low && segments[i].high == sum.high;
         ++i) {
      for (std::size_t k = 0; k < 2; ++k) sum.steps[k] += segments[i].steps[k];
    }
    if (sum.steps[0] != 0 || sum.steps[1] != 0) segments[kept++] = sum;
  }
  segments.resize(kept);
}

bool opposite(double a, double b) { return (a < 0 && b > 0) || (a > 0 && b < 0); }

// The crossing of two segments is known to 1e-9 um. Nearer than this to the side of a square both
// squares are made hot.
constexpr double kCrossingDoubt = 1e-6;

// The square where the interiors of two segments cross is added to `hot`.
void add_crossing(const NodedSegment& a, const NodedSegment& b, std::vector<Point>& hot) {
  const auto [ax0, ax1] = std::minmax(a.low.x, a.high.x);
  const auto [bx0, bx1] = std::minmax(b.low.x, b.high.x);
  if (ax1 < bx0 || bx1 < ax0) return;
  const double low = turn(a.low, a.high, b.low);
  const double high = turn(a.low, a.high, b.high);
  if (!opposite(low, high)) return;
  if (!opposite(turn(b.low, b.high, a.low), turn(b.low, b.high, a.high))) return;
  const Point p = b.low + (low / (low - high)) * (b.high - b.low);
  for (const double x :
       {std::floor(p.x + 0.5 - kCrossingDoubt), std::floor(p.x + 0.5 + kCrossingDoubt)}) {
    for (const double y :
         {std::floor(p.y + 0.5 - kCrossingDoubt), std::floor(p.y + 0.5 + kCrossingDoubt)}) {
      hot.push_back({x, y});
    }
  }
}

// REQUIRES: sorted by `below` of the low ends. Sorted by x, then y.
std::vector<Point> hot_points(const std::vector<NodedSegment>& segments) {
  std::vector<Point> hot;
  std::vector<const NodedSegment*> active;
  for (const NodedSegment& segment : segments) {
    // All that share a height are held against one another. This is the last resort and seldom
    // runs: it has to be right rather than fast.
    std::size_t kept = 0;
    for (const NodedSegment* other : active) {
      if (other->high.y < segment.low.y) continue;
      active[kept++] = other;
      add_crossing(*other, segment, hot);
    }
    active.resize(kept);
    active.push_back(&segment);
    hot.insert(hot.end(), {segment.low, segment.high});
  }
  std::sort(hot.begin(), hot.end(),
            [](Point a, Point b) { return a.x < b.x || (a.x == b.x && a.y < b.y); });
  hot.erase(std::unique(hot.begin(), hot.end()), hot.end());
  return hot;
}

// Whether a segment meets the square around `c` with its left and front sides, without its right
// and back sides: as if those were nearer by an infinitesimal.
bool meets_square(const NodedSegment& s, Point c) {
  const auto [x0, x1] = std::minmax(s.low.x, s.high.x);
  if (x0 >= c.x + 0.5 || x1 < c.x - 0.5) return false;
  if (s.low.y >= c.y + 0.5 || s.high.y < c.y - 0.5) return false;
  const Point d = s.high - s.low;
  const auto side = [&s](Point corner, double if_on_line) {
    const double t = turn(s.low, s.high, corner);
    return t != 0 ? t : if_on_line;
  };
  const auto [least, greatest] =
      std::minmax({side({c.x - 0.5, c.y - 0.5}, 0), side({c.x - 0.5, c.y + 0.5}, -d.x),
                   side({c.x + 0.5, c.y - 0.5}, d.y), side({c.x + 0.5, c.y + 0.5}, d.y - d.x)});
  return least <= 0 && greatest >= 0;
}

// The hot points that a segment is bent through, from low to high, its ends among them.
void bends(const NodedSegment& s, const std::vector<Point>& hot, std::vector<Point>& result) {
  result.clear();
  const auto [x0, x1] = std::minmax(s.low.x, s.high.x);
  const auto first =
      std::lower_bound(hot.begin(), hot.end(), x0 - 0.5, [](Point p, double x) { return p.x < x; });
  for (auto p = first; p != hot.end() && p->x <= x1 + 0.5; ++p) {
    if (meets_square(s, *p)) result.push_back(*p);
  }
  const Point d = s.high - s.low;
  std::sort(result.begin(), result.end(),
            [d](Point a, Point b) { return a.x * d.x + a.y * d.y < b.x * d.x + b.y * d.y; });
}

}  // namespace

Noded noded(const MultiPolygon& a, const MultiPolygon& b) {
  std::vector<NodedSegment> given;
  add(a, 0, given);
  add(b, 1, given);
  merge(given);
  const std::vector<Point> hot = hot_points(given);
  Noded result;
  std::vector<Point> path;
  for (const NodedSegment& segment : given) {
    bends(segment, hot, path);
    const Point d = segment.high - segment.low;
    const double length = std::hypot(d.x, d.y);
    for (std::size_t i = 1; i < path.size(); ++i) {
      // A turn over the length is how far a bend lies beside the edge. Two bends and the way
      // between them make a trapezoid, which is what that part passed over at most.
      const double aside = std::abs(turn(segment.low, segment.high, path[i - 1])) +
                           std::abs(turn(segment.low, segment.high, path[i]));
      const Point step = path[i] - path[i - 1];
      result.moved += aside / length / 2 * std::hypot(step.x, step.y);
      add(path[i - 1], path[i], segment.steps, result.segments);
    }
  }
  merge(result.segments);
  return result;
}

}  // namespace leeway::overlay
