#include "geometry/validity/ring_edges.h"

#include <algorithm>

#include "geometry/plane/polygons.h"
#include "geometry/plane/vector.h"

namespace leeway {
namespace {

bool same_place(Point a, Point b) { return distance(a, b) <= kTouching; }

bool on_two_sides(double s, double t) { return (s < 0 && t > 0) || (s > 0 && t < 0); }

}  // namespace

Edge edge_between(Point a, Point b, std::size_t index) {
  const double run = distance(a, b);
  const Point along = run > 0 ? (1 / run) * (b - a) : Point{1, 0};
  const auto [x0, x1] = std::minmax(a.x, b.x);
  const auto [y0, y1] = std::minmax(a.y, b.y);
  return {a, b, {x0, x1, y0, y1}, {-along.y, along.x}, index};
}

std::vector<std::size_t> kept_vertices(const Ring& ring) {
  std::vector<std::size_t> kept;
  kept.reserve(ring.size());
  for (std::size_t i = 0; i < ring.size(); ++i) {
    if (kept.empty() || !same_place(ring[kept.back()], ring[i])) kept.push_back(i);
  }
  while (kept.size() > 1 && same_place(ring[kept.back()], ring[kept.front()])) kept.pop_back();
  return kept;
}

std::vector<Edge> edges_of(const Ring& ring) {
  const std::vector<std::size_t> kept = kept_vertices(ring);
  std::vector<Edge> edges;
  edges.reserve(kept.size());
  for (std::size_t i = 0; i < kept.size(); ++i) {
    const std::size_t next = kept[(i + 1) % kept.size()];
    edges.push_back(edge_between(ring[kept[i]], ring[next], kept[i]));
  }
  return edges;
}

bool near_edge(Point p, const Edge& e) { return same_place(p, closest_on_segment(e.a, e.b, p)); }

// Ends are asked with a tolerance: of edges that only touch doubles cannot tell whether they cross.
Meetings meetings(const Edge& e, const Edge& f) {
  Meetings found;
  const double ea = dot(f.normal, e.a - f.a);
  const double eb = dot(f.normal, e.b - f.a);
  if (on_one_side(ea, eb)) return found;
  const double fa = dot(e.normal, f.a - e.a);
  const double fb = dot(e.normal, f.b - e.a);
  if (on_one_side(fa, fb)) return found;
  if (near_edge(e.a, f)) found.add(e.a);
  if (near_edge(e.b, f)) found.add(e.b);
  if (near_edge(f.a, e)) found.add(f.a);
  if (near_edge(f.b, e)) found.add(f.b);
  if (on_two_sides(ea, eb) && on_two_sides(fa, fb)) found.add(e.a + (ea / (ea - eb)) * (e.b - e.a));
  return found;
}

}  // namespace leeway
