#include "formats/page/true_size_drawing.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "formats/drawing/label_layout.h"
#include "formats/drawing/svg.h"
#include "formats/text/numbers.h"

namespace leeway {
namespace {

constexpr double kBorder = 8;       // around the bed, mm
constexpr double kRuled = 10;       // between ruled lines
constexpr double kNamed = 50;       // between those with their coordinate
constexpr double kMostRuled = 600;  // lines on each axis
constexpr double kMark = 1.8;       // half the width of a point's mark
constexpr double kLetters = 2.4;    // size of the font of names
constexpr double kRim = 0.8;        // names keep off the rim
// Labels are laid out in the units of a screen's picture, for which their layout is meant.
constexpr double kScreen = 5;  // units a mm

struct Ruled {
  std::string thin, firm;                            // data of paths
  std::vector<std::pair<Point, double>> across, up;  // where coordinates stand
};

// Lines every 10 mm over the bed, each fifth with its coordinate at the bed's edge.
Ruled ruled(const Box& bed, const View& view) {
  Ruled out;
  if (bed.width() > kMostRuled * kRuled || bed.depth() > kMostRuled * kRuled) return out;
  const Box edge = view(bed);
  for (double x = std::ceil(bed.x0 / kRuled) * kRuled; x <= bed.x1; x += kRuled) {
    const double at = view(Point{x, 0}).x;
    const bool named = std::fmod(x, kNamed) == 0;
    (named ? out.firm : out.thin) +=
        fmt::format("M{} {}V{}", svg_number(at), svg_number(edge.y0), svg_number(edge.y1));
    if (named) out.across.emplace_back(Point{at, edge.y1 + 4}, x);
  }
  for (double y = std::ceil(bed.y0 / kRuled) * kRuled; y <= bed.y1; y += kRuled) {
    const double at = view(Point{0, y}).y;
    const bool named = std::fmod(y, kNamed) == 0;
    (named ? out.firm : out.thin) +=
        fmt::format("M{} {}H{}", svg_number(edge.x0), svg_number(at), svg_number(edge.x1));
    if (named) out.up.emplace_back(Point{edge.x0 - 1, at + 0.9}, y);
  }
  return out;
}

void write_ruled(SvgWriter& svg, const Ruled& lines) {
  svg.open("g", {{"clip-path", "url(#bed)"}});
  svg.path("ruled", lines.thin);
  svg.path("ruled firm", lines.firm);
  svg.close();
}

void write_coordinates(SvgWriter& svg, const Ruled& lines) {
  for (const auto& [at, x] : lines.across) svg.text("axis", at, Anchor::middle, decimal(x));
  for (const auto& [at, y] : lines.up) svg.text("axis", at, Anchor::end, decimal(y));
}

const char* mark_of(Verdict verdict) {
  switch (verdict) {
    case Verdict::reachable:
      return "#mark-reachable";
    case Verdict::marginal:
      return "#mark-marginal";
    case Verdict::unreachable:
      break;
  }
  return "#mark-unreachable";
}

void write_symbols(SvgWriter& svg) {
  svg.raw(
      "<g id=\"mark-reachable\"><path class=\"hair\" d=\"M-3 0h6M0 -3v6\"/>"
      "<circle class=\"mark\" r=\"1.5\"/></g>\n"
      "<g id=\"mark-marginal\"><path class=\"hair\" d=\"M-3 0h6M0 -3v6\"/>"
      "<path class=\"mark\" d=\"M0 -1.8L1.8 0L0 1.8L-1.8 0Z\"/>"
      "<path class=\"full\" d=\"M0 -1.8L0 1.8L-1.8 0Z\"/></g>\n"
      "<g id=\"mark-unreachable\"><path class=\"hair\" d=\"M-3 0h6M0 -3v6\"/>"
      "<path class=\"mark thick\" d=\"M-1.6 -1.6L1.6 1.6M-1.6 1.6L1.6 -1.6\"/></g>\n");
}

// On paper a point of the mesh is named by column and row alone.
std::string short_name(const CheckedPoint& point, const Words& words) {
  if (point.column > 0) return fmt::format("{},{}", point.column, point.row);
  return words.point(point);
}

bool inside(const Box& box, Point p) {
  return p.x >= box.x0 && p.x <= box.x1 && p.y >= box.y0 && p.y <= box.y1;
}

Box scaled(const Box& box) {
  return {kScreen * box.x0, kScreen * box.x1, kScreen * box.y0, kScreen * box.y1};
}

Label label_at(std::string text, Point at) {
  Label label;
  label.text = std::move(text);
  label.at = kScreen * at;
  label.distance = kScreen * (kMark + 1.4);
  label.size = kScreen * kLetters;
  return label;
}

// Marks, then names: of obstacles, of points that fail, of the others. Where they would run into
// each other, the later are left out.
bool write_points_and_names(SvgWriter& svg, const std::vector<const CheckedPoint*>& shown,
                            const Setup& setup, const Words& words, const View& view,
                            const Box& picture) {
  std::vector<Box> taken;
  for (const CheckedPoint* point : shown) {
    const Point p = view(point->probe);
    svg.empty("use", {{"href", mark_of(point->finding.verdict)}, {"x", p.x}, {"y", p.y}});
    taken.push_back(scaled({p.x - kMark, p.x + kMark, p.y - kMark, p.y + kMark}));
  }
  std::vector<Label> labels;
  for (const Obstacle& obstacle : setup.machine.obstacles) {
    const Box box = bounding_box(obstacle.shape);
    const Point middle = view(Point{(box.x0 + box.x1) / 2, (box.y0 + box.y1) / 2});
    Label label =
        label_at(words.name(obstacle.name), {std::clamp(middle.x, picture.x0, picture.x1),
                                             std::clamp(middle.y, picture.y0, picture.y1)});
    label.places = {label.at};
    labels.push_back(std::move(label));
  }
  for (const bool fails : {true, false}) {
    for (const CheckedPoint* point : shown) {
      if ((point->finding.verdict != Verdict::reachable) != fails) continue;
      labels.push_back(label_at(short_name(*point, words), view(point->probe)));
    }
  }
  std::vector<Box> lines;
  if (setup.request.grid) {
    const Box mesh = view(grid_bounds_for_probe(setup, *setup.request.grid));
    for (const Box& side :
         {Box{mesh.x0, mesh.x1, mesh.y0, mesh.y0}, Box{mesh.x0, mesh.x1, mesh.y1, mesh.y1},
          Box{mesh.x0, mesh.x0, mesh.y0, mesh.y1}, Box{mesh.x1, mesh.x1, mesh.y0, mesh.y1}}) {
      lines.push_back(scaled(side));
    }
  }
  const Box within{picture.x0 + kRim, picture.x1 - kRim, picture.y0 + kRim, picture.y1 - kRim};
  const std::vector<PlacedLabel> placed = place_labels(labels, taken, lines, scaled(within));
  for (const PlacedLabel& label : placed) {
    svg.text("name", (1 / kScreen) * label.base, Anchor::start, labels[label.label].text);
  }
  return placed.size() == labels.size();
}

}  // namespace

const char* const kSheetStyle = R"css(
text { font-family: "Liberation Sans", Arial, sans-serif; font-size: 2.4px; fill: #000; }
.small { font-size: 2.7px; }
.title { font-size: 3.8px; font-weight: bold; }
.axis { font-size: 2.6px; fill: #444; }
.axis, .name { paint-order: stroke; stroke: #fff; stroke-width: .5px; stroke-linejoin: round; }
.paper { fill: #fff; }
.measure { fill: none; stroke: #000; stroke-width: .2px; }
.seam { fill: none; stroke: #777; stroke-width: .15px; stroke-dasharray: 2px 2px; }
.cross { fill: none; stroke: #000; stroke-width: .15px; }
.bed { fill: none; stroke: #000; stroke-width: .4px; fill-rule: evenodd; }
.ruled { fill: none; stroke: #ccc; stroke-width: .1px; }
.firm { stroke: #999; stroke-width: .15px; }
.obstacle { fill: #ddd; stroke: #000; stroke-width: .25px; fill-rule: evenodd; }
.sure { fill: none; stroke: #0072b2; stroke-width: .3px; }
.mesh-bounds { fill: none; stroke: #000; stroke-width: .2px; stroke-dasharray: 3px 1.5px; }
.hair { fill: none; stroke: #000; stroke-width: .1px; }
.mark { fill: none; stroke: #000; stroke-width: .35px; }
.thick { stroke-width: .6px; }
.full { fill: #000; }
)css";

Box true_size_content(const Setup& setup) {
  const Box bed = bounding_box(setup.machine.bed);
  return {bed.x0 - kBorder, bed.x1 + kBorder, bed.y0 - kBorder, bed.y1 + kBorder};
}

TrueSizeDrawing true_size_drawing(const CheckResult& result, const Setup& setup,
                                  const Regions& regions, const Words& words) {
  const Box content = true_size_content(setup);
  const View view{1, {-content.x0, content.y1}};
  const Box picture = view(content);
  TrueSizeDrawing drawing;
  std::vector<const CheckedPoint*> shown;
  for (const CheckedPoint& point : result.points) {
    if (inside(content, point.probe)) {
      shown.push_back(&point);
    } else {
      drawing.off.push_back(words.point(point));
    }
  }
  SvgWriter svg([&drawing](std::string_view piece) { drawing.svg += piece; });
  const std::string bed = path_data(setup.machine.bed, view);
  write_symbols(svg);
  svg.open("clipPath", {{"id", "bed"}});
  svg.empty("path", {{"clip-rule", "evenodd"}, {"d", bed}});
  svg.close();
  svg.open("clipPath", {{"id", "content"}});
  svg.rect("", picture);
  svg.close();
  svg.open("g", {{"id", "plan"}});
  svg.open("g", {{"clip-path", "url(#content)"}});
  const Ruled lines = ruled(bounding_box(setup.machine.bed), view);
  write_ruled(svg, lines);
  svg.path("bed", bed);
  for (const Obstacle& obstacle : setup.machine.obstacles) {
    svg.path("obstacle", path_data(obstacle.shape, view));
  }
  write_coordinates(svg, lines);
  svg.path("sure", path_data(regions.get(RegionKind::reachable), view));
  if (setup.request.grid) {
    svg.path("mesh-bounds", path_data(view(grid_bounds_for_probe(setup, *setup.request.grid))));
  }
  drawing.names_left_out = !write_points_and_names(svg, shown, setup, words, view, picture);
  svg.close();
  svg.close();
  return drawing;
}

}  // namespace leeway
