#include "formats/drawing/axes.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "formats/drawing/label_layout.h"
#include "formats/text/numbers.h"
#include "geometry/plane/assert.h"

namespace leeway {
namespace {

constexpr double kTickLength = 5;
constexpr double kTickFont = 12;
constexpr double kApart = 48;
constexpr double kTitle = 16;  // room for the turned title

// The largest 1, 2 or 5 times a power of ten that is no more than `most`, or the least that is no
// less than `least`.
double round_step(double least) {
  const double power = std::pow(10, std::floor(std::log10(least)));
  for (const double factor : {1.0, 2.0, 5.0, 10.0}) {
    if (factor * power >= least * (1 - 1e-9)) return factor * power;
  }
  return 10 * power;
}

double round_length(double most) {
  const double power = std::pow(10, std::floor(std::log10(most)));
  for (const double factor : {5.0, 2.0, 1.0}) {
    if (factor * power <= most * (1 + 1e-9)) return factor * power;
  }
  return power;
}

void write_ticks_of_x(SvgWriter& svg, const Axes& axes) {
  const View& view = axes.view;
  const double from = (axes.picture.x0 - view.corner.x) / view.scale;
  const double to = (axes.picture.x1 - view.corner.x) / view.scale;
  double step = tick_step(view.scale, kApart);
  const auto widest = [&] {
    return std::max(text_width(tick_text(from, step), kTickFont),
                    text_width(tick_text(to, step), kTickFont)) +
           8;
  };
  // Long numbers must not touch each other.
  while (step * view.scale < widest()) step = round_step(step * 1.5);
  const double bottom = axes.picture.y1;
  std::string marks;
  for (const double value : ticks(from, to, step)) {
    const double x = view(Point{value, 0}).x;
    marks += fmt::format("M{} {}v{}", svg_number(x), svg_number(bottom), svg_number(kTickLength));
    svg.text("faint", {x, bottom + kTickLength + kTickFont + 2}, Anchor::middle,
             tick_text(value, step));
  }
  svg.path("tick", marks);
}

void write_ticks_of_y(SvgWriter& svg, const Axes& axes) {
  const View& view = axes.view;
  const double from = (view.corner.y - axes.picture.y1) / view.scale;
  const double to = (view.corner.y - axes.picture.y0) / view.scale;
  const double step = tick_step(view.scale, kApart);
  const double left = axes.picture.x0;
  std::string marks;
  for (const double value : ticks(from, to, step)) {
    const double y = view(Point{0, value}).y;
    marks += fmt::format("M{} {}h-{}", svg_number(left), svg_number(y), svg_number(kTickLength));
    svg.text("faint", {left - kTickLength - 3, y + 4}, Anchor::end, tick_text(value, step));
  }
  svg.path("tick", marks);
}

}  // namespace

double tick_step(double scale, double apart) {
  LEEWAY_ASSERT(scale > 0);
  return round_step(apart / scale);
}

std::vector<double> ticks(double from, double to, double step) {
  constexpr double kMost = 1000;
  std::vector<double> values;
  const double first = std::ceil(from / step - 1e-9);
  const double last = std::min(std::floor(to / step + 1e-9), first + kMost - 1);
  for (double i = first; i <= last; ++i) values.push_back(i == 0 ? 0 : i * step);
  return values;
}

std::string tick_text(double value, double step) {
  const int decimals = step >= 1 ? 0 : static_cast<int>(std::ceil(-std::log10(step) - 1e-9));
  return decimal(value, decimals > 3);
}

double axis_left(double low, double high, double scale) {
  constexpr double kLeast = 58;
  const double step = tick_step(scale, kApart);
  double widest = 0;
  for (const double value : ticks(low, high, step)) {
    widest = std::max(widest, text_width(tick_text(value, step), kTickFont));
  }
  return std::max(kLeast, widest + kTickLength + 3 + kTitle + 6);
}

void write_axes(SvgWriter& svg, const Axes& axes) {
  const Box& p = axes.picture;
  svg.group("");
  svg.path("tick", path_data(p));
  write_ticks_of_x(svg, axes);
  write_ticks_of_y(svg, axes);
  svg.text("faint", {(p.x0 + p.x1) / 2, p.y1 + 36}, Anchor::middle, axes.x_title);
  const double left = axis_left((axes.view.corner.y - p.y1) / axes.view.scale,
                                (axes.view.corner.y - p.y0) / axes.view.scale, axes.view.scale);
  const Point at{p.x0 - left + kTitle - 2, (p.y0 + p.y1) / 2};
  svg.text_element(
      "text",
      {{"class", "faint"},
       {"x", at.x},
       {"y", at.y},
       {"text-anchor", "middle"},
       {"transform", fmt::format("rotate(-90 {} {})", svg_number(at.x), svg_number(at.y))}},
      axes.y_title);
  svg.close();
}

void write_scale_bar(SvgWriter& svg, const View& view, Point at, double width) {
  const double length = round_length(width / view.scale);
  const double end = at.x + length * view.scale;
  svg.group("");
  svg.rect("bar", {at.x, end, at.y - 2, at.y + 2});
  svg.path("tick", fmt::format("M{0} {1}v10M{2} {1}v10", svg_number(at.x), svg_number(at.y - 5),
                               svg_number(end)));
  svg.text("faint", {end + 6, at.y + 4}, Anchor::start, decimal(length) + " mm");
  svg.close();
}

}  // namespace leeway
