#pragma once
// The convolution of two outlines: closed ways that wind round each point of their Minkowski sum.
//
// (Guibas, Ramshaw and Stolfi 1983.) Each edge of one outline is moved along at each corner of the
// other that turns through its direction. The winding number at a point is the number of separate
// places in which the first meets the mirrored second that is put there. What bounds the sum comes
// from corners that turn left (Behar and Lien 2011, the reduced convolution).

#include <vector>

#include "leeway/geometry.h"

namespace leeway {

struct ConvolutionEdge {
  Point a;
  Point b;
  bool of_left_turn;  // only such can bound the sum; it is on their left
};

// Where either is convex, or both are, the number of edges is about that of the sum's own. Accepts
// any winding, holes, repeated neighbours and straight corners. A hole that the other outline has
// no place in is filled first: there the winding number would not tell.
std::vector<ConvolutionEdge> convolution(const MultiPolygon& a, const MultiPolygon& b);

}  // namespace leeway
