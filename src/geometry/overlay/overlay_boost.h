#pragma once
// One attempt at one overlay, by Boost.Geometry. Its answer may be wrong by a whole bed:
// only overlay.cpp calls this, and what it gets is checked.

#include "geometry/overlay/overlay_steps.h"

namespace leeway::overlay {

// REQUIRES: outer rings counter-clockwise, holes clockwise. The result's rings are so too, but for
// slivers of nearly no area; its vertices may lie off the lattice. Throws whatever Boost throws.
MultiPolygon boost_overlay(Operation operation, const MultiPolygon& a, const MultiPolygon& b);

}  // namespace leeway::overlay
