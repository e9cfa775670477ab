#pragma once
// What stands on the bed, by name or, where there is much of it, by number with a key.

#include "formats/plan/plan_scene.h"

namespace leeway {

void draw_obstacles(SvgWriter& svg, const PlanInput& input, PlanScene& scene);

}  // namespace leeway
