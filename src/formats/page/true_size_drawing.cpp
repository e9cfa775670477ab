#include "formats/page/true_size_drawing.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "formats/drawing/label_layout.h"
#include "formats/drawing/svg.h"
#include "formats/plan/plan_frame.h"
#include "formats/plan/plan_scene.h"
#include "formats/text/numbers.h"

namespace leeway {
namespace {

constexpr double kBorder = 8;       // around the bed, mm
constexpr double kRuled = 10;       // between ruled lines
constexpr double kNamed = 50;       // between those with their coordinate
constexpr double kMostRuled = 600;  // lines on each axis
constexpr double kMark = 1.8;       // half the width of a point's mark
constexpr double kLetters = 2.4;    // size of the font of names
constexpr double kNumbers = 2.6;    // and of coordinates
constexpr double kRim = 0.8;        // names keep off the rim
// Labels are laid out in the units of a screen's picture, for which their layout is meant.
constexpr double kScreen = 5;  // units a mm

struct Ruled {
  std::string thin, firm;      // data of paths
  std::vector<double> xs, ys;  // of those with their coordinate, in mm of the machine
};

// A small bed has a coordinate at every line.
double named_step(const Box& bed) {
  return std::min(bed.width(), bed.depth()) < 2 * kNamed ? kRuled : kNamed;
}

// Lines every 10 mm over the bed, some with their coordinate.
Ruled ruled(const Box& bed, const View& view) {
  Ruled out;
  if (bed.width() > kMostRuled * kRuled || bed.depth() > kMostRuled * kRuled) return out;
  const Box edge = view(bed);
  const double step = named_step(bed);
  for (double x = std::ceil(bed.x0 / kRuled) * kRuled; x <= bed.x1; x += kRuled) {
    const bool named = std::fmod(x, step) == 0;
    (named ? out.firm : out.thin) += fmt::format("M{} {}V{}", svg_number(view(Point{x, 0}).x),
                                                 svg_number(edge.y0), svg_number(edge.y1));
    if (named) out.xs.push_back(x);
  }
  for (double y = std::ceil(bed.y0 / kRuled) * kRuled; y <= bed.y1; y += kRuled) {
    const bool named = std::fmod(y, step) == 0;
    (named ? out.firm : out.thin) += fmt::format(
        "M{} {}H{}", svg_number(edge.x0), svg_number(view(Point{0, y}).y), svg_number(edge.x1));
    if (named) out.ys.push_back(y);
  }
  return out;
}

void write_ruled(SvgWriter& svg, const Ruled& lines) {
  svg.open("g", {{"clip-path", "url(#bed)"}});
  svg.path("ruled", lines.thin);
  svg.path("ruled firm", lines.firm);
  svg.close();
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

// Marks shrink with what they stand on, so that those of a tiny bed stay apart.
double mark_size(const Setup& setup) {
  constexpr double kRoom = 7;      // that a mark of full size wants, mm
  constexpr double kFullBed = 30;  // from this size of a bed on
  constexpr double kLeastSize = 0.15;
  const Box bed = bounding_box(setup.machine.bed);
  double size = std::min(bed.width(), bed.depth()) / kFullBed;
  if (setup.request.grid) {
    const Grid& grid = *setup.request.grid;
    const Box mesh = grid_bounds_for_probe(setup, grid);
    if (grid.columns > 1) size = std::min(size, mesh.width() / (grid.columns - 1) / kRoom);
    if (grid.rows > 1) size = std::min(size, mesh.depth() / (grid.rows - 1) / kRoom);
  }
  return std::clamp(size, kLeastSize, 1.0);
}

void write_symbols(SvgWriter& svg, double size) {
  const auto n = [size](double value) { return svg_number(value * size); };
  const std::string hair = fmt::format("M-{0} 0h{1}M0 -{0}v{1}", n(3), n(6));
  const auto symbol = [&](const char* id) {
    svg.open("g", {{"id", id}});
    svg.path("hair", hair);
  };
  symbol("mark-reachable");
  svg.empty("circle", {{"class", "mark"}, {"r", n(1.5)}});
  svg.close();
  symbol("mark-marginal");
  svg.path("mark", fmt::format("M0 -{0}L{0} 0L0 {0}L-{0} 0Z", n(1.8)));
  svg.path("full", fmt::format("M0 -{0}L0 {0}L-{0} 0Z", n(1.8)));
  svg.close();
  symbol("mark-unreachable");
  svg.path("mark thick", fmt::format("M-{0} -{0}L{0} {0}M-{0} {0}L{0} -{0}", n(1.6)));
  svg.close();
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

// What labels are laid out in and around, in the units of their layout.
struct Layout {
  std::vector<Label> labels;
  std::vector<Box> taken;
  std::vector<Box> lines;  // to keep off where there is room
  std::vector<Box> marks;
  std::size_t coordinates = 0;  // how many of the labels are, in front
};

Box square(Point p, double by) { return {p.x - by, p.x + by, p.y - by, p.y + by}; }

// Where crosses stand, and the seams: a name lies whole on one side of each.
void keep_off_seams(const SheetPlan& plan, const View& view, const Box& content, Layout& layout) {
  constexpr double kCross = 5.6;
  constexpr double kSeam = 0.2;
  for (const Point p : registration_points(plan)) {
    layout.taken.push_back(scaled(square(view(p), kCross)));
  }
  const Box all = view(content);
  for (const Sheet& sheet : plan.sheets) {
    const Box edge = view(sheet.shows);
    for (const double x : {edge.x0, edge.x1}) {
      layout.taken.push_back(scaled({x - kSeam, x + kSeam, all.y0, all.y1}));
    }
    for (const double y : {edge.y0, edge.y1}) {
      layout.taken.push_back(scaled({all.x0, all.x1, y - kSeam, y + kSeam}));
    }
  }
}

Label coordinate(double value) {
  Label label{decimal(value), {}, 0, kScreen * kNumbers};
  label.around = false;
  label.otherwise = "";
  return label;
}

// On each sheet, at the bed's edge where that is on it, else near the sheet's own.
void add_coordinates(const SheetPlan& plan, const Ruled& lines, const Box& bed, const View& view,
                     Layout& layout) {
  constexpr double kBeside = 3.2;  // of the edge
  constexpr int kTries = 12;
  constexpr double kTry = 5;  // from one to the next
  for (const Sheet& sheet : plan.sheets) {
    const Box& s = sheet.shows;
    const double front = s.y0 < bed.y0 - kBeside ? bed.y0 - kBeside : s.y0 + kBeside;
    const double left = s.x0 < bed.x0 - 2 * kBeside ? bed.x0 - kBeside : s.x0 + 1.5 * kBeside;
    // What two sheets share has its coordinate from the one of them.
    const double first_x = s.x0 + (sheet.column > 1 ? kPaperOverlap : 0);
    const double last_y = s.y1 - (sheet.row > 1 ? kPaperOverlap : 0);
    for (const double x : lines.xs) {
      if (x < first_x || x > s.x1 || bed.y0 > s.y1) continue;
      Label label = coordinate(x);
      for (int i = 0; i < kTries; ++i) {
        label.places.push_back(kScreen * view(Point{x, front + kTry * i}));
      }
      layout.labels.push_back(label);
    }
    for (const double y : lines.ys) {
      if (y < s.y0 || y > last_y || bed.x0 > s.x1) continue;
      Label label = coordinate(y);
      for (int i = 0; i < kTries; ++i) {
        label.places.push_back(kScreen * view(Point{left + kTry * i, y}));
      }
      layout.labels.push_back(label);
    }
  }
  layout.coordinates = layout.labels.size();
}

// A name on what it names, beside it, or at the end of a line that leads there.
void add_obstacle_names(const Setup& setup, const Words& words, const View& view,
                        const Box& picture, Layout& layout) {
  const View screen{kScreen * view.scale, kScreen * view.corner};
  std::vector<Label> names;
  for (const Obstacle& obstacle : setup.machine.obstacles) {
    const Box box = screen(bounding_box(obstacle.shape));
    if (box.empty()) continue;
    Label label{words.name(obstacle.name),
                {(box.x0 + box.x1) / 2, (box.y0 + box.y1) / 2},
                kScreen * 1.2,
                kScreen * kLetters};
    label.half = {box.width() / 2, box.depth() / 2};
    cover_outline(obstacle.shape, screen, label.mark);
    label.solid = std::min(box.width(), box.depth()) < kScreen * 30;
    names.push_back(std::move(label));
  }
  keep_labels_in(scaled(picture), names);
  for (Label& label : names) {
    label.places = {label.at};
    layout.labels.push_back(std::move(label));
  }
}

// Those of points that fail first.
void add_points(const std::vector<const CheckedPoint*>& shown, const Words& words, const View& view,
                double size, Layout& layout) {
  for (const CheckedPoint* point : shown) {
    layout.taken.push_back(scaled(square(view(point->probe), kMark * size)));
  }
  for (const bool fails : {true, false}) {
    for (const CheckedPoint* point : shown) {
      if ((point->finding.verdict != Verdict::reachable) != fails) continue;
      Label label{short_name(*point, words), kScreen * view(point->probe), kScreen * 1.4,
                  kScreen * kLetters};
      const double half = kScreen * kMark * size;
      label.half = {half, half};
      layout.labels.push_back(std::move(label));
    }
  }
}

void keep_off_lines(const Setup& setup, const View& view, Layout& layout) {
  cover_outline(setup.machine.bed, {kScreen * view.scale, kScreen * view.corner}, layout.lines);
  if (!setup.request.grid) return;
  const Box mesh = view(grid_bounds_for_probe(setup, *setup.request.grid));
  for (const Box& side :
       {Box{mesh.x0, mesh.x1, mesh.y0, mesh.y0}, Box{mesh.x0, mesh.x1, mesh.y1, mesh.y1},
        Box{mesh.x0, mesh.x0, mesh.y0, mesh.y1}, Box{mesh.x1, mesh.x1, mesh.y0, mesh.y1}}) {
    layout.lines.push_back(scaled(side));
  }
}

// Returns the names that found no place.
std::vector<std::string> write_layout(SvgWriter& svg, const Layout& layout, const Box& picture) {
  const Box within{picture.x0 + kRim, picture.x1 - kRim, picture.y0 + kRim, picture.y1 - kRim};
  const std::vector<PlacedLabel> placed =
      place_labels(layout.labels, layout.taken, layout.lines, scaled(within));
  std::vector<bool> done(layout.labels.size());
  for (const PlacedLabel& label : placed) {
    done[label.label] = true;
    if (label.far) svg.line("lead", (1 / kScreen) * label.lead_from, (1 / kScreen) * label.lead_to);
  }
  for (const PlacedLabel& label : placed) {
    svg.text(label.label < layout.coordinates ? "axis" : "name", (1 / kScreen) * label.base,
             Anchor::start, layout.labels[label.label].text);
  }
  std::vector<std::string> left_out;
  for (std::size_t i = layout.coordinates; i < done.size(); ++i) {
    if (!done[i]) left_out.push_back(layout.labels[i].text);
  }
  return left_out;
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
.lead { fill: none; stroke: #444; stroke-width: .15px; }
.key { fill: none; stroke: #000; stroke-width: .2px; }
.here { fill: #000; }
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
                                  const Regions& regions, const Words& words,
                                  const SheetPlan& plan) {
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
  const double size = mark_size(setup);
  write_symbols(svg, size);
  svg.open("clipPath", {{"id", "bed"}});
  svg.empty("path", {{"clip-rule", "evenodd"}, {"d", bed}});
  svg.close();
  svg.open("clipPath", {{"id", "content"}});
  svg.rect("", picture);
  svg.close();
  svg.open("g", {{"id", "plan"}});
  svg.open("g", {{"clip-path", "url(#content)"}});
  const Box bed_box = bounding_box(setup.machine.bed);
  const Ruled lines = ruled(bed_box, view);
  write_ruled(svg, lines);
  svg.path("bed", bed);
  for (const Obstacle& obstacle : setup.machine.obstacles) {
    svg.path("obstacle", path_data(obstacle.shape, view));
  }
  svg.path("sure", path_data(regions.get(RegionKind::reachable), view));
  if (setup.request.grid) {
    svg.path("mesh-bounds", path_data(view(grid_bounds_for_probe(setup, *setup.request.grid))));
  }
  for (const CheckedPoint* point : shown) {
    const Point p = view(point->probe);
    svg.empty("use", {{"href", mark_of(point->finding.verdict)}, {"x", p.x}, {"y", p.y}});
  }
  Layout layout;
  keep_off_seams(plan, view, content, layout);
  add_coordinates(plan, lines, bed_box, view, layout);
  add_obstacle_names(setup, words, view, picture, layout);
  add_points(shown, words, view, size, layout);
  keep_off_lines(setup, view, layout);
  drawing.left_out = write_layout(svg, layout, picture);
  svg.close();
  svg.close();
  return drawing;
}

}  // namespace leeway
