#include "geometry/convex/decomposition.h"
#include "geometry/convex/minkowski.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <string>
#include <unordered_map>

#include "geometry/plane/orientation.h"
#include "geometry/plane/polygons.h"
#include "geometry/plane/vector.h"

namespace leeway {
namespace decomposition {
namespace {

// The edges of the triangles as two directed halves each, linked to rings that grow together.
class Merger {
 public:
  explicit Merger(const Triangulation& in) : in_(in) {
    for (const auto& t : in.triangles) {
      const std::size_t base = halves_.size();
      for (std::size_t k = 0; k < 3; ++k) {
        halves_.push_back({t[k], base + (k + 1) % 3, base + (k + 2) % 3, kNone, true});
      }
    }
    pair_up();
  }

  std::vector<Ring> merge() {
    for (const std::size_t h : longest_first()) {
      if (corner_stays_convex(h) && corner_stays_convex(halves_[h].twin)) remove(h);
    }
    return rings();
  }

 private:
  static constexpr std::size_t kNone = static_cast<std::size_t>(-1);
  struct Half {
    int from;
    std::size_t next;
    std::size_t previous;
    std::size_t twin;
    bool kept;
  };

  int to(std::size_t h) const { return halves_[halves_[h].next].from; }

  void pair_up() {
    std::unordered_map<std::uint64_t, std::size_t> halves;
    const auto key = [](int from, int to) {
      return static_cast<std::uint64_t>(from) << 32 | static_cast<std::uint64_t>(to);
    };
    for (std::size_t h = 0; h < halves_.size(); ++h) halves[key(halves_[h].from, to(h))] = h;
    for (std::size_t h = 0; h < halves_.size(); ++h) {
      const auto twin = halves.find(key(to(h), halves_[h].from));
      if (twin != halves.end()) halves_[h].twin = twin->second;
    }
  }

  // One half of each edge between two triangles. The long ones first: what is left over is then
  // fewer and rounder pieces.
  std::vector<std::size_t> longest_first() const {
    std::vector<std::pair<double, std::size_t>> inner;
    for (std::size_t h = 0; h < halves_.size(); ++h) {
      if (halves_[h].twin == kNone || halves_[h].twin < h) continue;
      const Point d = in_.vertices[to(h)] - in_.vertices[halves_[h].from];
      inner.emplace_back(-(d.x * d.x + d.y * d.y), h);
    }
    std::sort(inner.begin(), inner.end());
    std::vector<std::size_t> result;
    for (const auto& [order, h] : inner) result.push_back(h);
    return result;
  }

  // Whether the corner where half `h` starts may do without it.
  bool corner_stays_convex(std::size_t h) const {
    const Half& half = halves_[h];
    const int before = halves_[half.previous].from;
    const int after = to(halves_[half.twin].next);
    return orientation(in_.whole[before], in_.whole[half.from], in_.whole[after]) >= 0;
  }

  void link(std::size_t a, std::size_t b) {
    halves_[a].next = b;
    halves_[b].previous = a;
  }

  void remove(std::size_t h) {
    Half& half = halves_[h];
    Half& twin = halves_[half.twin];
    half.kept = twin.kept = false;
    link(half.previous, twin.next);
    link(twin.previous, half.next);
  }

  std::vector<Ring> rings() const {
    std::vector<Ring> result;
    std::vector<bool> seen(halves_.size(), false);
    for (std::size_t start = 0; start < halves_.size(); ++start) {
      if (seen[start] || !halves_[start].kept) continue;
      Ring ring;
      for (std::size_t h = start; !seen[h]; h = halves_[h].next) {
        seen[h] = true;
        ring.push_back(in_.vertices[halves_[h].from]);
      }
      result.push_back(normalized(ring));
    }
    return result;
  }

  const Triangulation& in_;
  std::vector<Half> halves_;
};

double perimeter(const Ring& ring) {
  double sum = 0;
  for (std::size_t i = 0; i < ring.size(); ++i)
    sum += distance(ring[i], ring[(i + 1) % ring.size()]);
  return sum;
}

}  // namespace

std::vector<Ring> merge_triangles(const Triangulation& triangulation) {
  return Merger(triangulation).merge();
}

bool adds_up(const std::vector<Ring>& pieces, const Polygon& polygon) {
  constexpr double kRelative = 1e-9;
  constexpr double kRounding = 1e-13;  // where little is left between the rings
  double length = perimeter(polygon.outer);
  for (const Ring& hole : polygon.holes) length += perimeter(hole);
  // Corners are straight, and points the same, when picometres cannot tell: of a needle that may
  // be all there is.
  const double needle = 2 * length / kPicometresPerMillimetre;
  double sum = 0;
  for (const Ring& piece : pieces) {
    const double a = signed_area(piece);
    if (!(a > -needle) || !is_convex(piece)) return false;
    sum += a;
  }
  const double wanted = area(polygon);
  const double outer = std::abs(signed_area(polygon.outer));
  return std::abs(sum - wanted) <= kRelative * std::abs(wanted) + kRounding * outer + needle;
}

}  // namespace decomposition

namespace {

// Wrong pieces would make wrong sums, and those wrong verdicts. So they are checked. The second way
// shares nothing with the first, and where both fail a fault is better than a guess.
std::vector<Ring> pieces_of(const Polygon& polygon) {
  if (polygon.holes.empty() && is_convex(polygon.outer)) return {normalized(polygon.outer)};
  if (const auto triangulation = decomposition::triangulate(polygon)) {
    std::vector<Ring> pieces = decomposition::merge_triangles(*triangulation);
    if (decomposition::adds_up(pieces, polygon)) return pieces;
  }
  std::vector<Ring> pieces = decomposition::trapezoids(polygon);
  if (decomposition::adds_up(pieces, polygon)) return pieces;
  const Box box = bounding_box(polygon.outer);
  throw OverlayFault("splitting a polygon into convex pieces failed at x " +
                     std::to_string(box.x0) + " to " + std::to_string(box.x1) + ", y " +
                     std::to_string(box.y0) + " to " + std::to_string(box.y1));
}

}  // namespace

std::vector<Ring> convex_pieces(const MultiPolygon& polygons) {
  std::vector<Ring> pieces;
  for (const Polygon& polygon : polygons) {
    if (polygon.outer.empty()) continue;
    for (Ring& piece : pieces_of(polygon)) pieces.push_back(std::move(piece));
  }
  return pieces;
}

}  // namespace leeway
