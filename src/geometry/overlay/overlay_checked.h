#pragma once
// Ways of doing the same overlay, and the rule by which one of them is believed.

#include <functional>

#include "geometry/overlay/overlay_steps.h"

namespace leeway::overlay {

// How the operands are laid before the library: other coordinates take it through other branches.
// Every way maps the lattice onto itself and keeps areas and windings.
struct Way {
  int quarter_turns;
  double shear;  // x becomes x + shear * y
  Point shift;
  bool exchanged;  // the operands of each union
};

MultiPolygon put(const Way& way, MultiPolygon polygons);

// `work` lays the operands out by the given way, and its answer is laid back. The first answer
// that is right is returned, on whole micrometres. When none is, or when rounding would tangle its
// rings, the engine's last resort is asked, and checked too. Throws OverlayFault.
MultiPolygon checked(Operation operation, const MultiPolygon& a, const MultiPolygon& b,
                     Engine& engine, const std::function<MultiPolygon(const Way&)>& work);

}  // namespace leeway::overlay
