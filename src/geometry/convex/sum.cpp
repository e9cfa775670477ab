#include "geometry/convex/sum.h"

#include <optional>
#include <utility>

#include "geometry/convex/minkowski.h"

namespace leeway {

namespace {

// Each sum of two pieces is one more ring that every position is held against.
constexpr std::size_t kMostPieces = 4000;

std::size_t vertices_of(const MultiPolygon& polygons) {
  std::size_t count = 0;
  for (const Polygon& polygon : polygons) {
    count += polygon.outer.size();
    for (const Ring& hole : polygon.holes) count += hole.size();
  }
  return count;
}

}  // namespace

SharedSum sum_of(const MultiPolygon& a, const MultiPolygon& b) {
  // The convolution looks at each pair of vertices. Too many are refused before that takes its
  // time.
  if (vertices_of(a) * vertices_of(b) > kMostPairs) return nullptr;
  auto sum = std::make_shared<Sum>();
  sum->edges = convolution(a, b);
  for (const ConvolutionEdge& e : sum->edges) sum->windings.add(e.a, e.b);
  sum->windings.prepare();
  auto exposed = exposed_parts(sum->edges, sum->windings, kMostPairs);
  if (!exposed) return nullptr;
  sum->exposed = *std::move(exposed);
  std::optional<MultiPolygon> outline = outline_of(sum->exposed);
  if (outline && !outline->empty()) {
    sum->outline = *std::move(outline);
  } else {
    // Rings that all but touch.
    const std::vector<Ring> pieces_a = convex_pieces(a);
    const std::vector<Ring> pieces_b = convex_pieces(b);
    if (pieces_a.size() * pieces_b.size() > kMostPieces) return nullptr;
    sum->pieces = sum_pieces(pieces_a, pieces_b);
  }
  return sum;
}

}  // namespace leeway
