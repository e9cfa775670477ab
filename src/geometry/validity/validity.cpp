#include "geometry/validity/validity.h"

#include <algorithm>
#include <cmath>

#include "geometry/plane/assert.h"
#include "geometry/plane/vector.h"
#include "geometry/validity/ring_edges.h"

namespace leeway {
namespace {

// Shorter stretches of a boundary are not asked where they run: around a place where boundaries
// touch, rounding makes such stretches out of nothing.
constexpr double kShortestStretch = 1e-8;

// Where neighbouring edges, `second` beginning at the end of `first`, lie on each other.
std::optional<Point> fold(const Edge& first, const Edge& second) {
  if (near_edge(second.b, first)) return second.b;
  if (near_edge(first.a, second)) return first.a;
  return std::nullopt;
}

bool all_on_one_line(const std::vector<Edge>& edges) {
  const Point start = edges.front().a;
  Point far = start;
  for (const Edge& e : edges) {
    // A vertex close by would give a line whose direction is rounding.
    if (distance(e.a, start) > distance(far, start)) far = e.a;
  }
  const Edge line = edge_between(start, far, 0);
  return std::all_of(edges.begin(), edges.end(), [&](const Edge& e) {
    return std::abs(dot(line.normal, e.a - start)) <= kTouching;
  });
}

std::size_t distinct_vertices(const std::vector<Edge>& edges) {
  std::vector<Point> points;
  points.reserve(edges.size());
  for (const Edge& e : edges) points.push_back(e.a);
  std::sort(points.begin(), points.end(),
            [](Point a, Point b) { return a.x != b.x ? a.x < b.x : a.y < b.y; });
  return static_cast<std::size_t>(std::unique(points.begin(), points.end()) - points.begin());
}

std::optional<Point> clash(const std::vector<Edge>& edges, std::size_t i, std::size_t j) {
  const std::size_t n = edges.size();
  if ((i + 1) % n == j) return fold(edges[i], edges[j]);
  if ((j + 1) % n == i) return fold(edges[j], edges[i]);
  const Meetings found = meetings(edges[i], edges[j]);
  return found.count > 0 ? std::optional<Point>(found.at[found.count - 1]) : std::nullopt;
}

// What the sweep has to know of an edge, close together in memory.
struct SweepEdge {
  Point a;
  Point b;
  double low = 0;  // along the sweep
  std::size_t edge = 0;
};

// The edges sorted along the axis on which they overlap less.
std::vector<SweepEdge> sweep_order(const std::vector<Edge>& edges, bool along_y) {
  std::vector<SweepEdge> order(edges.size());
  for (std::size_t i = 0; i < edges.size(); ++i) {
    const Edge& e = edges[i];
    order[i] = {e.a, e.b, along_y ? e.box.y0 : e.box.x0, i};
  }
  std::sort(order.begin(), order.end(), [](const SweepEdge& e, const SweepEdge& f) {
    return e.low != f.low ? e.low < f.low : e.edge < f.edge;
  });
  return order;
}

bool less_overlap_along_y(const std::vector<Edge>& edges) {
  double width = 0;
  double depth = 0;
  for (const Edge& e : edges) {
    width += e.box.width();
    depth += e.box.depth();
  }
  return depth < width;
}

// Every pair that overlaps along the sweep is looked at. That is quadratic for long edges side by
// side, but most pairs fall to the first question: 10,000 vertices take half a second at worst.
std::optional<RingFault> self_crossing(const std::vector<Edge>& edges) {
  const bool along_y = less_overlap_along_y(edges);
  const std::vector<SweepEdge> order = sweep_order(edges, along_y);
  for (std::size_t i = 0; i < order.size(); ++i) {
    const Edge& e = edges[order[i].edge];
    const double reach = (along_y ? e.box.y1 : e.box.x1) + kTouching;
    for (std::size_t j = i + 1; j < order.size() && order[j].low <= reach; ++j) {
      const SweepEdge& f = order[j];
      const double side_a = dot(e.normal, f.a - e.a);
      const double side_b = dot(e.normal, f.b - e.a);
      if (on_one_side(side_a, side_b) || !boxes_meet(e.box, edges[f.edge].box)) continue;
      const auto [first, second] = std::minmax(order[i].edge, f.edge);
      if (const auto place = clash(edges, first, second)) {
        return RingFault{RingFault::Kind::self_crossing, edges[first].index, edges[second].index,
                         *place};
      }
    }
  }
  return std::nullopt;
}

// Several rings as one bag of edges; inside is what an odd number of them surrounds.
struct Outline {
  std::vector<Edge> edges;
  Box box{1, 0, 1, 0};

  void add(const Ring& ring) {
    for (const Edge& e : edges_of(ring)) {
      box = edges.empty() ? e.box
                          : Box{std::min(box.x0, e.box.x0), std::max(box.x1, e.box.x1),
                                std::min(box.y0, e.box.y0), std::max(box.y1, e.box.y1)};
      edges.push_back(e);
    }
  }
  bool touches(Point p) const {
    const Box here{p.x, p.x, p.y, p.y};
    return std::any_of(edges.begin(), edges.end(),
                       [&](const Edge& e) { return boxes_meet(here, e.box) && near_edge(p, e); });
  }
  // Half open in y: a vertex on the ray counts for one of its two edges.
  bool surrounds(Point p) const {
    bool inside = false;
    for (const Edge& e : edges) {
      if ((e.a.y > p.y) == (e.b.y > p.y)) continue;
      const bool left = cross(e.b - e.a, p - e.a) > 0;
      if (left == (e.b.y > e.a.y)) inside = !inside;
    }
    return inside;
  }
};

Outline outline_of(const Ring& ring) {
  Outline outline;
  outline.add(ring);
  return outline;
}

Outline outline_of(const Polygon& polygon) {
  Outline outline = outline_of(polygon.outer);
  for (const Ring& hole : polygon.holes) outline.add(hole);
  return outline;
}

// How the boundary of one outline runs with regard to another: a point of each kind of stretch.
struct Course {
  std::optional<Point> inside;
  std::optional<Point> outside;
  std::optional<Point> along;

  void note(Point p, const Outline& other) {
    if (other.touches(p)) {
      along = p;
    } else {
      (other.surrounds(p) ? inside : outside) = p;
    }
  }
};

// The places along an edge, 0 to 1, where it meets the other outline.
std::vector<double> stops(const Edge& e, const Outline& other) {
  std::vector<double> at;
  if (!boxes_meet(e.box, other.box)) return at;
  const Point run = e.b - e.a;
  for (const Edge& f : other.edges) {
    if (!boxes_meet(e.box, f.box)) continue;
    const Meetings found = meetings(e, f);
    for (int i = 0; i < found.count; ++i) {
      at.push_back(std::clamp(dot(found.at[i] - e.a, run) / dot(run, run), 0.0, 1.0));
    }
  }
  return at;
}

// Edges that meet nothing run on the side of the stretches next to them, so only those that do
// meet something are looked at, or one edge where none does.
Course course(const Outline& ring, const Outline& other) {
  Course result;
  bool met = false;
  for (const Edge& e : ring.edges) {
    std::vector<double> at = stops(e, other);
    if (at.empty()) continue;
    met = true;
    at.push_back(0);
    at.push_back(1);
    std::sort(at.begin(), at.end());
    for (std::size_t i = 1; i < at.size(); ++i) {
      if ((at[i] - at[i - 1]) * distance(e.a, e.b) <= kShortestStretch) continue;
      result.note(e.a + ((at[i - 1] + at[i]) / 2) * (e.b - e.a), other);
    }
  }
  if (!met && !ring.edges.empty()) result.note(ring.edges.front().a, other);
  return result;
}

// A place where the insides of two outlines, or lengths of their boundaries, coincide. The first
// two are the outer rings, the others the same with their holes.
std::optional<Point> overlap(const Outline& outer_a, const Outline& a, const Outline& outer_b,
                             const Outline& b) {
  if (!boxes_meet(a.box, b.box)) return std::nullopt;
  const Course there = course(outer_a, b);
  if (there.inside) return there.inside;
  if (there.along) return there.along;
  const Course back = course(outer_b, a);
  return back.inside ? back.inside : back.along;
}

bool has_simple_rings(const Polygon& polygon) {
  return !ring_fault(polygon.outer) &&
         std::none_of(polygon.holes.begin(), polygon.holes.end(),
                      [](const Ring& hole) { return ring_fault(hole).has_value(); });
}

}  // namespace

Ring without_repeats(const Ring& ring) {
  Ring result;
  for (const std::size_t i : kept_vertices(ring)) result.push_back(ring[i]);
  return result;
}

std::optional<RingFault> ring_fault(const Ring& ring) {
  const std::vector<Edge> edges = edges_of(ring);
  if (distinct_vertices(edges) < 3) return RingFault{RingFault::Kind::too_few_vertices, 0, 0, {}};
  if (all_on_one_line(edges)) return RingFault{RingFault::Kind::no_area, 0, 0, {}};
  return self_crossing(edges);
}

std::vector<PolygonFault> polygon_faults(const Polygon& polygon) {
  LEEWAY_ASSERT(has_simple_rings(polygon));
  std::vector<PolygonFault> faults;
  const Outline outer = outline_of(polygon.outer);
  std::vector<Outline> holes;
  for (std::size_t i = 0; i < polygon.holes.size(); ++i) {
    holes.push_back(outline_of(polygon.holes[i]));
    const Course run = course(holes[i], outer);
    if (run.outside || run.along) {
      faults.push_back(
          {PolygonFault::Kind::hole_outside, i, i, run.outside ? *run.outside : *run.along});
    }
    for (std::size_t j = 0; j < i; ++j) {
      if (const auto place = overlap(holes[i], holes[i], holes[j], holes[j])) {
        faults.push_back({PolygonFault::Kind::holes_overlap, i, j, *place});
        break;
      }
    }
  }
  return faults;
}

std::vector<PolygonFault> polygons_faults(const MultiPolygon& polygons) {
  LEEWAY_ASSERT(std::all_of(polygons.begin(), polygons.end(), has_simple_rings));
  std::vector<PolygonFault> faults;
  std::vector<Outline> outers;
  std::vector<Outline> wholes;
  for (std::size_t i = 0; i < polygons.size(); ++i) {
    outers.push_back(outline_of(polygons[i].outer));
    wholes.push_back(outline_of(polygons[i]));
    for (std::size_t j = 0; j < i; ++j) {
      if (const auto place = overlap(outers[i], wholes[i], outers[j], wholes[j])) {
        faults.push_back({PolygonFault::Kind::polygons_overlap, i, j, *place});
        break;
      }
    }
  }
  return faults;
}

}  // namespace leeway
