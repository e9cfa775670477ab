#include "leeway/setup.h"

#include <algorithm>

#include "geometry/plane/by_kind.h"
#include "geometry/plane/polygons.h"

namespace leeway {

Point probe_position(Point at, Frame frame, Point offset) {
  return frame == Frame::probe ? at : at + offset;
}

Box bounding_box(const Shape& shape) {
  return by_kind(
      shape,
      [](Point p) {
        return Box{p.x, p.x, p.y, p.y};
      },
      [](const Box& box) { return box; },
      [](const Disc& disc) {
        return Box{disc.center.x - disc.radius, disc.center.x + disc.radius,
                   disc.center.y - disc.radius, disc.center.y + disc.radius};
      },
      [](const RoundedBox& rounded) { return rounded.box; },
      [](const MultiPolygon& polygons) {
        const Ring points = outline_points(polygons);
        return points.empty() ? Box{1, 0, 1, 0} : bounding_box(points);
      });
}

Box grid_bounds(const Grid& grid, const Machine& machine) {
  if (const Box* box = std::get_if<Box>(&grid.extent)) return *box;
  const Margins& margins = std::get<Margins>(grid.extent);
  const Box around =
      bounding_box(margins.from == Margins::From::bed ? machine.bed : machine.travel);
  return {around.x0 + margins.left, around.x1 - margins.right, around.y0 + margins.front,
          around.y1 - margins.back};
}

bool asks_for_points(const Request& request) {
  return request.grid || !request.points.empty() || request.home;
}

Box grid_bounds_for_probe(const Setup& setup, const Grid& grid) {
  Box box = grid_bounds(grid, setup.machine);
  if (grid.frame == Frame::probe) return box;
  const Point offset = setup.probe.offset;
  return {box.x0 + offset.x, box.x1 + offset.x, box.y0 + offset.y, box.y1 + offset.y};
}

Point grid_point(const Box& bounds, int columns, int rows, int column, int row) {
  // The ends are the given numbers themselves: no rounding may move them.
  const auto at = [](double from, double to, int index, int count) {
    if (count == 1) return from + (to - from) / 2;
    if (index == count - 1) return to;
    return from + index * (to - from) / (count - 1);
  };
  return {at(bounds.x0, bounds.x1, column, columns), at(bounds.y0, bounds.y1, row, rows)};
}

Request held_for_probe(const Setup& setup) {
  Request request = setup.request;
  const auto hold = [&](auto& place) {
    place.at = probe_position(place.at, place.frame, setup.probe.offset);
    place.frame = Frame::probe;
  };
  if (request.grid) {
    request.grid->extent = grid_bounds_for_probe(setup, *setup.request.grid);
    request.grid->frame = Frame::probe;
  }
  for (NamedPoint& point : request.points) hold(point);
  if (request.home) hold(*request.home);
  return request;
}

}  // namespace leeway
