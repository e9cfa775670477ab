#pragma once
// What could be printed, but lies beside the mesh.

#include "formats/plan/plan_scene.h"

namespace leeway {

void draw_uncovered_strips(SvgWriter& svg, const PlanInput& input, PlanScene& scene);

}  // namespace leeway
