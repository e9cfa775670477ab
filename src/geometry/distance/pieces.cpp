#include "geometry/distance/pieces.h"

#include <algorithm>

#include "geometry/plane/assert.h"
#include "geometry/plane/polygons.h"
#include "geometry/plane/vector.h"

namespace leeway {
namespace {

struct Part {
  double from;
  double to;
};

bool almost_meet(const Box& a, const Box& b) {
  constexpr double kSlit = 2 * kSeam;
  return a.x0 <= b.x1 + kSlit && b.x0 <= a.x1 + kSlit && a.y0 <= b.y1 + kSlit &&
         b.y0 <= a.y1 + kSlit;
}

Box box_of(const Segment& s) {
  return {std::min(s.a.x, s.b.x), std::max(s.a.x, s.b.x), std::min(s.a.y, s.b.y),
          std::max(s.a.y, s.b.y)};
}

// How deep within a side a place must be for the piece to cover it; less than 0 where it may be
// beyond. Two edges that run the same way on nearly one line must not cover one another: the one of
// the piece that comes first stays. Everywhere else a slit as wide as two positions that count as
// covered (PiecesDistances) is closed, with an overlap wider than what rounding can move.
double least_depth(bool same_way_nearly_one_line, bool piece_comes_first) {
  if (!same_way_nearly_one_line) return -2 * kSeam;
  return piece_comes_first ? -kSeam : kSeam;
}

// An edge of a piece, with what is asked of it again and again.
struct Rim {
  Point a;
  Point along;
  double length;
};

std::vector<Rim> rims_of(const Ring& ring) {
  std::vector<Rim> rims;
  rims.reserve(ring.size());
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const Point along = ring[(i + 1) % ring.size()] - ring[i];
    rims.push_back({ring[i], along, norm(along)});
  }
  return rims;
}

// The part of the segment, an edge of another piece, that a piece covers. Along one of its own
// edges it covers what runs the other way; what runs the same way is exposed for both.
Part covered_by(const std::vector<Rim>& piece, const Segment& segment, bool piece_comes_first) {
  constexpr double kNearly = 1e-3;  // mm
  Part inside{0, 1};
  const Point way = segment.b - segment.a;
  for (const Rim& rim : piece) {
    const double at_start = cross(rim.along, segment.a - rim.a) / rim.length;  // depth inside
    const double change = cross(rim.along, way) / rim.length;
    const double farther = std::max(std::abs(at_start), std::abs(at_start + change));
    const bool same_way = dot(rim.along, way) > 0;
    if (farther <= kSeam && same_way) return {1, 0};
    if (farther <= kSeam) continue;
    const double wanted = least_depth(same_way && farther <= kNearly, piece_comes_first);
    if (change == 0) {
      if (at_start < wanted) return {1, 0};
      continue;
    }
    const double t = (wanted - at_start) / change;
    if (change > 0) {
      inside.from = std::max(inside.from, t);
    } else {
      inside.to = std::min(inside.to, t);
    }
    if (inside.from >= inside.to) return {1, 0};
  }
  return inside;
}

void add_uncovered(const Segment& segment, std::vector<Part> covered,
                   std::vector<Segment>& exposed) {
  std::sort(covered.begin(), covered.end(),
            [](const Part& a, const Part& b) { return a.from < b.from; });
  const Point way = segment.b - segment.a;
  double free_from = 0;
  for (const Part& interval : covered) {
    if (interval.from > free_from) {
      exposed.push_back({segment.a + free_from * way, segment.a + interval.from * way});
    }
    free_from = std::max(free_from, interval.to);
  }
  if (free_from < 1) exposed.push_back({segment.a + free_from * way, segment.b});
}

// The pieces, other than piece i, that could cover any of its edges.
std::vector<std::size_t> almost_meeting(const std::vector<Piece>& pieces, std::size_t i) {
  std::vector<std::size_t> near;
  for (std::size_t j = 0; j < pieces.size(); ++j) {
    if (j != i && almost_meet(pieces[i].box, pieces[j].box)) near.push_back(j);
  }
  return near;
}

}  // namespace

Piece make_piece(Ring ring) {
  LEEWAY_ASSERT(ring.size() >= 3 && signed_area(ring) > 0);
  Piece piece{std::move(ring), {}, {}};
  piece.box = bounding_box(piece.ring);
  for (std::size_t i = 0; i < piece.ring.size(); ++i) {
    const Point a = piece.ring[i];
    const Point normal = unit(right_of(piece.ring[(i + 1) % piece.ring.size()] - a));
    piece.sides.push_back({normal, dot(normal, a)});
  }
  return piece;
}

double box_distance(const Box& box, Point p) {
  const double dx = std::max({box.x0 - p.x, p.x - box.x1, 0.0});
  const double dy = std::max({box.y0 - p.y, p.y - box.y1, 0.0});
  return std::sqrt(dx * dx + dy * dy);
}

std::vector<Segment> exposed_edges(const std::vector<Piece>& pieces) {
  std::vector<std::vector<Rim>> rims;
  for (const Piece& piece : pieces) rims.push_back(rims_of(piece.ring));
  std::vector<Segment> exposed;
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    std::vector<std::size_t> near = almost_meeting(pieces, i);
    const Ring& ring = pieces[i].ring;
    for (std::size_t k = 0; k < ring.size(); ++k) {
      const Segment edge{ring[k], ring[(k + 1) % ring.size()]};
      const Box box = box_of(edge);
      std::vector<Part> covered;
      bool all = false;
      for (std::size_t at = 0; at < near.size() && !all; ++at) {
        const std::size_t j = near[at];
        if (!almost_meet(box, pieces[j].box)) continue;
        const Part part = covered_by(rims[j], edge, j < i);
        if (part.from < part.to) covered.push_back(part);
        all = part.from <= 0 && part.to >= 1;
        // What covers one edge often covers the next.
        if (all) std::swap(near.front(), near[at]);
      }
      if (!all) add_uncovered(edge, std::move(covered), exposed);
    }
  }
  return exposed;
}

bool outside_frame(const Box& frame, Point p) {
  return p.x < frame.x0 || p.x > frame.x1 || p.y < frame.y0 || p.y > frame.y1;
}

void drop_beyond(const Box& frame, std::vector<Segment>& segments) {
  const Box wide{frame.x0 - kSeam, frame.x1 + kSeam, frame.y0 - kSeam, frame.y1 + kSeam};
  const auto outside = [&](const Segment& s) { return outside_frame(wide, 0.5 * (s.a + s.b)); };
  segments.erase(std::remove_if(segments.begin(), segments.end(), outside), segments.end());
}

}  // namespace leeway
