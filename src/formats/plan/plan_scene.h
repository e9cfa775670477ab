#pragma once
// What is drawn of a setup, and where it lies in the picture. plan_svg.cpp puts the parts together.

#include <string>
#include <vector>

#include "formats/drawing/label_layout.h"
#include "formats/drawing/legend.h"
#include "formats/drawing/svg.h"
#include "formats/text/words.h"
#include "leeway/draw.h"

namespace leeway {

struct PlanInput {
  const CheckResult& result;
  const Rig& rig;
  const DrawOptions& options;
};

// What the parts of a plan leave for one another while they are drawn.
struct PlanScene {
  View view;
  Box drawing;                      // in the picture
  std::string prefix;               // of ids
  std::vector<std::size_t> linked;  // points that are links, rising
  bool point_titles = true;         // whether points say what they are
  std::vector<Box> avoided;         // lines, which labels had better not lie on
  std::vector<Box> taken;           // by marks; labels keep off
  std::vector<Box> marks;           // of what has no label
  std::vector<Label> labels;        // the first ones are placed first
  std::vector<Label> late_labels;   // those after them
  bool numbered = false;            // whether obstacles have numbers for names
  std::size_t dimensions = 0;       // how many of them belong to dimension lines, and lead
  Legend legend;
};

// Makes a box hold something more: a box, a point, an outline that is moved by `at`.
void widen(Box& all, const Box& box);
void widen(Box& all, Point p);
void widen(Box& all, const Shape& outline, Point at);

// What must be seen: bed, travel, obstacles, points, home and head, with some air around. In mm.
Box plan_extent(const PlanInput& input);

// Fits an extent into a picture that is `across` wide; the drawing's top is at `top`.
void fit_drawing(const Box& extent, double top, double across, PlanScene& scene);

// Boxes along a line, or an outline, to keep labels off.
void cover_line(Point from, Point to, std::vector<Box>& boxes);
void cover_outline(const Shape& shape, const View& view, std::vector<Box>& boxes);

// The mesh's bounds for the probe; nothing without a grid or when its margins meet.
std::optional<Box> mesh_bounds(const Setup& setup);

// Where the homing point is, for the probe.
std::optional<Point> home_probe(const Setup& setup);

// Where the probe is when the offset is drawn without the head: at the homing point if there is
// one, else so that the arrow lies about the middle of the bed.
Point offset_probe(const Setup& setup);

}  // namespace leeway
