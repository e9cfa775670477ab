#include "geometry/overlay/overlay_check.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <utility>
#include <vector>

#include "geometry/overlay/overlay_rings.h"
#include "geometry/plane/infinity.h"

// A sweep from front to back. Between two neighbouring values of y among all vertices every edge
// that is met runs through, so there the sets are trapezoids between edges, and the wrong ones
// are summed. Where two edges cross on the way the band is cut at the crossing. The sum is a
// continuous function of the coordinates: rounding can make it a little wrong, never grossly,
// whatever coincides with whatever.

namespace leeway::overlay {
namespace {

enum Layer : std::size_t { kA, kB, kResult };

// Edges that change places by less than this (um) do not cross as far as an area can tell. A
// double resolves 1e-10 um on any bed.
constexpr double kSamePlace = 1e-5;

// What the winding numbers of the layers change by when an edge is passed from left to right.
using WindingSteps = std::array<int, 3>;

struct LayerEdge {
  double x0, y0, y1;  // y0 < y1
  double slope;       // dx/dy
  WindingSteps steps;

  double x_at(double y) const { return x0 + (y - y0) * slope; }
};

constexpr std::size_t kNone = static_cast<std::size_t>(-1);

// A vertex: where an edge begins, or none does.
struct Event {
  double y;
  std::size_t edge;

  friend bool operator<(const Event& a, const Event& b) { return a.y < b.y; }
};

// An edge that runs through the band; x at both ends of the band and in its middle.
struct Active : LayerEdge {
  double bottom, top, middle;
};

class Sweep {
 public:
  void start(Operation operation, std::size_t vertices) {
    edges_.clear();
    edges_.reserve(vertices);
    events_.clear();
    events_.reserve(vertices + vertices / 8);
    active_.clear();
    for (const bool in_a : {false, true}) {
      for (const bool in_b : {false, true}) wanted_[in_a][in_b] = holds(operation, in_a, in_b);
    }
  }

  void add(const MultiPolygon& polygons, Layer layer);
  double wrong_area();

 private:
  void add(const Ring& ring, Layer layer);
  void sort_events();
  void begin(const LayerEdge& edge);
  double band(double y0, double y1);
  double cut_band(double y0, double y1);
  // The result is compared by how often it covers, not by whether it does: so twice is wrong too.
  bool is_wrong(const WindingSteps& winding) const {
    return winding[kResult] != wanted_[winding[kA] > 0][winding[kB] > 0];
  }

  // The winding number of the right result, by whether the point is in a and in b.
  std::array<std::array<int, 2>, 2> wanted_{};
  std::vector<LayerEdge> edges_;
  std::vector<Event> events_;
  std::vector<Event> sorted_;
  std::vector<std::size_t> ends_;  // of the buckets
  std::vector<Active> active_;     // from left to right
  std::vector<double> cuts_;
};

void Sweep::add(const MultiPolygon& polygons, Layer layer) {
  for (const Polygon& polygon : polygons) {
    add(polygon.outer, layer);
    for (const Ring& hole : polygon.holes) add(hole, layer);
  }
}

void Sweep::add(const Ring& ring, Layer layer) {
  if (ring.size() < 3) return;
  Point p = ring.back();
  bool came_up = p.y > ring[ring.size() - 2].y;
  for (const Point q : ring) {
    // A vertex that is the lower end of no edge still bounds a band.
    if (p.y == q.y || (came_up && p.y > q.y)) events_.push_back({p.y, kNone});
    // A level edge bounds no band sideways. Only its ends count, above.
    if (p.y != q.y) {
      const bool down = p.y > q.y;
      const Point low = down ? q : p;
      const Point high = down ? p : q;
      events_.push_back({low.y, edges_.size()});
      LayerEdge edge{low.x, low.y, high.y, (high.x - low.x) / (high.y - low.y), {}};
      // Passed from left to right, an edge that runs down has the inside of its ring ahead.
      edge.steps[layer] = down ? 1 : -1;
      edges_.push_back(edge);
    }
    came_up = p.y < q.y;
    p = q;
  }
}

// By y: into as many buckets as there are events, then within each. Faster than sorting at once,
// and sorting is much of the work.
void Sweep::sort_events() {
  if (events_.empty()) return;
  const auto [least, greatest] = std::minmax_element(events_.begin(), events_.end());
  const double low = least->y;
  const double per_y = static_cast<double>(events_.size() - 1) / std::max(greatest->y - low, 1e-9);
  const auto bucket = [low, per_y](const Event& e) {
    return static_cast<std::size_t>((e.y - low) * per_y);
  };
  ends_.assign(events_.size() + 1, 0);
  for (const Event& e : events_) ++ends_[bucket(e) + 1];
  for (std::size_t i = 1; i < ends_.size(); ++i) ends_[i] += ends_[i - 1];
  sorted_.resize(events_.size());
  for (const Event& e : events_) sorted_[ends_[bucket(e)]++] = e;
  for (std::size_t i = 0, from = 0; i + 1 < ends_.size(); from = ends_[i++]) {
    if (ends_[i] - from < 2) continue;
    std::sort(sorted_.begin() + static_cast<std::ptrdiff_t>(from),
              sorted_.begin() + static_cast<std::ptrdiff_t>(ends_[i]));
  }
  events_.swap(sorted_);
}

double Sweep::wrong_area() {
  double sum = 0;
  double y0 = -kInfinity;
  sort_events();
  for (const Event& event : events_) {
    if (event.y > y0 && !active_.empty()) sum += band(y0, event.y);
    y0 = event.y;
    if (event.edge != kNone) begin(edges_[event.edge]);
  }
  return sum;
}

// Puts an edge in its place among the active ones, all of them at the y where it begins. Edges of
// two layers often coincide: they become one.
// The `top` of an active edge is its x at this very level: band() has moved it there.
void Sweep::begin(const LayerEdge& edge) {
  auto at = active_.end();
  for (; at != active_.begin(); --at) {
    const Active& left = *(at - 1);
    if (left.top < edge.x0 || (left.top == edge.x0 && left.slope <= edge.slope)) break;
  }
  if (at != active_.begin()) {
    Active& left = *(at - 1);
    if (left.x0 == edge.x0 && left.y0 == edge.y0 && left.y1 == edge.y1 &&
        left.slope == edge.slope) {
      for (std::size_t i = 0; i < edge.steps.size(); ++i) left.steps[i] += edge.steps[i];
      return;
    }
  }
  active_.insert(at, {edge, edge.x0, edge.x0, edge.x0});
}

// The wrong area between two levels; edges that end at the lower one leave.
// One pass drops what has ended, moves the rest up, adds the wrong widths and notices crossings.
// Without a crossing an area is a width in the middle times the height.
double Sweep::band(double y0, double y1) {
  std::size_t kept = 0;
  bool crossed = false;
  bool wrong = false;
  WindingSteps winding{};
  double wrong_width = 0;
  double bottom = -kInfinity;
  double top = -kInfinity;
  double middle = 0;
  for (std::size_t i = 0; i < active_.size(); ++i) {
    if (active_[i].y1 <= y0) continue;
    if (kept != i) active_[kept] = active_[i];
    Active& active = active_[kept++];
    active.bottom = active.top;
    active.top = active.x_at(y1);
    active.middle = (active.bottom + active.top) / 2;
    crossed |= active.bottom < bottom - kSamePlace || active.top < top - kSamePlace;
    if (wrong) wrong_width += active.middle - middle;
    for (std::size_t k = 0; k < winding.size(); ++k) winding[k] += active.steps[k];
    wrong = is_wrong(winding);
    bottom = active.bottom;
    top = active.top;
    middle = active.middle;
  }
  active_.resize(kept);
  return crossed ? cut_band(y0, y1) : wrong_width * (y1 - y0);
}

void sort_by_middle(std::vector<Active>& active) {
  std::sort(active.begin(), active.end(),
            [](const Active& a, const Active& b) { return a.middle < b.middle; });
}

// The band cut at every crossing inside it: within a part the order is the same throughout.
double Sweep::cut_band(double y0, double y1) {
  cuts_.assign({y0, y1});
  for (std::size_t i = 0; i < active_.size(); ++i) {
    for (std::size_t j = i + 1; j < active_.size(); ++j) {
      const double before = active_[j].bottom - active_[i].bottom;
      const double after = active_[j].top - active_[i].top;
      if (std::min(before, after) > -kSamePlace || std::max(before, after) < kSamePlace) continue;
      cuts_.push_back(y0 + (y1 - y0) * (before / (before - after)));
    }
  }
  std::sort(cuts_.begin(), cuts_.end());
  double sum = 0;
  for (std::size_t i = 1; i < cuts_.size(); ++i) {
    const double height = cuts_[i] - cuts_[i - 1];
    const double middle = cuts_[i - 1] + height / 2;
    for (Active& active : active_) active.middle = active.x_at(middle);
    sort_by_middle(active_);
    bool wrong = false;
    WindingSteps winding{};
    double last = 0;
    for (const Active& active : active_) {
      if (wrong) sum += (active.middle - last) * height;
      last = active.middle;
      for (std::size_t k = 0; k < winding.size(); ++k) winding[k] += active.steps[k];
      wrong = is_wrong(winding);
    }
  }
  return sum;
}

std::size_t vertex_count(const MultiPolygon& polygons) {
  std::size_t count = 0;
  for (const Polygon& polygon : polygons) {
    count += polygon.outer.size();
    for (const Ring& hole : polygon.holes) count += hole.size();
  }
  return count;
}

}  // namespace

double wrong_area(Operation operation, const MultiPolygon& a, const MultiPolygon& b,
                  const MultiPolygon& result) {
  if (!finite(result)) return kInfinity;
  // Kept between calls: to get fresh memory each time would double the cost.
  thread_local Sweep sweep;
  sweep.start(operation, vertex_count(a) + vertex_count(b) + vertex_count(result));
  sweep.add(a, kA);
  sweep.add(b, kB);
  sweep.add(result, kResult);
  return sweep.wrong_area();
}

}  // namespace leeway::overlay
