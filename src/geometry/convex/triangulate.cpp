#include "geometry/convex/decomposition.h"

#include <algorithm>
#include <cstddef>

#include "geometry/convex/planar_sweep.h"
#include "geometry/plane/orientation.h"
#include "geometry/plane/polygons.h"

namespace leeway::decomposition {
namespace {

using Face = std::vector<int>;

// The polygon's rings without straight corners, the interior on the left.
std::vector<Ring> oriented_rings(const Polygon& polygon) {
  std::vector<Ring> rings{normalized(polygon.outer)};
  for (const Ring& hole : polygon.holes) {
    rings.push_back(normalized(hole));
    std::reverse(rings.back().begin(), rings.back().end());
  }
  rings.erase(
      std::remove_if(rings.begin(), rings.end(), [](const Ring& r) { return r.size() < 3; }),
      rings.end());
  return rings;
}

// One index a place: rings that touch share it, and PlanarSweep counts on that.
void collect_vertices(const std::vector<Ring>& rings, Triangulation& out) {
  std::vector<Point> all;
  for (const Ring& ring : rings) all.insert(all.end(), ring.begin(), ring.end());
  std::sort(all.begin(), all.end(),
            [](Point a, Point b) { return lexicographic(in_picometres(a), in_picometres(b)); });
  for (const Point p : all) {
    const Point whole = in_picometres(p);
    if (!out.whole.empty() && out.whole.back() == whole) continue;
    out.vertices.push_back(p);
    out.whole.push_back(whole);
  }
}

std::vector<Directed> boundary_of(const std::vector<Ring>& rings, const Triangulation& in) {
  std::vector<Directed> boundary;
  const auto index = [&](Point p) {
    const auto it =
        std::lower_bound(in.whole.begin(), in.whole.end(), in_picometres(p), lexicographic);
    return static_cast<int>(it - in.whole.begin());
  };
  for (const Ring& ring : rings) {
    int from = index(ring.back());
    for (const Point p : ring) {
      const int to = index(p);
      boundary.push_back({from, to});
      from = to;
    }
  }
  return boundary;
}

// The faces to the left of the edges of a plane graph, each as its vertices counter-clockwise.
class Faces {
 public:
  Faces(const std::vector<Point>& whole, const std::vector<Directed>& edges)
      : at_(whole), edges_(edges), leaving_(whole.size()) {
    for (std::size_t e = 0; e < edges.size(); ++e) leaving_[edges[e].from].push_back(e);
    for (int v = 0; v < static_cast<int>(whole.size()); ++v) {
      std::sort(leaving_[v].begin(), leaving_[v].end(),
                [&](std::size_t a, std::size_t b) { return before(v, edges[a].to, edges[b].to); });
    }
  }

  // False when they don't close, as where edges cross.
  bool walk(std::vector<Face>& faces) const {
    std::vector<bool> seen(edges_.size(), false);
    for (std::size_t start = 0; start < edges_.size(); ++start) {
      if (seen[start]) continue;
      Face face;
      std::size_t e = start;
      do {
        if (seen[e] || leaving_[edges_[e].to].empty()) return false;
        seen[e] = true;
        face.push_back(edges_[e].from);
        e = next(e);
      } while (e != start);
      faces.push_back(std::move(face));
    }
    return true;
  }

 private:
  // Counter-clockwise around `center`, from just right of straight down.
  bool before(int center, int a, int b) const {
    if ((a > center) != (b > center)) return a > center;
    return orientation(at_[center], at_[a], at_[b]) > 0;
  }

  // At its end the first edge clockwise from the way back.
  std::size_t next(std::size_t edge) const {
    const int here = edges_[edge].to;
    const int back = edges_[edge].from;
    const std::vector<std::size_t>& fan = leaving_[here];
    const auto it = std::lower_bound(fan.begin(), fan.end(), back, [&](std::size_t e, int other) {
      return before(here, edges_[e].to, other);
    });
    return it == fan.begin() ? fan.back() : *(it - 1);
  }

  const std::vector<Point>& at_;
  const std::vector<Directed>& edges_;
  std::vector<std::vector<std::size_t>> leaving_;
};

// Triangles of one face that every vertical meets in one stretch, from left to right with a stack
// of vertices that still wait for theirs (Garey, Johnson, Preparata and Tarjan 1978).
class MonotoneFace {
 public:
  explicit MonotoneFace(Triangulation& out) : out_(out) {}

  // False when the face is not such a one.
  bool triangulate(const Face& face) {
    if (!sort_chains(face)) return false;
    stack_ = {order_[0], order_[1]};
    for (std::size_t i = 2; i < order_.size(); ++i) {
      const bool is_last = i + 1 == order_.size();
      const bool good =
          is_last || order_[i].upper != stack_.back().upper ? fan(order_[i]) : chain(order_[i]);
      if (!good) return false;
    }
    return true;
  }

 private:
  struct Step {
    int vertex;
    bool upper;
  };

  bool sort_chains(const Face& face) {
    const std::size_t n = face.size();
    if (n < 3) return false;
    const auto start =
        static_cast<std::size_t>(std::min_element(face.begin(), face.end()) - face.begin());
    const auto vertex = [&](std::size_t k) { return face[(start + k) % n]; };
    std::size_t turn = 0;
    while (turn + 1 < n && vertex(turn + 1) > vertex(turn)) ++turn;
    for (std::size_t k = turn; k < n; ++k) {
      if (vertex(k + 1) >= vertex(k)) return false;
    }
    std::vector<Step> lower;
    std::vector<Step> upper;
    for (std::size_t k = 0; k <= turn; ++k) lower.push_back({vertex(k), false});
    for (std::size_t k = n - 1; k > turn; --k) upper.push_back({vertex(k), true});
    order_.resize(n);
    std::merge(lower.begin(), lower.end(), upper.begin(), upper.end(), order_.begin(),
               [](const Step& a, const Step& b) { return a.vertex < b.vertex; });
    return true;
  }

  int turn(const Step& a, const Step& b, const Step& c) const {
    return orientation(out_.whole[a.vertex], out_.whole[b.vertex], out_.whole[c.vertex]);
  }

  // A vertex opposite the waiting chain sees all of it.
  bool fan(const Step& step) {
    const bool upper = stack_.back().upper;
    for (std::size_t k = 0; k + 1 < stack_.size(); ++k) {
      if (!emit(stack_[k], stack_[k + 1], step, upper)) return false;
    }
    stack_ = {stack_.back(), step};
    return true;
  }

  // A vertex that goes on with the waiting chain sees it as far back as the chain bends outward.
  bool chain(const Step& step) {
    while (stack_.size() >= 2) {
      const Step& last = stack_[stack_.size() - 1];
      const Step& before = stack_[stack_.size() - 2];
      if (turn(before, last, step) != (step.upper ? -1 : 1)) break;
      if (!emit(before, last, step, step.upper)) return false;
      stack_.pop_back();
    }
    stack_.push_back(step);
    return true;
  }

  bool emit(const Step& a, const Step& b, const Step& c, bool chain_is_upper) {
    const int way = turn(a, b, c) * (chain_is_upper ? -1 : 1);
    if (way <= 0) return false;
    if (chain_is_upper) {
      out_.triangles.push_back({c.vertex, b.vertex, a.vertex});
    } else {
      out_.triangles.push_back({a.vertex, b.vertex, c.vertex});
    }
    return true;
  }

  Triangulation& out_;
  std::vector<Step> order_;
  std::vector<Step> stack_;
};

}  // namespace

// Diagonals cut the polygon into faces that go from left to right, and those are easy to cut into
// triangles. Each step may find that rings cross; the caller then takes another way.
std::optional<Triangulation> triangulate(const Polygon& polygon) {
  Triangulation result;
  const std::vector<Ring> rings = oriented_rings(polygon);
  collect_vertices(rings, result);
  PlanarSweep sweep(result.whole, boundary_of(rings, result));
  if (!sweep.run()) return std::nullopt;

  std::vector<Face> faces;
  if (!Faces(result.whole, sweep.result()).walk(faces)) return std::nullopt;
  MonotoneFace monotone(result);
  for (const Face& face : faces) {
    if (!monotone.triangulate(face)) return std::nullopt;
  }
  return result;
}

}  // namespace leeway::decomposition
