#pragma once
// A plan that is about the head: what of the machine is seen, and what stands beside it.

#include "formats/plan/plan_scene.h"

namespace leeway {

// How wide the column beside the drawing is.
inline constexpr double kBesideWidth = 168;

// What is seen where the plan is about the head; nothing where that is about all there is.
std::optional<Box> head_extent(const PlanInput& input);

// The whole in small, with what is seen framed; below it, magnified, the distances that are too
// short to be seen. Keeps to the drawing's height.
void draw_beside(SvgWriter& svg, const PlanInput& input, const PlanScene& scene);

// Labels of what is not seen go; of the others what is not seen of their marks.
void keep_labels_in(const Box& drawing, std::vector<Label>& labels);

}  // namespace leeway
