#include "formats/plan/plan_scene.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "formats/drawing/axes.h"
#include "geometry/plane/by_kind.h"

namespace leeway {
namespace {

constexpr double kRight = 34;   // room for the numbers of rows
constexpr double kLeast = 180;  // height of a drawing
constexpr double kAir = 0.035;  // of the extent, on each side

}  // namespace

void widen(Box& all, const Box& box) {
  if (box.empty()) return;
  all = {std::min(all.x0, box.x0), std::max(all.x1, box.x1), std::min(all.y0, box.y0),
         std::max(all.y1, box.y1)};
}

void widen(Box& all, Point p) { widen(all, Box{p.x, p.x, p.y, p.y}); }

void widen(Box& all, const Shape& outline, Point at) {
  const Box box = bounding_box(outline);
  if (!box.empty()) widen(all, {box.x0 + at.x, box.x1 + at.x, box.y0 + at.y, box.y1 + at.y});
}

Box plan_extent(const PlanInput& input) {
  const Setup& setup = input.rig.setup();
  Box all = bounding_box(setup.machine.bed);
  widen(all, bounding_box(setup.machine.travel));
  for (const Obstacle& obstacle : setup.machine.obstacles) {
    widen(all, bounding_box(obstacle.shape));
  }
  for (const CheckedPoint& point : input.result.points) widen(all, point.probe);
  if (const std::optional<Box> mesh = mesh_bounds(setup)) widen(all, *mesh);
  if (!input.options.head) {
    const Point probe = offset_probe(setup);
    widen(all, probe);
    widen(all, probe - setup.probe.offset);
  }
  if (input.options.head) {
    const Point probe = input.options.head->probe;
    const Point nozzle = probe - setup.probe.offset;
    widen(all, setup.probe.spot, probe);
    widen(all, nozzle);
    for (const HeadPart& part : setup.machine.head) widen(all, part.outline, nozzle);
    if (setup.probe.body) widen(all, setup.probe.body->outline, probe);
  }
  const double air = std::max(kAir * std::max(all.width(), all.depth()), 1e-3);
  return {all.x0 - air, all.x1 + air, all.y0 - air, all.y1 + air};
}

void fit_drawing(const Box& extent, double top, double across, PlanScene& scene) {
  // The numbers of y decide how wide the drawing is, and that how far apart the numbers are.
  double left = 0;
  double width = 0;
  double scale = 1;
  double height = 0;
  const double y = (extent.y0 + extent.y1) / 2;
  for (int i = 0; i < 3; ++i) {
    width = across - left - kRight;
    scale = std::min(width / extent.width(), width / extent.depth());
    height = std::max(extent.depth() * scale, kLeast);
    const double half = height / 2 / scale;
    left = std::max(left, axis_left(y - half, y + half, scale));
  }
  width = across - left - kRight;
  scale = std::min(width / extent.width(), width / extent.depth());
  height = std::max(extent.depth() * scale, kLeast);
  scene.drawing = {left, left + width, top, top + height};
  scene.view.scale = scale;
  // What one way is too short for the drawing lies in its middle.
  const double x = (extent.x0 + extent.x1) / 2;
  scene.view.corner = {(scene.drawing.x0 + scene.drawing.x1) / 2 - scale * x,
                       (scene.drawing.y0 + scene.drawing.y1) / 2 + scale * y};
}

void cover_line(Point from, Point to, std::vector<Box>& boxes) {
  constexpr double kPiece = 6;
  const Point way = to - from;
  const double length = std::hypot(way.x, way.y);
  const int pieces = static_cast<int>(std::min(length / kPiece, 1000.0)) + 1;
  for (int i = 0; i < pieces; ++i) {
    const Point a = from + (static_cast<double>(i) / pieces) * way;
    const Point b = from + (static_cast<double>(i + 1) / pieces) * way;
    boxes.push_back({std::min(a.x, b.x) - 1, std::max(a.x, b.x) + 1, std::min(a.y, b.y) - 1,
                     std::max(a.y, b.y) + 1});
  }
}

void cover_outline(const Shape& shape, const View& view, std::vector<Box>& boxes) {
  const auto cover = [&](const Ring& ring) {
    for (std::size_t i = 0; i < ring.size(); ++i) {
      cover_line(view(ring[i]), view(ring[(i + 1) % ring.size()]), boxes);
    }
  };
  const auto cover_box = [&](const Box& b) {
    cover({{b.x0, b.y0}, {b.x1, b.y0}, {b.x1, b.y1}, {b.x0, b.y1}});
  };
  by_kind(
      shape, [](Point) {}, [&](const Box& box) { cover_box(box); },
      [&](const Disc& disc) {
        constexpr int kSides = 96;
        Ring ring;
        for (int i = 0; i < kSides; ++i) {
          const double angle = 2 * std::numbers::pi * i / kSides;
          ring.push_back(disc.center + disc.radius * Point{std::cos(angle), std::sin(angle)});
        }
        cover(ring);
      },
      // Its corners a little beyond the outline.
      [&](const RoundedBox& rounded) { cover_box(rounded.box); },
      [&](const MultiPolygon& polygons) {
        for (const Polygon& polygon : polygons) {
          cover(polygon.outer);
          for (const Ring& hole : polygon.holes) cover(hole);
        }
      });
}

std::optional<Box> mesh_bounds(const Setup& setup) {
  if (!setup.request.grid) return std::nullopt;
  Box bounds = grid_bounds_for_probe(setup, *setup.request.grid);
  if (bounds.empty()) return std::nullopt;
  return bounds;
}

std::optional<Point> home_probe(const Setup& setup) {
  if (!setup.request.home) return std::nullopt;
  return probe_position(setup.request.home->at, setup.request.home->frame, setup.probe.offset);
}

Point offset_probe(const Setup& setup) {
  if (const std::optional<Point> home = home_probe(setup)) return *home;
  const Box bed = bounding_box(setup.machine.bed);
  return Point{(bed.x0 + bed.x1) / 2, (bed.y0 + bed.y1) / 2} + 0.5 * setup.probe.offset;
}

}  // namespace leeway
