#include "formats/plan/plan_frame.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "formats/drawing/axes.h"
#include "formats/drawing/drawing_style.h"
#include "formats/plan/plan_head.h"
#include "formats/text/numbers.h"
#include "geometry/plane/vector.h"

namespace leeway {
namespace {

constexpr double kShortLine = 18;  // a dimension's line that needs a detail, in the picture
constexpr double kDetail = 132;    // side of a detail
constexpr double kCaption = 34;    // below the small plan and below each detail

Box common(const Box& a, const Box& b) {
  return {std::max(a.x0, b.x0), std::min(a.x1, b.x1), std::max(a.y0, b.y0), std::min(a.y1, b.y1)};
}

bool touches(const Box& a, const Box& b) {
  return a.x0 <= b.x1 && b.x0 <= a.x1 && a.y0 <= b.y1 && b.y0 <= a.y1;
}

View view_of(const Box& seen, const Box& place) {
  View view;
  view.scale = std::min(place.width() / seen.width(), place.depth() / seen.depth());
  view.corner = {(place.x0 + place.x1) / 2 - view.scale * (seen.x0 + seen.x1) / 2,
                 (place.y0 + place.y1) / 2 + view.scale * (seen.y0 + seen.y1) / 2};
  return view;
}

void draw_machine(SvgWriter& svg, const Setup& setup, const View& view) {
  svg.path("bed", path_data(setup.machine.bed, view));
  for (const Obstacle& obstacle : setup.machine.obstacles) {
    svg.path("thing", path_data(obstacle.shape, view));
  }
  svg.path("travel", path_data(setup.machine.travel, view));
}

// Returns where it ends.
double draw_whole(SvgWriter& svg, const PlanInput& input, const PlanScene& scene, Point corner) {
  const Box all = plan_extent(input);
  const double height = std::min(kDetail, kDetail * all.depth() / all.width());
  const Box place{corner.x, corner.x + kDetail, corner.y, corner.y + height};
  const View view = view_of(all, place);
  draw_machine(svg, input.rig.setup(), view);
  const Box& d = scene.drawing;
  const auto back = [&](double x, double y) {
    return Point{(x - scene.view.corner.x) / scene.view.scale,
                 (scene.view.corner.y - y) / scene.view.scale};
  };
  const Point low = back(d.x0, d.y1);
  const Point high = back(d.x1, d.y0);
  const Box seen = common(view(Box{low.x, high.x, low.y, high.y}), place);
  svg.path("rim", path_data(seen));
  svg.path("mesh-bounds", path_data(seen));
  svg.text("faint", {place.x0, place.y1 + 16}, Anchor::start, "the whole; this framed");
  return place.y1 + kCaption;
}

void draw_carried(SvgWriter& svg, const Setup& setup, Point probe, const View& view) {
  const auto moved = [&](Point by) { return View{view.scale, view(by)}; };
  const Point nozzle = probe - setup.probe.offset;
  for (const HeadPart& part : setup.machine.head) {
    svg.path("part", path_data(part.outline, moved(nozzle)));
  }
  if (setup.probe.body) svg.path("part", path_data(setup.probe.body->outline, moved(probe)));
  svg.path("spot", path_data(setup.probe.spot, moved(probe)));
  svg.circle("nozzle", view(nozzle), 2);
  svg.circle("probe", view(probe), 2);
}

double draw_detail(SvgWriter& svg, const PlanInput& input, const PlanScene& scene,
                   const Dimension& dimension, std::size_t number, Point corner) {
  const Box place{corner.x, corner.x + kDetail, corner.y, corner.y + kDetail};
  const double length = std::max(norm(dimension.to - dimension.from), 0.05);
  const double half = 1.6 * length;
  const Point middle = 0.5 * (dimension.from + dimension.to);
  const View view =
      view_of({middle.x - half, middle.x + half, middle.y - half, middle.y + half}, place);
  const std::string id = fmt::format("{}detail-{}", scene.prefix, number);
  svg.open("clipPath", {{"id", id}});
  svg.empty("path", {{"d", path_data(place)}});
  svg.close();
  svg.open("g", {{"clip-path", "url(#" + id + ")"}});
  draw_machine(svg, input.rig.setup(), view);
  draw_carried(svg, input.rig.setup(), input.options.head->probe, view);
  draw_dimension_line(svg, dimension, view);
  svg.close();
  svg.path("tick", path_data(place));
  const double leeway = dimension.reading.leeway;
  svg.text("strong", {place.x0, place.y1 + 14}, Anchor::start,
           leeway < 0 ? at_least(-leeway) + " short" : at_most(leeway) + " of leeway");
  svg.text("faint", {place.x0, place.y1 + 29}, Anchor::start,
           fmt::format("{} times as large", decimal(std::round(view.scale / scene.view.scale))));
  return place.y1 + kCaption + 6;
}

}  // namespace

std::optional<Box> head_extent(const PlanInput& input) {
  if (!input.options.head) return std::nullopt;
  const Setup& setup = input.rig.setup();
  const HeadPlace& head = *input.options.head;
  const Point nozzle = head.probe - setup.probe.offset;
  Box seen{nozzle.x, nozzle.x, nozzle.y, nozzle.y};
  widen(seen, head.probe);
  widen(seen, setup.probe.spot, head.probe);
  if (setup.probe.body) widen(seen, setup.probe.body->outline, head.probe);
  for (const HeadPart& part : setup.machine.head) widen(seen, part.outline, nozzle);
  for (const Dimension& dimension : head.dimensions) {
    widen(seen, dimension.from);
    widen(seen, dimension.to);
  }
  // Air for labels, and to see what the head stands beside.
  const double air = 0.35 * std::max({seen.width(), seen.depth(), 10.0});
  seen = {seen.x0 - air, seen.x1 + air, seen.y0 - air, seen.y1 + air};
  const Box all = plan_extent(input);
  const double share = std::max(seen.width(), seen.depth()) / std::max(all.width(), all.depth());
  constexpr double kAboutAll = 0.7;
  return share < kAboutAll ? std::optional<Box>(seen) : std::nullopt;
}

void draw_beside(SvgWriter& svg, const PlanInput& input, const PlanScene& scene) {
  const double x = scene.drawing.x1 + kBesideWidth - kDetail;
  svg.group("beside");
  double y = draw_whole(svg, input, scene, {x, scene.drawing.y0});
  std::size_t number = 0;
  for (const Dimension& dimension : input.options.head->dimensions) {
    if (norm(dimension.to - dimension.from) * scene.view.scale >= kShortLine) continue;
    if (y + kDetail + kCaption > scene.drawing.y1 + kAxisBelow) break;
    y = draw_detail(svg, input, scene, dimension, ++number, {x, y});
  }
  svg.close();
}

void keep_labels_in(const Box& drawing, std::vector<Label>& labels) {
  std::vector<Label> kept;
  for (Label& label : labels) {
    const Box seen = common({label.at.x - label.half.x, label.at.x + label.half.x,
                             label.at.y - label.half.y, label.at.y + label.half.y},
                            drawing);
    if (seen.x0 > seen.x1 || seen.y0 > seen.y1) continue;
    label.at = {(seen.x0 + seen.x1) / 2, (seen.y0 + seen.y1) / 2};
    label.half = {seen.width() / 2, seen.depth() / 2};
    label.mark.erase(std::remove_if(label.mark.begin(), label.mark.end(),
                                    [&](const Box& piece) { return !touches(piece, drawing); }),
                     label.mark.end());
    kept.push_back(std::move(label));
  }
  labels = std::move(kept);
}

}  // namespace leeway
