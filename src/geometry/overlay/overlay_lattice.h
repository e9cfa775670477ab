#pragma once
// Overlay by snap rounding, the way of last resort: slower than Boost.Geometry and less exact (an
// edge may move by up to 0.71 um), but every decision it makes is exact, and its rings are simple.
// (Hobby, Practical segment intersection with finite precision output, Comput. Geom. 13, 1999.)

#include "geometry/overlay/overlay_steps.h"

namespace leeway::overlay {

// REQUIRES: whole micrometres. Members of `a`, and of `b`, may overlap among themselves, and rings
// may cross: inside is what a polygon winds round at least once. Throws std::logic_error if it
// finds itself in contradiction.
LatticeResult lattice_overlay(Operation operation, const MultiPolygon& a, const MultiPolygon& b);

}  // namespace leeway::overlay
