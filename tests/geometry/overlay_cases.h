#pragma once
// Polygons, random families and an independent judge for the tests of overlay.

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <random>
#include <string>
#include <utility>
#include <vector>

#include "geometry/plane/micrometres.h"
#include "geometry/plane/polygons.h"
#include "leeway/geometry.h"

namespace leeway::testing {

inline Polygon rectangle(double x0, double x1, double y0, double y1) {
  return to_polygon({x0, x1, y0, y1});
}

inline double area_of(const MultiPolygon& polygons) {
  double sum = 0;
  for (const Polygon& polygon : polygons) sum += area(polygon);
  return sum;
}

// Whole numbers from low to high, the same on every machine.
class Dice {
 public:
  explicit Dice(unsigned seed) : engine_(seed) {}
  int roll(int low, int high) {
    return low + static_cast<int>(engine_() % static_cast<unsigned>(high - low + 1));
  }

 private:
  std::mt19937 engine_;
};

// A regular polygon on the lattice; `phase` in steps of one corner.
inline Polygon gon(Point centre, double radius, int corners, double phase = 0) {
  Polygon result;
  for (int k = 0; k < corners; ++k) {
    const double angle = 2 * std::acos(-1.0) * (k + phase) / corners;
    result.outer.push_back(to_lattice(
        Point{centre.x + radius * std::cos(angle), centre.y + radius * std::sin(angle)}));
  }
  return result;
}

// The area of the points that are in some polygon of `a` (or `b`), by brute force: every edge
// against every edge, bands between all corners and crossings, parity along their middle lines.
// Shares nothing with what it judges.
class AreaByBands {
 public:
  AreaByBands(const std::vector<Polygon>& a, const std::vector<Polygon>& b) {
    for (const Polygon& polygon : a) add(polygon, 0);
    for (const Polygon& polygon : b) add(polygon, 1);
    for (const Edge& edge : edges_) levels_.insert(levels_.end(), {edge.low.y, edge.high.y});
    for (std::size_t i = 0; i < edges_.size(); ++i) {
      for (std::size_t j = i + 1; j < edges_.size(); ++j) add_crossing(edges_[i], edges_[j]);
    }
    std::sort(levels_.begin(), levels_.end());
  }

  template <typename Holds>
  double area(Holds holds) const {
    double sum = 0;
    for (std::size_t i = 1; i < levels_.size(); ++i) {
      const double height = levels_[i] - levels_[i - 1];
      if (height > 1e-12) sum += height * width((levels_[i] + levels_[i - 1]) / 2, holds);
    }
    return sum;
  }
  double united() const {
    return area([](bool in_a, bool in_b) { return in_a || in_b; });
  }
  double common() const {
    return area([](bool in_a, bool in_b) { return in_a && in_b; });
  }
  double difference() const {
    return area([](bool in_a, bool in_b) { return in_a && !in_b; });
  }

 private:
  struct Edge {
    Point low, high;
    std::size_t polygon;
    double x(double y) const { return low.x + (high.x - low.x) * ((y - low.y) / (high.y - low.y)); }
  };

  void add(const Polygon& polygon, std::size_t set) {
    add(polygon.outer);
    for (const Ring& hole : polygon.holes) add(hole);
    set_of_.push_back(set);
  }
  void add(const Ring& ring) {
    for (std::size_t i = 0; i < ring.size(); ++i) {
      Point p = ring[i];
      Point q = ring[(i + 1) % ring.size()];
      if (p.y > q.y) std::swap(p, q);
      if (p.y < q.y) edges_.push_back({p, q, set_of_.size()});
    }
  }
  void add_crossing(const Edge& a, const Edge& b) {
    const double low = std::max(a.low.y, b.low.y);
    const double high = std::min(a.high.y, b.high.y);
    if (low >= high) return;
    const double before = a.x(low) - b.x(low);
    const double after = a.x(high) - b.x(high);
    if ((before < 0) == (after < 0) || before == after) return;
    levels_.push_back(low + (high - low) * (before / (before - after)));
  }
  template <typename Holds>
  double width(double y, Holds holds) const {
    std::vector<std::pair<double, std::size_t>> met;
    for (const Edge& edge : edges_) {
      if (edge.low.y < y && y < edge.high.y) met.emplace_back(edge.x(y), edge.polygon);
    }
    std::sort(met.begin(), met.end());
    std::vector<bool> inside(set_of_.size());
    std::size_t count[2] = {0, 0};
    double sum = 0;
    for (std::size_t i = 0; i < met.size(); ++i) {
      const std::size_t polygon = met[i].second;
      inside[polygon] = !inside[polygon];
      if (inside[polygon]) {
        ++count[set_of_[polygon]];
      } else {
        --count[set_of_[polygon]];
      }
      if (i + 1 < met.size() && holds(count[0] > 0, count[1] > 0)) {
        sum += met[i + 1].first - met[i].first;
      }
    }
    return sum;
  }

  std::vector<Edge> edges_;
  std::vector<std::size_t> set_of_;
  std::vector<double> levels_;
};

using Edges = std::vector<std::pair<Point, Point>>;

// In micrometres: whole numbers, so that products are exact.
inline Edges edges_of(const std::vector<Polygon>& polygons) {
  Edges edges;
  const auto um = [](Point p) { return Point{std::round(p.x * 1000), std::round(p.y * 1000)}; };
  const auto add = [&](const Ring& ring) {
    for (std::size_t i = 0; i < ring.size(); ++i) {
      edges.emplace_back(um(ring[i]), um(ring[(i + 1) % ring.size()]));
    }
  };
  for (const Polygon& polygon : polygons) {
    add(polygon.outer);
    for (const Ring& hole : polygon.holes) add(hole);
  }
  return edges;
}

// How much area rounding to the lattice may have moved: 0.75 um along every edge that is not part
// of the line of a given edge.
inline double rounding_allowance(const MultiPolygon& result, const std::vector<Polygon>& given) {
  const auto on_line = [](Point a, Point b, Point p) {
    return (b.x - a.x) * (p.y - a.y) == (b.y - a.y) * (p.x - a.x);
  };
  const auto known = edges_of(given);
  double length = 0;
  for (const auto& edge : edges_of(result)) {
    const bool kept = std::any_of(known.begin(), known.end(), [&](const auto& k) {
      return on_line(k.first, k.second, edge.first) && on_line(k.first, k.second, edge.second);
    });
    const Point along = edge.second - edge.first;
    if (!kept) length += std::hypot(along.x, along.y);
  }
  return 1e-6 + 0.75e-6 * length;
}

// Whether two edges cross, each in the middle of the other.
inline bool any_cross(const Edges& edges) {
  const auto side = [](const std::pair<Point, Point>& e, Point p) {
    const Point d = e.second - e.first;
    const double cross = d.x * (p.y - e.first.y) - d.y * (p.x - e.first.x);
    return (cross > 0) - (cross < 0);
  };
  const auto apart = [](double a0, double a1, double b0, double b1) {
    return std::max(a0, a1) < std::min(b0, b1) || std::max(b0, b1) < std::min(a0, a1);
  };
  for (std::size_t i = 0; i < edges.size(); ++i) {
    const auto& [a, b] = edges[i];
    for (std::size_t j = i + 1; j < edges.size(); ++j) {
      const auto& [c, d] = edges[j];
      if (a == c || a == d || b == c || b == d) continue;
      if (apart(a.x, b.x, c.x, d.x) || apart(a.y, b.y, c.y, d.y)) continue;
      if (side(edges[i], c) * side(edges[i], d) < 0 && side(edges[j], a) * side(edges[j], b) < 0) {
        return true;
      }
    }
  }
  return false;
}

// What the result must look like whatever it is of.
inline std::string fault_of_form(const MultiPolygon& result) {
  const auto ring_fault = [](const Ring& ring, bool outer) -> std::string {
    if (ring.size() < 3) return "a ring of fewer than three vertices";
    if (ring.front() == ring.back()) return "a closing point";
    if ((signed_area(ring) > 0) != outer) return "a ring of the wrong winding";
    for (const Point p : ring) {
      if (!(to_lattice(p) == p)) return "a vertex off the lattice";
    }
    return {};
  };
  for (const Polygon& polygon : result) {
    std::string fault = ring_fault(polygon.outer, true);
    for (const Ring& hole : polygon.holes) {
      if (fault.empty()) fault = ring_fault(hole, false);
    }
    if (!fault.empty()) return fault;
  }
  return any_cross(edges_of(result)) ? "edges that cross" : "";
}

}  // namespace leeway::testing
