#pragma once
// The head over the bed, and how far it has to the limits that decide.

#include "formats/plan/plan_scene.h"

namespace leeway {

// The offset as an arrow from nozzle to probe, with its length on each axis.
void draw_offset(SvgWriter& svg, const PlanInput& input, Point probe, PlanScene& scene);

// Nozzle, probe, spot, body and parts, and the limits that bind there as dimension lines.
void draw_head(SvgWriter& svg, const PlanInput& input, const HeadPlace& place, PlanScene& scene);

// A dimension's line, with bars and arrows where there is room.
void draw_dimension_line(SvgWriter& svg, const Dimension& dimension, const View& view);

// What to say of the head in words: where it is, and why that will or will not do.
std::string head_sentence(const PlanInput& input, const HeadPlace& place);

}  // namespace leeway
