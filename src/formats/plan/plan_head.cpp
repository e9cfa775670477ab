#include "formats/plan/plan_head.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "formats/drawing/drawing_style.h"
#include "formats/text/names.h"
#include "formats/text/numbers.h"
#include "geometry/plane/vector.h"

namespace leeway {
namespace {

// A filled head of an arrow, its tip at `tip`.
void arrow_head(SvgWriter& svg, std::string_view classes, Point from, Point tip, double size) {
  const double far = norm(tip - from);
  if (far == 0) return;
  const Point along = (1 / far) * (tip - from);
  const Point across{-along.y, along.x};
  const Point back = tip - size * along;
  const Point left = back + 0.38 * size * across;
  const Point right = back - 0.38 * size * across;
  svg.path(classes, fmt::format("M{} {}L{} {}L{} {}Z", svg_number(tip.x), svg_number(tip.y),
                                svg_number(left.x), svg_number(left.y), svg_number(right.x),
                                svg_number(right.y)));
}

Box around(Point p, double by) { return {p.x - by, p.x + by, p.y - by, p.y + by}; }

void draw_nozzle(SvgWriter& svg, Point at) {
  svg.circle("paper ring", at, 5);
  svg.circle("nozzle", at, 2);
}

View moved_view(const View& view, Point by) { return {view.scale, view(by)}; }

// Each name once, in the order of the machine; the outline is relative to what carries it.
void draw_part(SvgWriter& svg, const std::string& name, const Shape& outline, Point at,
               PlanScene& scene) {
  const View here = moved_view(scene.view, at);
  svg.path("rim", path_data(outline, here));
  svg.path("part", path_data(outline, here));
  cover_outline(outline, here, scene.avoided);
  const Box box = here(bounding_box(outline));
  const Point middle{(box.x0 + box.x1) / 2, (box.y0 + box.y1) / 2};
  Label label{name, middle, 3};
  label.half = {box.width() / 2, box.depth() / 2};
  cover_outline(outline, here, label.mark);
  // Inside where there is room.
  if (text_width(name, label.size) < box.width() - 6 && box.depth() > 18) {
    label.places = {middle, {middle.x, box.y0 + 10}, {middle.x, box.y1 - 10}};
  }
  scene.labels.push_back(label);
}

// For a straight line.
Label line_label(const std::string& text, Point from, Point to, double distance) {
  Label label{text, 0.5 * (from + to), distance};
  label.half = {std::abs(to.x - from.x) / 2, std::abs(to.y - from.y) / 2};
  cover_line(from, to, label.mark);
  return label;
}

// For a round mark: its box is within, so that a line to the label ends on the mark.
Label mark_label(const std::string& text, Point at) {
  constexpr double kWithin = 3.5;
  Label label{text, at, 7 - kWithin};
  label.half = {kWithin, kWithin};
  return label;
}

// A name where there are several to tell apart; of a single one the sentence above tells.
std::string dimension_text(const Dimension& dimension, const Words& words, bool named) {
  const double leeway = dimension.reading.leeway;
  std::string text = leeway < 0 ? at_least(-leeway) + " short" : at_most(leeway) + " of leeway";
  if (leeway >= 0 && leeway < dimension.reading.guard) {
    text += ", " + at_least(dimension.reading.guard) + " wanted";
  }
  if (!named) return text;
  return text + ": " + words.limit(static_cast<std::uint32_t>(dimension.limit));
}

void draw_dimension(SvgWriter& svg, const Dimension& dimension, const std::string& text,
                    PlanScene& scene) {
  const Point from = scene.view(dimension.from);
  const Point to = scene.view(dimension.to);
  draw_dimension_line(svg, dimension, scene.view);
  cover_line(from, to, scene.taken);
  Label label = line_label(text, from, to, 7);
  label.bold = true;
  scene.labels.insert(scene.labels.begin() + static_cast<std::ptrdiff_t>(scene.dimensions++),
                      label);
}

// Long names run into everything; then a letter stands for each, and the legend says what it means.
void draw_dimensions(SvgWriter& svg, const HeadPlace& place, const Words& words, PlanScene& scene) {
  constexpr double kWidestText = 250;
  const bool named = place.dimensions.size() > 1;
  std::vector<std::string> texts;
  bool letters = false;
  for (const Dimension& dimension : place.dimensions) {
    texts.push_back(dimension_text(dimension, words, named));
    letters = letters || (named && text_width(texts.back(), kFontSize) > kWidestText);
  }
  for (std::size_t i = 0; i < texts.size(); ++i) {
    if (letters) {
      const std::string letter(1, static_cast<char>('A' + i));
      scene.legend.notes.push_back(letter + ": " + texts[i] + ".");
      texts[i] = letter + ": " + dimension_text(place.dimensions[i], words, false);
    }
    draw_dimension(svg, place.dimensions[i], texts[i], scene);
  }
}

}  // namespace

void draw_dimension_line(SvgWriter& svg, const Dimension& dimension, const View& view) {
  const Point from = view(dimension.from);
  const Point to = view(dimension.to);
  const bool is_short = dimension.reading.leeway < 0;
  const std::string line = is_short ? "short" : "leeway";
  svg.line("rim", from, to);
  svg.line(line, from, to);
  const double far = norm(to - from);
  if (far > 0.5) {
    // A bar across each end, arrows where there is room for them.
    const Point across = (5 / far) * Point{-(to - from).y, (to - from).x};
    svg.line(line, from - across, from + across);
    svg.line(line, to - across, to + across);
    if (far > 16) {
      arrow_head(svg, line + "-head", to, from, 7);
      arrow_head(svg, line + "-head", from, to, 7);
    }
  } else {
    svg.circle(line, from, 4);
  }
}

void draw_offset(SvgWriter& svg, const PlanInput& input, Point probe, PlanScene& scene) {
  const Point offset = input.rig.setup().probe.offset;
  const Point from = scene.view(probe - offset);
  const Point to = scene.view(probe);
  const Point corner{to.x, from.y};
  constexpr double kLeast = 5;
  svg.group("offset");
  if (std::abs(to.x - from.x) > kLeast && std::abs(to.y - from.y) > kLeast) {
    svg.line("leg", from, corner);
    svg.line("leg", corner, to);
    cover_line(from, corner, scene.taken);
    cover_line(corner, to, scene.taken);
  }
  const double far = norm(to - from);
  if (far > kLeast) {
    // The shaft ends inside the head, which ends at the mark's edge.
    const double gap = std::min(8.0, far / 3);
    const Point tip = to - (gap / far) * (to - from);
    const Point end = to - (std::min(gap + 6, far) / far) * (to - from);
    svg.line("rim", from, end);
    svg.line("arrow", from, end);
    arrow_head(svg, "arrow-head", from, tip, 11);
    cover_line(from, to, scene.taken);
  }
  draw_nozzle(svg, from);
  svg.close();
  scene.taken.push_back(around(from, 6));
  const auto leg = [&](const char* axis, double amount, Point a, Point b) {
    if (amount == 0) return;
    Label label = line_label(axis + decimal(amount), a, b, 4);
    label.otherwise = "";  // the legend has it
    scene.labels.push_back(label);
  };
  scene.labels.push_back(mark_label("nozzle", from));
  leg("x ", offset.x, from, corner);
  leg("y ", offset.y, corner, to);
  scene.legend.entries.push_back(
      {"offset, nozzle to probe: " + pair(offset), [](SvgWriter& out, Point at) {
         out.line("arrow", at - Point{12, 0}, at + Point{3, 0});
         arrow_head(out, "arrow-head", at, at + Point{12, 0}, 11);
       }});
}

void draw_head(SvgWriter& svg, const PlanInput& input, const HeadPlace& place, PlanScene& scene) {
  const Point probe = place.probe;
  const Setup& setup = input.rig.setup();
  const Words words(input.rig, picture_name);
  const Point nozzle = probe - setup.probe.offset;
  svg.group("head");
  for (const HeadPart& part : setup.machine.head) {
    draw_part(svg, words.name(part.name), part.outline, nozzle, scene);
  }
  if (setup.probe.body) draw_part(svg, "probe body", setup.probe.body->outline, probe, scene);
  const std::string spot = path_data(setup.probe.spot, moved_view(scene.view, probe));
  svg.path("rim", spot);
  svg.path("spot", spot);
  draw_offset(svg, input, probe, scene);
  const Point at = scene.view(probe);
  svg.circle("paper spot", at, 5);
  svg.circle("probe", at, 2);
  scene.taken.push_back(around(at, 6));
  scene.labels.push_back(mark_label("probe", at));
  draw_dimensions(svg, place, words, scene);
  svg.close();
  if (!setup.machine.head.empty() || setup.probe.body) {
    scene.legend.entries.push_back({"part of the head", [](SvgWriter& out, Point p) {
                                      out.path("part", path_data(around(p, 6)));
                                    }});
  }
  if (!spot.empty()) {
    scene.legend.entries.push_back(
        {"sensing area", [](SvgWriter& out, Point p) { out.circle("spot", p, 6); }});
  }
}

std::string head_sentence(const PlanInput& input, const HeadPlace& place) {
  const Point probe = place.probe;
  const Words words(input.rig, picture_name);
  CheckedPoint point;
  point.probe = probe;
  point.finding = place.finding;
  std::string name;
  for (const CheckedPoint& known : input.result.points) {
    if (known.probe == probe) {
      name = words.point(known) + ", ";
      break;
    }
  }
  const bool reachable = point.finding.verdict == Verdict::reachable;
  return fmt::format("Head at {}probe {}, nozzle {}: {}{}.", name, pair(probe),
                     pair(words.nozzle(probe)), word(point.finding.verdict),
                     reachable ? ", " + words.room(point.finding) : "; " + words.reason(point));
}

}  // namespace leeway
