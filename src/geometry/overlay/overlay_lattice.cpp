#include "geometry/overlay/overlay_lattice.h"

#include <algorithm>
#include <array>
#include <cstddef>
#include <map>
#include <stdexcept>
#include <utility>
#include <vector>

#include "geometry/overlay/overlay_noding.h"
#include "geometry/overlay/overlay_rings.h"
#include "geometry/plane/assert.h"

namespace leeway::overlay {
namespace {

using Winding = std::array<int, 2>;

struct Below {
  bool operator()(Point a, Point b) const { return below(a, b); }
};

// A piece of the result's boundary, which lies to its left.
struct BoundaryPiece {
  Point from, to;
};

bool inside(Operation operation, const Winding& winding) {
  return holds(operation, winding[0] > 0, winding[1] > 0);
}

// Which segments have the result on one side only: a sweep over the end points in the order of
// `below`. Segments meet at end points only, so that the order of the active ones never changes.
class BoundarySweep {
 public:
  explicit BoundarySweep(Operation operation) : operation_(operation) {}

  std::vector<BoundaryPiece> run(const std::vector<NodedSegment>& segments);

 private:
  struct Active {
    NodedSegment segment;
    Winding right;
  };

  void begin_at(Point at, std::vector<NodedSegment> beginning);
  void end_at(Point at);

  Operation operation_;
  std::vector<Active> active_;  // from left to right
  std::vector<BoundaryPiece> boundary_;
};

// The sweep stops at points, in the order of a line that is tilted a little. So level segments need
// no case of their own.
std::vector<BoundaryPiece> BoundarySweep::run(const std::vector<NodedSegment>& segments) {
  std::vector<Point> points;
  for (const NodedSegment& segment : segments)
    points.insert(points.end(), {segment.low, segment.high});
  std::sort(points.begin(), points.end(), below);
  points.erase(std::unique(points.begin(), points.end()), points.end());
  auto next = segments.begin();
  for (const Point at : points) {
    auto last = next;
    while (last != segments.end() && last->low == at) ++last;
    end_at(at);
    begin_at(at, {next, last});
    next = last;
  }
  return std::move(boundary_);
}

void BoundarySweep::end_at(Point at) {
  active_.erase(std::remove_if(active_.begin(), active_.end(),
                               [at](const Active& a) { return a.segment.high == at; }),
                active_.end());
}

void BoundarySweep::begin_at(Point at, std::vector<NodedSegment> beginning) {
  std::sort(beginning.begin(), beginning.end(), [at](const NodedSegment& a, const NodedSegment& b) {
    return turn(at, a.high, b.high) < 0;
  });
  auto place = std::partition_point(active_.begin(), active_.end(), [at](const Active& a) {
    return turn(a.segment.low, a.segment.high, at) < 0;
  });
  // Snap rounding leaves no such edge. If there is one the winding numbers would be wrong from here
  // on, and no answer is better.
  if (place != active_.end() && turn(place->segment.low, place->segment.high, at) == 0) {
    throw std::logic_error("an edge passes over a vertex");
  }
  Winding winding{};
  if (place != active_.begin()) winding = (place - 1)->right;
  std::vector<Active> entering;
  for (const NodedSegment& segment : beginning) {
    const bool left = inside(operation_, winding);
    for (std::size_t i = 0; i < winding.size(); ++i) winding[i] += segment.steps[i];
    const bool right = inside(operation_, winding);
    if (left && !right) boundary_.push_back({segment.low, segment.high});
    if (right && !left) boundary_.push_back({segment.high, segment.low});
    entering.push_back({segment, winding});
  }
  active_.insert(place, entering.begin(), entering.end());
}

// The rings that bound the result, each with the result to its left all along, the parts of one
// face together.
class Tracer {
 public:
  explicit Tracer(const std::vector<BoundaryPiece>& boundary) {
    for (const BoundaryPiece& edge : boundary) leaving_[edge.from].push_back(edge.to);
  }

  // One walk round a face: a ring that may pass a vertex several times; empty when none is left.
  Ring next_walk();

 private:
  Point take_next(Point from, Point at);

  std::map<Point, std::vector<Point>, Below> leaving_;
};

// Whether, turning clockwise from the direction `from`, one comes to `a` before `b`.
// Turning so at each vertex keeps to one face, also where several faces touch.
bool clockwise_before(Point at, Point from, Point a, Point b) {
  const bool a_right = turn(at, from, a) < 0;
  const bool b_right = turn(at, from, b) < 0;
  if (a_right != b_right) return a_right;
  return turn(at, a, b) < 0;
}

Point Tracer::take_next(Point from, Point at) {
  const auto found = leaving_.find(at);
  if (found == leaving_.end()) throw std::logic_error("a boundary that does not close");
  std::vector<Point>& ends = found->second;
  const auto next = std::min_element(
      ends.begin(), ends.end(), [&](Point a, Point b) { return clockwise_before(at, from, a, b); });
  const Point result = *next;
  ends.erase(next);
  if (ends.empty()) leaving_.erase(found);
  return result;
}

Ring Tracer::next_walk() {
  if (leaving_.empty()) return {};
  const Point start = leaving_.begin()->first;
  const Point second = leaving_.begin()->second.front();
  Ring walk{start};
  Point from = start;
  Point at = second;
  for (;;) {
    const Point next = take_next(from, at);
    // The starting point alone does not end a walk: it may be passed several times.
    if (at == start && next == second) return walk;  // the first step again
    walk.push_back(at);
    from = std::exchange(at, next);
  }
}

// A walk cut into simple rings where it comes back to a vertex.
std::vector<Ring> simple_rings(const Ring& walk) {
  std::vector<Ring> rings;
  Ring open;
  std::map<Point, std::size_t, Below> place;
  for (const Point p : walk) {
    const auto [found, is_new] = place.emplace(p, open.size());
    if (is_new) {
      open.push_back(p);
      continue;
    }
    const std::size_t first = found->second;
    rings.emplace_back(open.begin() + static_cast<std::ptrdiff_t>(first), open.end());
    for (std::size_t i = first + 1; i < open.size(); ++i) place.erase(open[i]);
    open.resize(first + 1);
  }
  rings.push_back(std::move(open));
  return rings;
}

// Whether a point on no edge of the ring is inside.
// Half open in y: a vertex on the ray counts for one of its two edges.
bool contains(const Ring& ring, Point p) {
  bool result = false;
  Point a = ring.back();
  for (const Point b : ring) {
    if ((a.y <= p.y) != (b.y <= p.y) && (turn(a, b, p) > 0) == (b.y > a.y)) result = !result;
    a = b;
  }
  return result;
}

// Every hole whose face has no outer ring of its own goes to the smallest outer ring around it.
void give_holes(const std::vector<Ring>& holes, MultiPolygon& polygons) {
  for (const Ring& hole : holes) {
    // Not a corner, which may touch the outer ring. Edges meet at end points only, so their middles
    // touch nothing.
    const Point middle = 0.5 * (hole[0] + hole[1]);
    Polygon* owner = nullptr;
    for (Polygon& polygon : polygons) {
      if (!contains(polygon.outer, middle)) continue;
      if (!owner || twice_area(polygon.outer) < twice_area(owner->outer)) owner = &polygon;
    }
    if (!owner) throw std::logic_error("a hole in nothing");
    owner->holes.push_back(hole);
  }
}

}  // namespace

LatticeResult lattice_overlay(Operation operation, const MultiPolygon& a, const MultiPolygon& b) {
  LEEWAY_ASSERT(is_whole(a) && is_whole(b));
  const Noded nodes = noded(a, b);
  Tracer tracer(BoundarySweep(operation).run(nodes.segments));
  MultiPolygon polygons;
  std::vector<Ring> homeless;
  for (Ring walk = tracer.next_walk(); !walk.empty(); walk = tracer.next_walk()) {
    Polygon face;
    for (Ring& ring : simple_rings(walk)) {
      if (twice_area(ring) < 0) {
        face.holes.push_back(std::move(ring));
      } else if (face.outer.empty()) {
        face.outer = std::move(ring);
      } else {
        throw std::logic_error("two outer rings round a face");
      }
    }
    if (face.outer.empty()) {
      std::move(face.holes.begin(), face.holes.end(), std::back_inserter(homeless));
    } else {
      polygons.push_back(std::move(face));
    }
  }
  give_holes(homeless, polygons);
  return {rounded(polygons), nodes.moved};
}

}  // namespace leeway::overlay
