#pragma once
// Axes in mm around a part of a picture, and a bar of scale.

#include <string>
#include <vector>

#include "formats/drawing/svg.h"

namespace leeway {

// The step of 1, 2 or 5 times a power of ten that gives ticks at least `apart` units apart.
// REQUIRES: scale > 0.
double tick_step(double scale, double apart);

// The multiples of `step` from `from` to `to`, at most 1000.
std::vector<double> ticks(double from, double to, double step);

// The text of a tick, with as many decimals as the step asks for.
std::string tick_text(double value, double step);

// The frame of a drawing: ticks outside, x below and y at the left. `picture` is what is framed.
struct Axes {
  View view;
  Box picture;
  std::string x_title;  // in the middle, below the numbers
  std::string y_title;  // turned, left of the numbers
};
void write_axes(SvgWriter& svg, const Axes& axes);

// The room that the axes take outside their frame: at the left, for y from `low` to `high`.
double axis_left(double low, double high, double scale);
inline constexpr double kAxisBelow = 44;

// A bar of a round length, at most `width` wide, its left end at `at`; the text stands right of it.
void write_scale_bar(SvgWriter& svg, const View& view, Point at, double width);

}  // namespace leeway
