#include "formats/bracket/map_marks.h"

#include <cmath>
#include <numbers>

namespace leeway {
namespace {

std::vector<Point> star_round(Point at) {
  std::vector<Point> points;
  for (int i = 0; i < 10; ++i) {
    const double angle = std::numbers::pi * (i / 5.0 - 0.5);
    points.push_back(at + (i % 2 ? 3.4 : 8.0) * Point{std::cos(angle), std::sin(angle)});
  }
  return points;
}

void draw_polygon(SvgWriter& svg, const std::vector<Point>& points) {
  svg.path("spot-light", line_data(points) + "z");
}

}  // namespace

void draw_mark(SvgWriter& svg, MapMark mark, Point at) {
  switch (mark) {
    case MapMark::cross: {
      const std::string data = line_data({at - Point{6, 0}, at + Point{6, 0}}) +
                               line_data({at - Point{0, 6}, at + Point{0, 6}});
      svg.path("over-rim", data);
      svg.path("over", data);
      return;
    }
    case MapMark::dark_disc:
      return svg.circle("spot-dark", at, 5);
    case MapMark::light_disc:
      return svg.circle("spot-light", at, 5);
    case MapMark::square:
      return svg.path("spot-light", path_data(Box{at.x - 4.5, at.x + 4.5, at.y - 4.5, at.y + 4.5}));
    case MapMark::triangle:
      return draw_polygon(svg, {at - Point{6, -4.5}, at + Point{6, 4.5}, at - Point{0, 6.5}});
    case MapMark::diamond:
      return draw_polygon(svg,
                          {at - Point{6, 0}, at - Point{0, 6}, at + Point{6, 0}, at + Point{0, 6}});
    case MapMark::star:
      return draw_polygon(svg, star_round(at));
  }
}

}  // namespace leeway
