#pragma once
// The Minkowski sum of two outlines: what winds round it, what bounds it, its outline.

#include <memory>
#include <vector>

#include "geometry/convex/exposed.h"

namespace leeway {

struct Sum {
  std::vector<ConvolutionEdge> edges;
  Windings windings;             // more than 0 inside
  std::vector<Segment> exposed;  // what bounds the sum, the sum on the left
  // The same as rings, not rounded; where they cannot be had, convex pieces.
  MultiPolygon outline;
  std::vector<Ring> pieces;
};

using SharedSum = std::shared_ptr<const Sum>;

// Null when the outlines are too detailed together. Throws OverlayFault as convex_pieces does.
SharedSum sum_of(const MultiPolygon& a, const MultiPolygon& b);

}  // namespace leeway
