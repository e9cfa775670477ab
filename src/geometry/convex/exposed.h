#pragma once
// What of the edges of a convolution bounds the sum, and the sum's outline.
//
// Covering is decided with an allowance of kSeam towards "covered": an exact fit between parts of
// one sum is never passable.

#include <cstddef>
#include <optional>
#include <vector>

#include "geometry/convex/convolution.h"
#include "geometry/convex/windings.h"
#include "geometry/distance/pieces.h"

namespace leeway {

// How many pairs of edges may lie near one another: what that takes is a second or two.
inline constexpr std::size_t kMostPairs = 50'000'000;

// The parts of the edges of left turns at whose right nothing is covered, each once, the sum on
// their left. Nothing when more than `most` pairs of edges lie near one another.
std::optional<std::vector<Segment>> exposed_parts(const std::vector<ConvolutionEdge>& edges,
                                                  const Windings& windings, std::size_t most);

// The rings that such parts form, as polygons. Nothing when some of them do not close.
std::optional<MultiPolygon> outline_of(const std::vector<Segment>& parts);

// The edges of a closed way, all of which may bound what it winds round.
void append_ring(const Ring& ring, std::vector<ConvolutionEdge>& edges);

// The outline of what closed ways wind round, vertices where edges cross not rounded. Nothing when
// it cannot be had this way, or would take too long.
std::optional<MultiPolygon> outline_of_ways(const std::vector<ConvolutionEdge>& edges);

// The union of polygons that may overlap, in the same way.
std::optional<MultiPolygon> outline_of_union(const std::vector<Polygon>& parts);

}  // namespace leeway
