#include "formats/plan/plan_strips.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "formats/text/numbers.h"

namespace leeway {
namespace {

void name_strips(const UncoveredStrips& uncovered, const Box& all, const Box& mesh,
                 PlanScene& scene) {
  const View& view = scene.view;
  const Box ends{std::max(mesh.x0, all.x0), std::min(mesh.x1, all.x1), std::max(mesh.y0, all.y0),
                 std::min(mesh.y1, all.y1)};
  const auto name = [&](const char* side, double amount, Point from, Point to) {
    if (amount <= 0) return;
    const std::string number = decimal(std::round(amount * 10) / 10);
    Label label{"uncovered " + number, view(0.5 * (from + to)), 0};
    label.otherwise = fmt::format("uncovered {} {}", number, side);
    const bool upright = from.x == to.x;
    if (upright && text_width(label.text, label.size) + 8 > amount * view.scale) {
      label.text = number + " mm";  // a number alone could be that of an obstacle
    }
    label.around = false;
    // Somewhere along the strip.
    for (const double t : {0.5, 0.45, 0.55, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.1, 0.9}) {
      label.places.push_back(view(from + t * (to - from)));
    }
    scene.late_labels.push_back(label);
  };
  const double left = (all.x0 + std::min(mesh.x0, all.x1)) / 2;
  const double right = (std::max(mesh.x1, all.x0) + all.x1) / 2;
  const double front = (all.y0 + std::min(mesh.y0, all.y1)) / 2;
  const double back = (std::max(mesh.y1, all.y0) + all.y1) / 2;
  name("on the left", uncovered.left, {left, ends.y0}, {left, ends.y1});
  name("on the right", uncovered.right, {right, ends.y0}, {right, ends.y1});
  name("at the front", uncovered.front, {ends.x0, front}, {ends.x1, front});
  name("at the back", uncovered.back, {ends.x0, back}, {ends.x1, back});
}

}  // namespace

void draw_uncovered_strips(SvgWriter& svg, const PlanInput& input, PlanScene& scene) {
  const std::optional<Box> mesh = mesh_bounds(input.rig.setup());
  const MultiPolygon& printable = input.rig.regions().get(RegionKind::printable);
  const std::optional<Box> all = bounds(printable);
  if (!mesh || !all || !input.result.coverage) return;
  if (input.options.head) return;  // it is about the head then
  const UncoveredStrips& uncovered = input.result.coverage->uncovered;
  if (std::max({uncovered.left, uncovered.right, uncovered.front, uncovered.back}) <= 0) return;
  const Box inner{std::max(mesh->x0, all->x0), std::min(mesh->x1, all->x1),
                  std::max(mesh->y0, all->y0), std::min(mesh->y1, all->y1)};
  svg.open("defs", {});
  svg.open("pattern", {{"id", scene.prefix + "hatch"},
                       {"patternUnits", "userSpaceOnUse"},
                       {"width", "11"},
                       {"height", "11"}});
  svg.path("uncovered-line", "M-1 1L1-1M0 11L11 0M10 12L12 10");
  svg.close();
  svg.open("clipPath", {{"id", scene.prefix + "clip"}});
  svg.empty("path", {{"clip-rule", "evenodd"}, {"d", path_data(printable, scene.view)}});
  svg.close();
  svg.close();
  std::string frame = path_data(scene.view(*all));
  if (!inner.empty()) frame += path_data(scene.view(inner));
  svg.open("g", {{"clip-path", "url(#" + scene.prefix + "clip)"}});
  svg.empty("path", {{"fill", "url(#" + scene.prefix + "hatch)"},
                     {"class", "uncovered"},
                     {"fill-rule", "evenodd"},
                     {"d", frame}});
  svg.close();
  name_strips(uncovered, *all, *mesh, scene);
  const std::string hatch = "url(#" + scene.prefix + "hatch)";
  scene.legend.entries.push_back(
      {"uncovered strip: printable, no grid", [hatch](SvgWriter& out, Point at) {
         out.empty("path", {{"fill", hatch},
                            {"class", "uncovered"},
                            {"d", path_data(Box{at.x - 12, at.x + 12, at.y - 6, at.y + 6})}});
       }});
}

}  // namespace leeway
