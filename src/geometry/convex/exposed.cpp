#include "geometry/convex/exposed.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <tuple>
#include <unordered_map>

#include "geometry/plane/polygons.h"
#include "geometry/plane/vector.h"

namespace leeway {
namespace {

// A slit of this width is closed.
constexpr double kClosed = 2 * kSeam;
// Parts shorter than this bound nothing that a leeway could tell.
constexpr double kShort = 1e-9;

// Where edges lie: squares, each with the edges of left turns that run through it. A square round
// whose middle the ways wind more often than there are edges in it is deep: all of it is covered.
// (Passing an edge changes the winding number by one, so that it stays above 0 in all of the
// square.)
class EdgeGrid {
 public:
  EdgeGrid(const std::vector<Segment>& edges, const std::vector<ConvolutionEdge>& all,
           const Windings& windings) {
    double length = 0;
    Box box{edges[0].a.x, edges[0].a.x, edges[0].a.y, edges[0].a.y};
    for (const Segment& e : edges) {
      for (const Point p : {e.a, e.b}) {
        box = {std::min(box.x0, p.x), std::max(box.x1, p.x), std::min(box.y0, p.y),
               std::max(box.y1, p.y)};
      }
      length += distance(e.a, e.b);
    }
    // Squares about as wide as an edge is long, no more of them than four for each edge.
    const double count = static_cast<double>(edges.size());
    const double area = (box.width() + kClosed) * (box.depth() + kClosed);
    const double wide = std::max({length / count, std::sqrt(area / (4 * count)), 1e-6});
    from_ = {box.x0, box.y0};
    per_mm_ = 1 / wide;
    columns_ = static_cast<std::size_t>((box.x1 - box.x0) * per_mm_) + 1;
    rows_ = static_cast<std::size_t>((box.y1 - box.y0) * per_mm_) + 1;
    fill(edges);
    find_deep(all, windings);
  }

  bool is_deep(Point p) const {
    return deep_[place(p.x - from_.x, columns_) * rows_ + place(p.y - from_.y, rows_)];
  }

  // The edges that may meet this one where it is not deep.
  template <typename Visit>
  void visit_near(const Segment& edge, const Visit& visit) const {
    visit_squares(edge, [&](std::size_t square) {
      if (deep_[square]) return;
      for (std::size_t i = square > 0 ? ends_[square - 1] : 0; i < ends_[square]; ++i) {
        visit(members_[i]);
      }
    });
  }

 private:
  // Counted first, then filled: `ends_` holds where squares begin in between, and where they end
  // afterwards.
  void fill(const std::vector<Segment>& edges) {
    ends_.assign(columns_ * rows_, 0);
    for (const Segment& e : edges) visit_squares(e, [&](std::size_t square) { ++ends_[square]; });
    std::size_t sum = 0;
    for (std::size_t& end : ends_) {
      const std::size_t here = end;
      end = sum;
      sum += here;
    }
    members_.resize(sum);
    for (std::size_t i = 0; i < edges.size(); ++i) {
      visit_squares(edges[i], [&](std::size_t square) { members_[ends_[square]++] = i; });
    }
  }

  void find_deep(const std::vector<ConvolutionEdge>& all, const Windings& windings) {
    std::vector<int> passing(ends_.size(), 0);
    for (const ConvolutionEdge& e : all) {
      visit_squares({e.a, e.b}, [&](std::size_t square) { ++passing[square]; });
    }
    deep_.assign(ends_.size(), 0);
    for (std::size_t square = 0; square < deep_.size(); ++square) {
      if (passing[square] == 0) continue;  // nobody will ask
      const Point middle{from_.x + (static_cast<double>(square / rows_) + 0.5) / per_mm_,
                         from_.y + (static_cast<double>(square % rows_) + 0.5) / per_mm_};
      deep_[square] = windings.at(middle) > passing[square];
    }
  }

  // Column by column, with what the edge passes of each.
  template <typename Visit>
  void visit_squares(const Segment& edge, const Visit& visit) const {
    // Wider than the nearness that cut_by() looks for: no pair is missed at the border of a square.
    constexpr double kWider = 4 * kClosed;
    const Point left = edge.a.x < edge.b.x ? edge.a : edge.b;
    const Point right = edge.a.x < edge.b.x ? edge.b : edge.a;
    const double slope = right.x > left.x ? (right.y - left.y) / (right.x - left.x) : 0;
    const auto [low, high] = std::minmax(left.y, right.y);
    const std::size_t last = place(right.x + kWider - from_.x, columns_);
    for (std::size_t column = place(left.x - kWider - from_.x, columns_); column <= last;
         ++column) {
      double y0 = low;
      double y1 = high;
      if (right.x > left.x) {
        const double x0 = from_.x + static_cast<double>(column) / per_mm_ - kWider;
        const double x1 = from_.x + static_cast<double>(column + 1) / per_mm_ + kWider;
        const double at0 = left.y + slope * (x0 - left.x);
        const double at1 = left.y + slope * (x1 - left.x);
        y0 = std::max(y0, std::min(at0, at1));
        y1 = std::min(y1, std::max(at0, at1));
      }
      const std::size_t top = place(y1 + kWider - from_.y, rows_);
      for (std::size_t row = place(y0 - kWider - from_.y, rows_); row <= top; ++row) {
        visit(column * rows_ + row);
      }
    }
  }

  std::size_t place(double mm, std::size_t count) const {
    return std::min(static_cast<std::size_t>(std::max(mm * per_mm_, 0.0)), count - 1);
  }

  Point from_;
  double per_mm_ = 1;
  std::size_t columns_ = 1;
  std::size_t rows_ = 1;
  std::vector<std::size_t> ends_;  // of the squares in `members_`
  std::vector<std::size_t> members_;
  std::vector<char> deep_;
};

struct Stretch {
  double from;
  double to;
};

// One edge, cut where others meet it: between two cuts it is exposed or it is not.
class Cutter {
 public:
  Cutter(const std::vector<Segment>& edges, const std::vector<ConvolutionEdge>& all,
         const Windings& windings)
      : edges_(edges),
        windings_(windings),
        grid_(edges, all, windings),
        seen_(edges.size(), kNever) {}

  void append_exposed(std::size_t index, std::vector<Segment>& exposed) {
    edge_ = edges_[index];
    way_ = edge_.b - edge_.a;
    length_ = norm(way_);
    cuts_.assign({0, 1});
    others_.clear();
    seen_[index] = index;
    grid_.visit_near(edge_, [&](std::size_t other) {
      if (seen_[other] == index) return;
      seen_[other] = index;
      ++pairs_;
      cut_by(edges_[other], other < index);
    });
    std::sort(cuts_.begin(), cuts_.end());
    // The sum is on the left. An edge bounds it where nothing is covered just to the right, and
    // just to the right is the width of a slit that is closed.
    const Point off = (kClosed / length_) * right_of(way_);
    double open = -1;  // where the exposed part began that is not ended
    for (std::size_t i = 0; i + 1 < cuts_.size(); ++i) {
      if ((cuts_[i + 1] - cuts_[i]) * length_ < kShort) continue;
      const double middle = 0.5 * (cuts_[i] + cuts_[i + 1]);
      const bool is_exposed =
          !grid_.is_deep(at(middle)) && !of_another(middle) && windings_.at(at(middle) + off) == 0;
      if (is_exposed && open < 0) open = cuts_[i];
      if (!is_exposed && open >= 0) {
        exposed.push_back({at(open), at(cuts_[i])});
        open = -1;
      }
    }
    if (open >= 0) exposed.push_back({at(open), edge_.b});
  }

  // How many edges were held against one another.
  std::size_t pairs() const { return pairs_; }

 private:
  static constexpr std::size_t kNever = static_cast<std::size_t>(-1);

  Point at(double t) const { return t <= 0 ? edge_.a : edge_.a + t * way_; }

  void cut_by(const Segment& other, bool comes_first) {
    constexpr double kNear = 2 * kClosed;
    const double a = cross(way_, other.a - edge_.a) / length_;
    const double b = cross(way_, other.b - edge_.a) / length_;
    if (std::min(a, b) > kNear || std::max(a, b) < -kNear) return;
    const double at_a = dot(other.a - edge_.a, way_) / (length_ * length_);
    const double at_b = dot(other.b - edge_.a, way_) / (length_ * length_);
    if (std::min(at_a, at_b) > 1 || std::max(at_a, at_b) < 0) return;
    if (std::abs(a) <= kNear) cut(at_a);
    if (std::abs(b) <= kNear) cut(at_b);
    if ((a < 0) != (b < 0)) cut(at_a + a / (a - b) * (at_b - at_a));
    // Of two that lie on one another the first is the one.
    if (comes_first && at_a < at_b && std::max(std::abs(a), std::abs(b)) <= kSeam) {
      others_.push_back({at_a, at_b});
    }
  }

  void cut(double t) {
    if (t > 0 && t < 1) cuts_.push_back(t);
  }

  bool of_another(double t) const {
    return std::any_of(others_.begin(), others_.end(),
                       [t](const Stretch& s) { return s.from < t && t < s.to; });
  }

  const std::vector<Segment>& edges_;
  const Windings& windings_;
  EdgeGrid grid_;
  std::vector<std::size_t> seen_;  // by which edge each was looked at last
  Segment edge_{};
  Point way_;
  double length_ = 0;
  std::vector<double> cuts_;
  std::vector<Stretch> others_;
  std::size_t pairs_ = 0;
};

// Ends of parts as numbers: those within kSame of one another get the same.
class Nodes {
 public:
  // Near the border of a square the point may be known in the next one: so four are asked.
  std::size_t of(Point p) {
    for (const double dx : {-kSame, kSame}) {
      for (const double dy : {-kSame, kSame}) {
        const auto found = known_.find(key({p.x + dx, p.y + dy}));
        if (found != known_.end() && distance(at_[found->second], p) <= 2 * kSame) {
          return found->second;
        }
      }
    }
    known_.emplace(key(p), at_.size());
    at_.push_back(p);
    return at_.size() - 1;
  }
  Point at(std::size_t node) const { return at_[node]; }
  std::size_t size() const { return at_.size(); }

 private:
  static constexpr double kSame = 5e-7;  // mm

  // One for each square; far out (4 km) squares share them, and what meets there does not close.
  static std::uint64_t key(Point p) {
    constexpr double kSquare = 4 * kSame;
    const auto x = static_cast<std::uint64_t>(static_cast<std::int64_t>(std::floor(p.x / kSquare)));
    const auto y = static_cast<std::uint64_t>(static_cast<std::int64_t>(std::floor(p.y / kSquare)));
    return x << 32 | (y & 0xFFFFFFFFU);
  }

  std::vector<Point> at_;
  std::unordered_map<std::uint64_t, std::size_t> known_;
};

// Turning from straight on, in radians, left positive.
double turned(Point from, Point at, Point to) {
  return std::atan2(cross(at - from, to - at), dot(at - from, to - at));
}

bool contains_point(const Ring& ring, Point p) {
  bool inside = false;
  Point a = ring.back();
  for (const Point b : ring) {
    if ((a.y <= p.y) != (b.y <= p.y) && (cross(a, b, p) > 0) == (b.y > a.y)) inside = !inside;
    a = b;
  }
  return inside;
}

// Every hole in the smallest outer ring around it.
std::optional<MultiPolygon> with_holes(std::vector<Ring> outers, const std::vector<Ring>& holes) {
  MultiPolygon polygons;
  for (Ring& outer : outers) polygons.push_back({std::move(outer), {}});
  for (const Ring& hole : holes) {
    const Point middle = 0.5 * (hole[0] + hole[1]);
    Polygon* owner = nullptr;
    for (Polygon& polygon : polygons) {
      if (!contains_point(polygon.outer, middle)) continue;
      if (!owner || signed_area(polygon.outer) < signed_area(owner->outer)) owner = &polygon;
    }
    if (!owner) return std::nullopt;
    owner->holes.push_back(hole);
  }
  return polygons;
}

}  // namespace

std::optional<std::vector<Segment>> exposed_parts(const std::vector<ConvolutionEdge>& edges,
                                                  const Windings& windings, std::size_t most) {
  std::vector<Segment> of_left_turns;
  for (const ConvolutionEdge& e : edges) {
    if (e.of_left_turn) of_left_turns.push_back({e.a, e.b});
  }
  // Of regular outlines many lie on one another.
  std::sort(of_left_turns.begin(), of_left_turns.end(), [](const Segment& u, const Segment& v) {
    return std::tie(u.a.x, u.a.y, u.b.x, u.b.y) < std::tie(v.a.x, v.a.y, v.b.x, v.b.y);
  });
  const auto same = [](const Segment& u, const Segment& v) { return u.a == v.a && u.b == v.b; };
  of_left_turns.erase(std::unique(of_left_turns.begin(), of_left_turns.end(), same),
                      of_left_turns.end());
  std::vector<Segment> exposed;
  if (of_left_turns.empty()) return exposed;
  Cutter cutter(of_left_turns, edges, windings);
  for (std::size_t i = 0; i < of_left_turns.size(); ++i) {
    cutter.append_exposed(i, exposed);
    if (cutter.pairs() > most) return std::nullopt;
  }
  return exposed;
}

std::optional<MultiPolygon> outline_of_ways(const std::vector<ConvolutionEdge>& edges) {
  Windings windings;
  for (const ConvolutionEdge& e : edges) windings.add(e.a, e.b);
  windings.prepare();
  const auto exposed = exposed_parts(edges, windings, kMostPairs);
  if (!exposed || exposed->empty()) return std::nullopt;
  return outline_of(*exposed);
}

void append_ring(const Ring& ring, std::vector<ConvolutionEdge>& edges) {
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const Point next = ring[(i + 1) % ring.size()];
    if (!(ring[i] == next)) edges.push_back({ring[i], next, true});
  }
}

std::optional<MultiPolygon> outline_of_union(const std::vector<Polygon>& parts) {
  std::vector<ConvolutionEdge> edges;
  const auto add = [&edges](Ring ring, bool counter_clockwise) {
    if ((signed_area(ring) > 0) != counter_clockwise) std::reverse(ring.begin(), ring.end());
    append_ring(ring, edges);
  };
  for (const Polygon& part : parts) {
    add(part.outer, true);
    for (const Ring& hole : part.holes) add(hole, false);
  }
  return outline_of_ways(edges);
}

std::optional<MultiPolygon> outline_of(const std::vector<Segment>& parts) {
  Nodes nodes;
  std::vector<std::vector<std::size_t>> leaving;
  for (const Segment& part : parts) {
    const std::size_t from = nodes.of(part.a);
    const std::size_t to = nodes.of(part.b);
    leaving.resize(nodes.size());
    if (from != to) leaving[from].push_back(to);
  }
  std::vector<Ring> outers;
  std::vector<Ring> holes;
  for (std::size_t start = 0; start < leaving.size(); ++start) {
    while (!leaving[start].empty()) {
      Ring ring;
      std::size_t before = start;
      std::size_t here = start;
      do {
        std::vector<std::size_t>& ways = leaving[here];
        if (ways.empty()) return std::nullopt;
        // The way that turns left most: rings that touch at a point stay apart.
        auto next = ways.begin();
        if (ways.size() > 1 && before != here) {
          next = std::max_element(ways.begin(), ways.end(), [&](std::size_t u, std::size_t v) {
            return turned(nodes.at(before), nodes.at(here), nodes.at(u)) <
                   turned(nodes.at(before), nodes.at(here), nodes.at(v));
          });
        }
        ring.push_back(nodes.at(here));
        before = here;
        here = *next;
        ways.erase(next);
      } while (here != start);
      const double area = signed_area(ring);
      if (area > 0) outers.push_back(normalized(ring));
      if (area < 0) holes.push_back(normalized(ring));
    }
  }
  return with_holes(std::move(outers), holes);
}

}  // namespace leeway
