#include "formats/true_size_drawing.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "formats/html.h"
#include "formats/names.h"
#include "formats/numbers.h"

namespace leeway {
namespace {

constexpr double kBorder = 8;       // around the plate, mm
constexpr double kRuled = 10;       // between ruled lines
constexpr double kNamed = 50;       // between those with their coordinate
constexpr double kMostRuled = 600;  // lines on each axis
constexpr double kMark = 1.8;       // half the width of a point's mark
constexpr double kLetter = 1.35;    // about the width of a letter of a point's name
constexpr double kLetterHeight = 2.4;

// From the plate to the drawing: the back is above.
struct Placing {
  Box content;

  std::string x(double value) const { return shortest(value - content.x0); }
  std::string y(double value) const { return shortest(content.y1 - value); }
  std::string at(Point p) const { return x(p.x) + " " + y(p.y); }
};

std::string ring_path(const Ring& ring, const Placing& frame) {
  std::string out;
  for (std::size_t i = 0; i < ring.size(); ++i) out += (i == 0 ? "M" : "L") + frame.at(ring[i]);
  return out + "Z";
}

std::string path(const MultiPolygon& polygons, const Placing& frame) {
  std::string out;
  for (const Polygon& polygon : polygons) {
    out += ring_path(polygon.outer, frame);
    for (const Ring& hole : polygon.holes) out += ring_path(hole, frame);
  }
  return out;
}

std::string path(const Disc& disc, const Placing& frame) {
  const std::string r = shortest(disc.radius);
  const std::string across = shortest(2 * disc.radius);
  return fmt::format("M{0}a{1} {1} 0 0 0 {2} 0a{1} {1} 0 0 0 -{2} 0Z",
                     frame.at({disc.center.x - disc.radius, disc.center.y}), r, across);
}

std::string path(const Shape& shape, const Placing& frame) {
  if (const auto* box = std::get_if<Box>(&shape)) {
    return fmt::format("M{}H{}V{}H{}Z", frame.at({box->x0, box->y0}), frame.x(box->x1),
                       frame.y(box->y1), frame.x(box->x0));
  }
  if (const auto* disc = std::get_if<Disc>(&shape)) return path(*disc, frame);
  if (const auto* polygons = std::get_if<MultiPolygon>(&shape)) return path(*polygons, frame);
  return "";
}

std::string path_element(const std::string& d, const char* kind) {
  return d.empty() ? "" : fmt::format("<path class=\"{}\" d=\"{}\"/>\n", kind, d);
}

std::string text_at(const Placing& frame, Point p, const std::string& text, const char* kind) {
  return fmt::format("<text x=\"{}\" y=\"{}\" class=\"{}\">{}</text>\n", frame.x(p.x), frame.y(p.y),
                     kind, html_attribute(text));
}

// Lines every 10 mm, cut to the plate, each fifth with its coordinate at the plate's edge.
std::string ruled(const Box& bed, const Placing& frame) {
  std::string thin, firm, names;
  if (bed.width() > kMostRuled * kRuled || bed.depth() > kMostRuled * kRuled) return "";
  for (double x = std::ceil(bed.x0 / kRuled) * kRuled; x <= bed.x1; x += kRuled) {
    const bool named = std::fmod(x, kNamed) == 0;
    (named ? firm : thin) += fmt::format("M{}V{}", frame.at({x, bed.y0}), frame.y(bed.y1));
    if (named) names += text_at(frame, {x, bed.y0 - 4}, decimal(x + 0.0), "axis middle");
  }
  for (double y = std::ceil(bed.y0 / kRuled) * kRuled; y <= bed.y1; y += kRuled) {
    const bool named = std::fmod(y, kNamed) == 0;
    (named ? firm : thin) += fmt::format("M{}H{}", frame.at({bed.x0, y}), frame.x(bed.x1));
    if (named) names += text_at(frame, {bed.x0 - 1.5, y - 0.8}, decimal(y + 0.0), "axis end");
  }
  return "<g clip-path=\"url(#plate)\">" + path_element(thin, "ruled") +
         path_element(firm, "ruled firm") + "</g>\n" + names;
}

struct Label {
  double x0, x1, y0, y1;

  bool meets(const Label& other) const {
    return x0 < other.x1 && other.x0 < x1 && y0 < other.y1 && other.y0 < y1;
  }
};

const char* mark_of(Verdict verdict) {
  switch (verdict) {
    case Verdict::reachable:
      return "mark-reachable";
    case Verdict::marginal:
      return "mark-marginal";
    case Verdict::unreachable:
      break;
  }
  return "mark-unreachable";
}

// On paper a point of the mesh is named by column and row alone.
std::string short_name(const CheckedPoint& point, const Words& words) {
  if (point.column > 0) return fmt::format("{},{}", point.column, point.row);
  return words.point(point);
}

bool inside(const Box& box, Point p) {
  return p.x >= box.x0 && p.x <= box.x1 && p.y >= box.y0 && p.y <= box.y1;
}

// Marks and names; those that fail are named first, for names are left out where they would meet.
void add_points(const CheckResult& result, const Words& words, const Placing& frame,
                TrueSizeDrawing& drawing) {
  std::vector<const CheckedPoint*> shown;
  for (const CheckedPoint& point : result.points) {
    if (inside(frame.content, point.probe)) {
      shown.push_back(&point);
    } else {
      drawing.off.push_back(words.point(point));
    }
  }
  std::vector<Label> taken;
  for (const CheckedPoint* point : shown) {
    const Point p = point->probe;
    drawing.svg += fmt::format("<use href=\"#{}\" x=\"{}\" y=\"{}\"/>\n",
                               mark_of(point->finding.verdict), frame.x(p.x), frame.y(p.y));
    taken.push_back({p.x - kMark, p.x + kMark, p.y - kMark, p.y + kMark});
  }
  std::stable_partition(shown.begin(), shown.end(), [](const CheckedPoint* point) {
    return point->finding.verdict != Verdict::reachable;
  });
  for (const CheckedPoint* point : shown) {
    const std::string name = short_name(*point, words);
    const double width = kLetter * static_cast<double>(columns_of(html_attribute(name))) + 0.6;
    const Point at{point->probe.x + kMark + 0.4, point->probe.y + 0.9};
    const Label label{at.x, at.x + width, at.y - 0.5, at.y + kLetterHeight};
    const bool free =
        label.x1 <= frame.content.x1 &&
        std::none_of(taken.begin(), taken.end(), [&](const Label& t) { return label.meets(t); });
    if (!free) {
      drawing.names_left_out = true;
      continue;
    }
    taken.push_back(label);
    drawing.svg += text_at(frame, at, name, "name");
  }
}

std::string symbols() {
  return "<g id=\"mark-reachable\"><path class=\"hair\" d=\"M-3 0h6M0 -3v6\"/>"
         "<circle class=\"mark\" r=\"1.5\"/></g>\n"
         "<g id=\"mark-marginal\"><path class=\"hair\" d=\"M-3 0h6M0 -3v6\"/>"
         "<path class=\"mark\" d=\"M0 -1.8L1.8 0L0 1.8L-1.8 0Z\"/>"
         "<path class=\"full\" d=\"M0 -1.8L0 1.8L-1.8 0Z\"/></g>\n"
         "<g id=\"mark-unreachable\"><path class=\"hair\" d=\"M-3 0h6M0 -3v6\"/>"
         "<path class=\"mark thick\" d=\"M-1.6 -1.6L1.6 1.6M-1.6 1.6L1.6 -1.6\"/></g>\n";
}

}  // namespace

const char* const kSheetStyle = R"css(
.sheet text { font-family: "Liberation Sans", Arial, sans-serif; font-size: 2.4px; fill: #000; }
.sheet .small { font-size: 2.7px; }
.sheet .title { font-size: 3.8px; font-weight: bold; }
.sheet .axis { font-size: 2.6px; fill: #444; }
.sheet .middle { text-anchor: middle; }
.sheet .end { text-anchor: end; }
.paper { fill: #fff; }
.measure { fill: none; stroke: #000; stroke-width: .2px; }
.seam { fill: none; stroke: #777; stroke-width: .15px; stroke-dasharray: 2px 2px; }
.cross { fill: none; stroke: #000; stroke-width: .15px; }
.bed { fill: none; stroke: #000; stroke-width: .4px; fill-rule: evenodd; }
.ruled { fill: none; stroke: #ccc; stroke-width: .1px; }
.firm { stroke: #999; stroke-width: .15px; }
.obstacle { fill: #ddd; stroke: #000; stroke-width: .25px; fill-rule: evenodd; }
.sure { fill: none; stroke: #0072b2; stroke-width: .3px; }
.mesh { fill: none; stroke: #000; stroke-width: .2px; stroke-dasharray: 3px 1.5px; }
.hair { fill: none; stroke: #000; stroke-width: .1px; }
.mark { fill: none; stroke: #000; stroke-width: .35px; }
.thick { stroke-width: .6px; }
.full { fill: #000; }
)css";

Box true_size_content(const Setup& setup) {
  const Box bed = bounding_box(setup.machine.bed);
  return {bed.x0 - kBorder, bed.x1 + kBorder, bed.y0 - kBorder, bed.y1 + kBorder};
}

TrueSizeDrawing true_size_drawing(const CheckResult& result, const Setup& setup, Regions& regions,
                                  const Words& words) {
  const Placing frame{true_size_content(setup)};
  TrueSizeDrawing drawing;
  const std::string bed = path(setup.machine.bed, frame);
  drawing.svg = symbols();
  drawing.svg += fmt::format(
      "<clipPath id=\"plate\"><path d=\"{}\" clip-rule=\"evenodd\"/></clipPath>\n"
      "<clipPath id=\"content\"><rect width=\"{}\" height=\"{}\"/></clipPath>\n"
      "<g id=\"plan\"><g clip-path=\"url(#content)\">\n",
      bed, shortest(frame.content.width()), shortest(frame.content.depth()));
  drawing.svg += ruled(bounding_box(setup.machine.bed), frame);
  drawing.svg += path_element(bed, "bed");
  for (const Obstacle& obstacle : setup.machine.obstacles) {
    drawing.svg += path_element(path(obstacle.shape, frame), "obstacle");
    const Box box = bounding_box(obstacle.shape);
    drawing.svg +=
        text_at(frame,
                {std::clamp((box.x0 + box.x1) / 2, frame.content.x0, frame.content.x1),
                 std::clamp((box.y0 + box.y1) / 2, frame.content.y0 + 1, frame.content.y1 - 3)},
                words.name(obstacle.name), "name middle");
  }
  drawing.svg += path_element(path(regions.get(RegionKind::guarded), frame), "sure");
  if (setup.request.grid) {
    drawing.svg += path_element(
        path(Shape(lattice_bounds_for_probe(setup, *setup.request.grid)), frame), "mesh");
  }
  add_points(result, words, frame, drawing);
  drawing.svg += "</g></g>\n";
  return drawing;
}

}  // namespace leeway
