#pragma once
// The points of a plan, each by its verdict: shape and fill tell, colour only helps.

#include "formats/plan/plan_scene.h"

namespace leeway {

void draw_points(SvgWriter& svg, const PlanInput& input, PlanScene& scene);

// Moves between points that would run into something.
void draw_blocked_moves(SvgWriter& svg, const PlanInput& input, PlanScene& scene);

// The numbers of columns above and of rows at the right of the drawing.
void draw_grid_numbers(SvgWriter& svg, const PlanInput& input, const PlanScene& scene);

}  // namespace leeway
