// Outside a union of convex pieces, without ever uniting them.
//
// Outside, the distance to the union is the least distance to any edge of any piece. Inside, it is
// that to the exposed parts of the edges: those that no other piece covers. Covering is decided
// with a slack of kSeam towards "covered": where pieces meet, rounding leaves neither a gap nor a
// stray bit of edge, and an exact fit between parts of one obstacle is never passable.

#include <algorithm>

#include "geometry/convex_distance.h"
#include "geometry/edge_set.h"
#include "geometry/field.h"
#include "geometry/infinity.h"
#include "geometry/measure.h"
#include "geometry/segment.h"
#include "geometry/wide.h"

namespace leeway {
namespace {

constexpr double kSeam = 1e-9;  // mm; far above rounding, far below what leeways are rounded to

// An edge as a line: positive outside.
struct Side {
  Point normal;
  double at = 0;

  double beyond(double x, double y) const { return normal.x * x + normal.y * y - at; }
};

struct Piece {
  Ring ring;
  Box box;
  std::vector<Side> sides;
};

Piece make_piece(Ring ring) {
  Piece piece{std::move(ring), {}, {}};
  piece.box = bounding_box(piece.ring);
  for (std::size_t i = 0; i < piece.ring.size(); ++i) {
    const Point a = piece.ring[i];
    const Point normal = unit(right_of(piece.ring[(i + 1) % piece.ring.size()] - a));
    piece.sides.push_back({normal, dot(normal, a)});
  }
  return piece;
}

LEEWAY_WIDE void take_side(Side side, const double* __restrict xs, const double* __restrict ys,
                           double* __restrict beyond, std::size_t count) {
  for (std::size_t i = 0; i < count; ++i) {
    const double here = side.beyond(xs[i], ys[i]);
    beyond[i] = here > beyond[i] ? here : beyond[i];
  }
}

LEEWAY_WIDE void take_less(const double* __restrict values, double* __restrict least,
                           std::size_t count) {
  for (std::size_t i = 0; i < count; ++i) least[i] = values[i] < least[i] ? values[i] : least[i];
}

// A part of an edge.
struct Stretch {
  Point a;
  Point b;
};

// A part of a stretch: 0 is its start, 1 its end.
struct ParameterRange {
  double from;
  double to;
};

double box_distance(const Box& box, Point p) {
  const double dx = std::max({box.x0 - p.x, p.x - box.x1, 0.0});
  const double dy = std::max({box.y0 - p.y, p.y - box.y1, 0.0});
  return std::sqrt(dx * dx + dy * dy);
}

bool boxes_within_seam(const Box& a, const Box& b) {
  return a.x0 <= b.x1 + kSeam && b.x0 <= a.x1 + kSeam && a.y0 <= b.y1 + kSeam &&
         b.y0 <= a.y1 + kSeam;
}

Box stretch_box(const Stretch& s) {
  return {std::min(s.a.x, s.b.x), std::max(s.a.x, s.b.x), std::min(s.a.y, s.b.y),
          std::max(s.a.y, s.b.y)};
}

// The part of the stretch, an edge of another piece, that `piece` covers. Along one of its own
// edges it covers what runs the other way; what runs the same way is exposed for both.
ParameterRange covered_by(const Piece& piece, const Stretch& stretch) {
  ParameterRange inside{0, 1};
  const Point way = stretch.b - stretch.a;
  for (std::size_t i = 0; i < piece.ring.size(); ++i) {
    const Point a = piece.ring[i];
    const Point along = piece.ring[(i + 1) % piece.ring.size()] - a;
    const double length = norm(along);
    const double at_start = cross(along, stretch.a - a) / length;  // depth inside this edge
    const double change = cross(along, way) / length;
    const bool same_line = std::abs(at_start) <= kSeam && std::abs(at_start + change) <= kSeam;
    if (same_line && dot(along, way) > 0) return {1, 0};
    if (same_line) continue;
    if (change == 0) {
      if (at_start < -kSeam) return {1, 0};
      continue;
    }
    const double t = (-kSeam - at_start) / change;
    if (change > 0) {
      inside.from = std::max(inside.from, t);
    } else {
      inside.to = std::min(inside.to, t);
    }
    if (inside.from >= inside.to) return {1, 0};
  }
  return inside;
}

void add_uncovered(const Stretch& stretch, std::vector<ParameterRange> covered,
                   std::vector<Stretch>& exposed) {
  std::sort(covered.begin(), covered.end(),
            [](const ParameterRange& a, const ParameterRange& b) { return a.from < b.from; });
  const Point way = stretch.b - stretch.a;
  double free_from = 0;
  for (const ParameterRange& range : covered) {
    if (range.from > free_from) {
      exposed.push_back({stretch.a + free_from * way, stretch.a + range.from * way});
    }
    free_from = std::max(free_from, range.to);
  }
  if (free_from < 1) exposed.push_back({stretch.a + free_from * way, stretch.b});
}

bool beyond_frame(const Box& frame, Point p) {
  return p.x < frame.x0 || p.x > frame.x1 || p.y < frame.y0 || p.y > frame.y1;
}

void drop_beyond(const Box& frame, std::vector<Stretch>& stretches) {
  const Box wide{frame.x0 - kSeam, frame.x1 + kSeam, frame.y0 - kSeam, frame.y1 + kSeam};
  const auto outside = [&](const Stretch& s) { return beyond_frame(wide, 0.5 * (s.a + s.b)); };
  stretches.erase(std::remove_if(stretches.begin(), stretches.end(), outside), stretches.end());
}

std::vector<Stretch> exposed_edges(const std::vector<Piece>& pieces) {
  std::vector<Stretch> exposed;
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    const Ring& ring = pieces[i].ring;
    for (std::size_t k = 0; k < ring.size(); ++k) {
      const Stretch edge{ring[k], ring[(k + 1) % ring.size()]};
      const Box box = stretch_box(edge);
      std::vector<ParameterRange> covered;
      for (std::size_t j = 0; j < pieces.size(); ++j) {
        if (j == i || !boxes_within_seam(box, pieces[j].box)) continue;
        const ParameterRange range = covered_by(pieces[j], edge);
        if (range.from < range.to) covered.push_back(range);
      }
      add_uncovered(edge, std::move(covered), exposed);
    }
  }
  return exposed;
}

class OutsidePieces final : public Field {
 public:
  OutsidePieces(std::vector<Piece> pieces, std::vector<Stretch> exposed, const Box* frame)
      : pieces_(std::move(pieces)), exposed_(std::move(exposed)), framed_(frame != nullptr) {
    if (framed_) frame_ = *frame;
    for (const Stretch& s : exposed_) boundary_.add(s.a, s.b);
    for (const Piece& piece : pieces_) {
      for (std::size_t i = 0; i < piece.ring.size(); ++i) {
        edges_.add(piece.ring[i], piece.ring[(i + 1) % piece.ring.size()]);
      }
    }
  }

  double distance(Point p) const override {
    return covered(p) ? -boundary_.distance(p) : edges_.distance(p);
  }

  void distances(const double* xs, const double* ys, double* out,
                 std::size_t count) const override {
    for (std::size_t at = 0; at < count; at += Block::kMost) {
      const std::size_t size = std::min(Block::kMost, count - at);
      block_distances(make_block(xs + at, ys + at, size), out + at);
    }
  }

  Room room(Point p, const Spread& spread) const override {
    const double away = distance(p);
    if (spread.same_all_round()) return {away, spread.most()};
    if (away < -kSeam) return {away, guard_of_exposed(p, spread)};
    const double reach = away + spread.most() - spread.least() + EdgeSet::kDoubt;
    double least = kInfinity;
    for (const Piece& piece : pieces_) {
      if (box_distance(piece.box, p) > reach) continue;
      const ConvexDistance near = convex_distance(piece.ring, p);
      least = std::min(least, near.distance - spread.along(near.normal, norm(near.normal)));
    }
    // On the boundary itself rounding decides which side of a piece is the nearest.
    const double guard = away - least;
    return {away, away > kSeam ? guard : std::max(guard, guard_of_exposed(p, spread))};
  }

  double least_along(Point a, Point b) const override {
    double least = std::min(distance(a), distance(b));
    for (const Piece& piece : pieces_) {
      if (box_distance(piece.box, a) - leeway::distance(a, b) > std::max(least, kSeam)) continue;
      least = std::min(
          least,
          least_convex([&](Point p) { return convex_distance(piece.ring, p).distance; }, a, b));
    }
    return least > kSeam || least < -kSeam ? least : least_touching(a, b, least);
  }

 private:
  bool covered(Point p) const {
    if (framed_ && beyond_frame(frame_, p)) return true;
    for (const Piece& piece : pieces_) {
      if (box_distance(piece.box, p) > kSeam) continue;
      double most = -kInfinity;
      for (const Side& side : piece.sides) most = std::max(most, side.beyond(p.x, p.y));
      if (most <= kSeam) return true;
    }
    return false;
  }

  void block_distances(const Block& block, double* out) const {
    const bool inside = covered(block.middle);
    const EdgeSet& there = inside ? boundary_ : edges_;
    const double from_middle = there.distance(block.middle);
    if (from_middle > block.reach + EdgeSet::kDoubt) {
      there.distances(block, from_middle, out);
      for (std::size_t i = 0; inside && i < block.count; ++i) out[i] = -out[i];
      return;
    }
    double within[Block::kMost];
    double least[Block::kMost];
    edges_.distances(block, edges_.distance(block.middle), out);
    boundary_.distances(block, boundary_.distance(block.middle), within);
    least_beyond(block, least);
    for (std::size_t i = 0; i < block.count; ++i) {
      const bool outside_frame = framed_ && beyond_frame(frame_, {block.xs[i], block.ys[i]});
      if (least[i] <= kSeam || outside_frame) out[i] = -within[i];
    }
  }

  // How far each position is beyond the sides of the piece that it is least beyond.
  void least_beyond(const Block& block, double* least) const {
    std::fill_n(least, block.count, kInfinity);
    double most[Block::kMost];
    for (const Piece& piece : pieces_) {
      if (box_distance(piece.box, block.middle) > block.reach + EdgeSet::kDoubt) continue;
      std::fill_n(most, block.count, -kInfinity);
      for (const Side& side : piece.sides) {
        take_side(side, block.xs, block.ys, most, block.count);
      }
      take_less(most, least, block.count);
    }
  }

  // The largest guard among the exposed edges that are nearest.
  double guard_of_exposed(Point p, const Spread& spread) const {
    double nearest = kInfinity;
    double guard = spread.most();
    for (const Stretch& s : exposed_) {
      const SegmentNearness near = nearest_on_segment(s.a, s.b, p);
      const double here = spread.along(near.normal, norm(near.normal));
      if (near.distance < nearest - Spread::kNoise) {
        guard = here;
        nearest = near.distance;
      } else if (near.distance < nearest + Spread::kNoise) {
        guard = std::max(guard, here);
      }
    }
    return guard;
  }

  // The way touches pieces without entering any. Where it runs in the seam between two of them the
  // union covers it all the same: look between the places where it meets edges.
  double least_touching(Point a, Point b, double least) const {
    const Point way = b - a;
    std::vector<double> stops = {0, 1};
    for (const Piece& piece : pieces_) {
      for (Point vertex : piece.ring) {
        if (const double squared = dot(way, way); squared > 0) {
          const double t = dot(vertex - a, way) / squared;
          if (t > 0 && t < 1) stops.push_back(t);
        }
      }
    }
    std::sort(stops.begin(), stops.end());
    for (std::size_t i = 0; i + 1 < stops.size(); ++i) {
      least = std::min(least, distance(a + ((stops[i] + stops[i + 1]) / 2) * way));
    }
    return least;
  }

  std::vector<Piece> pieces_;
  std::vector<Stretch> exposed_;
  EdgeSet boundary_;  // what is exposed
  EdgeSet edges_;     // every edge of every piece
  bool framed_;
  Box frame_;
};

}  // namespace

FieldPtr outside_pieces(std::vector<Ring> rings, const Box* frame) {
  if (rings.size() == 1 && !frame) return outside_convex(std::move(rings.front()));
  std::vector<Piece> pieces;
  pieces.reserve(rings.size());
  for (Ring& ring : rings) pieces.push_back(make_piece(std::move(ring)));
  std::vector<Stretch> exposed = exposed_edges(pieces);
  if (frame) drop_beyond(*frame, exposed);
  if (frame && exposed.empty()) return nullptr;
  return std::make_unique<OutsidePieces>(std::move(pieces), std::move(exposed), frame);
}

}  // namespace leeway
