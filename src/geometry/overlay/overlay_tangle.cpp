#include "geometry/overlay/overlay_tangle.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <vector>

#include "geometry/overlay/overlay_noding.h"
#include "geometry/overlay/overlay_rings.h"

namespace leeway::overlay {
namespace {

// A vertex that moves can only tangle its own two edges with others. So those are held against all
// others, a run of edges at a time.
constexpr std::size_t kRun = 16;

std::size_t after(const Ring& ring, std::size_t i) { return i + 1 < ring.size() ? i + 1 : 0; }
std::size_t ahead(const Ring& ring, std::size_t i) { return i > 0 ? i - 1 : ring.size() - 1; }

Box box_of_edge(Point a, Point b) {
  return {std::min(a.x, b.x), std::max(a.x, b.x), std::min(a.y, b.y), std::max(a.y, b.y)};
}

struct Run {
  const Ring* ring;
  std::size_t first, last;  // edges first..last-1; edge i runs from vertex i to the next
  Box box;
};

void add_runs(const Ring& ring, std::vector<Run>& runs) {
  for (std::size_t first = 0; first < ring.size(); first += kRun) {
    Run run{&ring, first, std::min(first + kRun, ring.size()), {}};
    run.box = box_of_edge(ring[first], ring[first]);
    for (std::size_t i = first; i < run.last; ++i) {
      const Point p = ring[after(ring, i)];
      run.box = {std::min(run.box.x0, p.x), std::max(run.box.x1, p.x), std::min(run.box.y0, p.y),
                 std::max(run.box.y1, p.y)};
    }
    runs.push_back(run);
  }
}

// Closed segments.
bool meet(Point a, Point b, Point c, Point d) {
  const double c_side = turn(a, b, c);
  const double d_side = turn(a, b, d);
  if ((c_side > 0 && d_side > 0) || (c_side < 0 && d_side < 0)) return false;
  const double a_side = turn(c, d, a);
  const double b_side = turn(c, d, b);
  return !((a_side > 0 && b_side > 0) || (a_side < 0 && b_side < 0));
}

bool same_direction(Point at, Point a, Point b) {
  return turn(at, a, b) == 0 && (a.x - at.x) * (b.x - at.x) + (a.y - at.y) * (b.y - at.y) > 0;
}

// Whether, turning left from `first`, one comes to `p` before `last`.
bool between(Point at, Point first, Point p, Point last) {
  const bool past_first = turn(at, first, p) > 0;
  const bool short_of_last = turn(at, p, last) > 0;
  return turn(at, first, last) > 0 ? past_first && short_of_last : past_first || short_of_last;
}

// Two rings through one vertex: whether they do more than touch there.
bool cross_at(const Ring& a, std::size_t i, const Ring& b, std::size_t j) {
  const Point at = a[i];
  const Point a0 = a[ahead(a, i)];
  const Point a1 = a[after(a, i)];
  const Point b0 = b[ahead(b, j)];
  const Point b1 = b[after(b, j)];
  // Edges that leave a vertex in one direction lie on one another: more than a touch.
  for (const Point p : {b0, b1}) {
    if (same_direction(at, a0, p) || same_direction(at, a1, p)) return true;
  }
  return between(at, a1, b0, a0) != between(at, a1, b1, a0);
}

// Whether edge i of `a` and edge j of `b`, not neighbours, do more than touch at a vertex of both.
bool tangled(const Ring& a, std::size_t i, const Ring& b, std::size_t j) {
  const std::size_t i1 = after(a, i);
  const std::size_t j1 = after(b, j);
  if (!touch(box_of_edge(a[i], a[i1]), box_of_edge(b[j], b[j1]))) return false;
  if (!meet(a[i], a[i1], b[j], b[j1])) return false;
  // Edges of one ring that are no neighbours must not even touch.
  if (&a == &b) return true;
  if (a[i] == b[j]) return cross_at(a, i, b, j);
  if (a[i] == b[j1]) return cross_at(a, i, b, j1);
  if (a[i1] == b[j]) return cross_at(a, i1, b, j);
  if (a[i1] == b[j1]) return cross_at(a, i1, b, j1);
  return true;
}

bool tangled(const Ring& ring, std::size_t edge, const std::vector<Run>& runs) {
  const std::size_t next = after(ring, edge);
  const std::size_t previous = ahead(ring, edge);
  const Box box = box_of_edge(ring[edge], ring[next]);
  for (const Run& run : runs) {
    if (!touch(box, run.box)) continue;
    for (std::size_t i = run.first; i < run.last; ++i) {
      if (run.ring == &ring && (i == edge || i == previous || i == next)) continue;
      if (tangled(ring, edge, *run.ring, i)) return true;
    }
  }
  return false;
}

template <typename Visit>
void for_each_ring(const MultiPolygon& polygons, Visit visit) {
  for (const Polygon& polygon : polygons) {
    visit(polygon.outer);
    for (const Ring& hole : polygon.holes) visit(hole);
  }
}

// Where vertices were moved to, sorted.
std::vector<Point> moved_to(const MultiPolygon& before) {
  std::vector<Point> moved;
  for_each_ring(before, [&moved](const Ring& ring) {
    for (const Point p : ring) {
      const Point q{std::round(p.x), std::round(p.y)};
      if (!(p == q)) moved.push_back(q);
    }
  });
  std::sort(moved.begin(), moved.end(), below);
  return moved;
}

}  // namespace

bool untangled(const MultiPolygon& before, const MultiPolygon& rounded) {
  const std::vector<Point> moved = moved_to(before);
  if (moved.empty()) return true;
  std::vector<Run> runs;
  for_each_ring(rounded, [&runs](const Ring& ring) { add_runs(ring, runs); });
  bool result = true;
  for_each_ring(rounded, [&](const Ring& ring) {
    for (std::size_t i = 0; i < ring.size() && result; ++i) {
      if (!std::binary_search(moved.begin(), moved.end(), ring[i], below)) continue;
      result = !tangled(ring, ahead(ring, i), runs) && !tangled(ring, i, runs);
    }
  });
  return result;
}

}  // namespace leeway::overlay
