#include "leeway/draw.h"
#include "leeway/rig.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "formats/drawing/axes.h"
#include "formats/drawing/drawing_style.h"
#include "formats/drawing/plan_head.h"
#include "formats/drawing/plan_points.h"
#include "formats/drawing/plan_scene.h"
#include "formats/text/names.h"
#include "formats/text/numbers.h"
#include "formats/text/summary.h"
#include "formats/write/check_view.h"
#include "geometry/plane/assert.h"

namespace leeway {
namespace {

constexpr const char* kTitleOfX = "x in mm (front, where the operator stands)";
constexpr double kBarWidth = 110;  // of the bar of scale, at most
constexpr const char* kPlanScope = ".leeway-plan";
constexpr std::size_t kMostLeftOut = 12;

std::string title_of(const PlanInput& input) {
  const Words words(input.rig, picture_name);
  return setup_name(input.result, words);
}

std::vector<std::string> subtitle_lines(const PlanInput& input, double width) {
  const Words words(input.rig, picture_name);
  std::string text = summary(input.result, input.rig.setup(), words) + ".";
  if (text[0] >= 'a' && text[0] <= 'z') text[0] = static_cast<char>(text[0] - 'a' + 'A');
  std::vector<std::string> lines = broken_lines(text, kFontSize, width);
  if (input.options.head) {
    for (std::string& line :
         broken_lines(head_sentence(input, *input.options.head), kFontSize, width)) {
      lines.push_back(std::move(line));
    }
  }
  return lines;
}

LegendEntry swatch(const std::string& text, const std::string& classes) {
  return {text, [classes](SvgWriter& svg, Point at) {
            svg.path(classes, path_data(Box{at.x - 12, at.x + 12, at.y - 6, at.y + 6}));
          }};
}

LegendEntry stroke(const std::string& text, const std::string& classes) {
  return {text, [classes](SvgWriter& svg, Point at) {
            svg.line(classes, at - Point{12, 0}, at + Point{12, 0});
          }};
}

std::string height_words(double height) {
  if (height == kUnlimitedHeight) return "any height";
  return "height " + decimal(height);
}

class PlanDrawing {
 public:
  PlanDrawing(const PlanInput& input, const EmbedOptions& embed, const TextSink& sink)
      : input_(input),
        embed_(embed),
        sink_(sink),
        svg_([this](std::string_view text) { body_ += text; }) {
    scene_.prefix = embed.prefix;
    scene_.linked = embed.linked;
    scene_.point_titles = embed.point_titles;
  }

  PlanView write(bool standalone) {
    const std::vector<std::string> subtitle =
        embed_.title ? subtitle_lines(input_, embed_.width - 2 * kPictureEdge)
                     : std::vector<std::string>{};
    double top = 24;
    if (embed_.title) top += 22 + kLineHeight * static_cast<double>(subtitle.size()) + 16;
    fit_drawing(embed_.extent.value_or(plan_extent(input_)), top, embed_.width, scene_);
    if (embed_.title) draw_title(subtitle);
    draw_drawing();
    double bottom = scene_.drawing.y1 + kAxisBelow;
    if (bar_meets_title()) bottom += kLineHeight;
    write_scale_bar(svg_, scene_.view, {scene_.drawing.x0 + 4, bottom - 8}, kBarWidth);
    bottom += 6;
    if (embed_.legend) {
      finish_legend();
      const double width = embed_.width - 2 * kPictureEdge;
      write_legend(svg_, scene_.legend, {kPictureEdge, bottom + 6}, width);
      bottom += 6 + legend_height(scene_.legend, width);
    }
    flush(standalone, bottom + kPictureEdge);
    return {scene_.view.scale, scene_.view.corner, embed_.width, bottom + kPictureEdge,
            scene_.drawing};
  }

 private:
  std::string id(const char* name) const { return scene_.prefix + name; }

  // In a narrow picture the bar of scale goes below the title of the axis.
  bool bar_meets_title() const {
    constexpr double kBarText = 54;
    const Box& drawing = scene_.drawing;
    const double title = (drawing.x0 + drawing.x1 - text_width(kTitleOfX, kFontSize)) / 2;
    return title < drawing.x0 + 4 + kBarWidth + kBarText;
  }

  void draw_title(const std::vector<std::string>& subtitle) {
    double room = embed_.width - 2 * kPictureEdge;
    double y = 28;
    if (input_.options.date) {
      const std::string date =
          cut_to_width(picture_name(*input_.options.date), kFontSize, room / 3);
      svg_.text("", {embed_.width - kPictureEdge, y}, Anchor::end, date);
      room -= text_width(date, kFontSize) + 16;
    }
    svg_.text("title", {kPictureEdge, y}, Anchor::start,
              cut_to_width(title_of(input_), 16 * kBold, room));
    y += 4;
    for (const std::string& line : subtitle) {
      y += kLineHeight;
      svg_.text("", {kPictureEdge, y}, Anchor::start, line);
    }
  }

  void draw_drawing() {
    draw_grid_numbers(svg_, input_, scene_);
    write_axes(svg_, {scene_.view, scene_.drawing, kTitleOfX, "y in mm"});
    draw_grounds();
    draw_uncovered_strips();
    draw_obstacles();
    draw_lines();
    draw_blocked_moves(svg_, input_, scene_);
    draw_points(svg_, input_, scene_);
    if (input_.options.head) {
      draw_head(svg_, input_, *input_.options.head, scene_);
    } else {
      draw_offset(svg_, input_, offset_probe(input_.rig.setup()), scene_);
    }
    avoid_lines();
    scene_.labels.insert(scene_.labels.end(), late_labels_.begin(), late_labels_.end());
    draw_labels();
  }

  void draw_grounds() {
    const MultiPolygon& printable = input_.rig.regions().get(RegionKind::printable);
    const MultiPolygon& sure = input_.rig.regions().get(RegionKind::reachable);
    svg_.path("bed", path_data(input_.rig.setup().machine.bed, scene_.view));
    svg_.path("printable", path_data(printable, scene_.view));
    svg_.path("sure", path_data(sure, scene_.view));
    svg_.path("printable-edge", path_data(printable, scene_.view));
    svg_.path("bed-edge", path_data(input_.rig.setup().machine.bed, scene_.view));
    scene_.legend.entries.push_back(swatch("bed, not printable", "bed"));
    if (!printable.empty()) {
      scene_.legend.entries.push_back(swatch("printable", "printable printable-edge"));
    }
    if (!sure.empty()) {
      scene_.legend.entries.push_back(swatch("reachable, guard bands kept", "sure"));
    }
  }

  void draw_lines() {
    const std::string reach =
        path_data(input_.rig.regions().get(RegionKind::within_limits), scene_.view);
    svg_.path("reach", reach);
    if (!reach.empty()) {
      scene_.legend.entries.push_back(stroke("within the limits as stated", "reach"));
    }
    svg_.path("travel", path_data(input_.rig.setup().machine.travel, scene_.view));
    scene_.legend.entries.push_back(stroke("travel of the nozzle", "travel"));
    if (const std::optional<Box> mesh = mesh_bounds(input_.rig.setup())) {
      svg_.path("mesh-bounds", path_data(scene_.view(*mesh)));
      scene_.legend.entries.push_back(stroke("mesh bounds as asked for", "mesh-bounds"));
    }
  }

  void draw_obstacles() {
    if (input_.rig.setup().machine.obstacles.empty()) return;
    svg_.group("obstacles");
    for (const Obstacle& obstacle : input_.rig.setup().machine.obstacles) {
      svg_.path("thing", path_data(obstacle.shape, scene_.view));
      const Box box = scene_.view(bounding_box(obstacle.shape));
      if (box.empty()) continue;
      Label label{fmt::format("{}, {}", picture_name(obstacle.name), height_words(obstacle.height)),
                  {(box.x0 + box.x1) / 2, (box.y0 + box.y1) / 2},
                  6};
      // Beside a small one; on a large one where there is room.
      constexpr double kSmall = 80;
      const double smaller = std::min(box.width(), box.depth());
      label.distance = 4;
      label.half = {box.width() / 2, box.depth() / 2};
      if (smaller < kSmall) {
        scene_.taken.push_back(box);
      } else {
        label.places = {label.at};
      }
      late_labels_.push_back(label);
    }
    svg_.close();
    scene_.legend.entries.push_back(swatch("obstacle", "thing"));
  }

  // Between the mesh and what can be printed.
  void draw_uncovered_strips() {
    const std::optional<Box> mesh = mesh_bounds(input_.rig.setup());
    const MultiPolygon& printable = input_.rig.regions().get(RegionKind::printable);
    const std::optional<Box> all = bounds(printable);
    if (!mesh || !all || !input_.result.coverage) return;
    if (input_.options.head) return;  // it is about the head then
    const UncoveredStrips& uncovered = input_.result.coverage->uncovered;
    if (std::max({uncovered.left, uncovered.right, uncovered.front, uncovered.back}) <= 0) return;
    const Box inner{std::max(mesh->x0, all->x0), std::min(mesh->x1, all->x1),
                    std::max(mesh->y0, all->y0), std::min(mesh->y1, all->y1)};
    svg_.open("defs", {});
    svg_.open("pattern", {{"id", id("hatch")},
                          {"patternUnits", "userSpaceOnUse"},
                          {"width", "11"},
                          {"height", "11"}});
    svg_.path("uncovered-line", "M-1 1L1-1M0 11L11 0M10 12L12 10");
    svg_.close();
    svg_.open("clipPath", {{"id", id("clip")}});
    svg_.empty("path", {{"clip-rule", "evenodd"}, {"d", path_data(printable, scene_.view)}});
    svg_.close();
    svg_.close();
    std::string frame = path_data(scene_.view(*all));
    if (!inner.empty()) frame += path_data(scene_.view(inner));
    svg_.open("g", {{"clip-path", "url(#" + id("clip") + ")"}});
    svg_.empty("path", {{"fill", "url(#" + id("hatch") + ")"},
                        {"class", "uncovered"},
                        {"fill-rule", "evenodd"},
                        {"d", frame}});
    svg_.close();
    name_strips(uncovered, *all, *mesh);
    const std::string hatch = "url(#" + id("hatch") + ")";
    scene_.legend.entries.push_back(
        {"uncovered strip: printable, no grid", [hatch](SvgWriter& svg, Point at) {
           svg.empty("path", {{"fill", hatch},
                              {"class", "uncovered"},
                              {"d", path_data(Box{at.x - 12, at.x + 12, at.y - 6, at.y + 6})}});
         }});
  }

  void name_strips(const UncoveredStrips& uncovered, const Box& all, const Box& mesh) {
    const View& view = scene_.view;
    const Box ends{std::max(mesh.x0, all.x0), std::min(mesh.x1, all.x1), std::max(mesh.y0, all.y0),
                   std::min(mesh.y1, all.y1)};
    const auto name = [&](const char* side, double amount, Point from, Point to) {
      if (amount <= 0) return;
      const std::string number = decimal(std::round(amount * 10) / 10);
      Label label{"uncovered " + number, view(0.5 * (from + to)), 0, 11};
      label.otherwise = fmt::format("uncovered {} {}", number, side);
      const bool upright = from.x == to.x;
      if (upright && text_width(label.text, label.size) + 8 > amount * view.scale) {
        label.text = number;
      }
      label.around = false;
      // Somewhere along the strip.
      for (const double t : {0.5, 0.45, 0.55, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.1, 0.9}) {
        label.places.push_back(view(from + t * (to - from)));
      }
      late_labels_.push_back(label);
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

  void avoid_lines() {
    cover_outline(input_.rig.setup().machine.bed, scene_.view, scene_.avoided);
    cover_outline(input_.rig.setup().machine.travel, scene_.view, scene_.avoided);
    if (const std::optional<Box> mesh = mesh_bounds(input_.rig.setup())) {
      cover_outline(*mesh, scene_.view, scene_.avoided);
    }
  }

  void draw_labels() {
    const Box& d = scene_.drawing;
    const Box within{d.x0 + 2, d.x1 - 2, d.y0 + 2, d.y1 - 2};
    for (Label& label : scene_.labels) {
      label.text = cut_to_width(label.text, label.size, 0.6 * within.width());
    }
    const std::vector<PlacedLabel> placed =
        place_labels(scene_.labels, scene_.taken, scene_.avoided, within);
    std::vector<bool> done(scene_.labels.size());
    svg_.group("labels");
    for (const PlacedLabel& place : placed) {
      done[place.label] = true;
      const Label& label = scene_.labels[place.label];
      if (place.far) lead(label, place.box);
    }
    for (const PlacedLabel& place : placed) {
      const Label& label = scene_.labels[place.label];
      svg_.text(label.bold               ? "label strong"
                : label.size < kFontSize ? "label small"
                                         : "label",
                place.base, Anchor::start, label.text);
    }
    svg_.close();
    list_left_out(done);
  }

  // From what a label belongs to, to the label.
  void lead(const Label& label, const Box& box) {
    const auto within = [](double value, double low, double high) {
      return std::min(std::max(value, low), high);
    };
    const Point to{within(label.at.x, box.x0, box.x1), within(label.at.y, box.y0, box.y1)};
    const Point from{within(to.x, label.at.x - label.half.x, label.at.x + label.half.x),
                     within(to.y, label.at.y - label.half.y, label.at.y + label.half.y)};
    svg_.line("lead", from, to);
  }

  void list_left_out(const std::vector<bool>& done) {
    std::vector<std::string> names;
    std::size_t left_out = 0;
    for (std::size_t i = 0; i < done.size(); ++i) {
      if (done[i] || scene_.labels[i].otherwise == "") continue;
      if (++left_out > kMostLeftOut) continue;
      const Label& label = scene_.labels[i];
      const View& view = scene_.view;
      const Point mm{(label.at.x - view.corner.x) / view.scale,
                     (view.corner.y - label.at.y) / view.scale};
      names.push_back(fmt::format("{} (about {})", label.otherwise.value_or(label.text),
                                  pair({std::round(mm.x), std::round(mm.y)})));
    }
    if (names.empty()) return;
    std::string note = "No place in the picture for: " + joined(names);
    if (left_out > kMostLeftOut) note += fmt::format(", and {} more", left_out - kMostLeftOut);
    scene_.legend.notes.push_back(note + ".");
  }

  void finish_legend() {
    std::vector<std::string>& notes = scene_.legend.notes;
    notes.insert(notes.begin(),
                 "In mm. Bed, regions and points are positions of the probe; travel, where the "
                 "nozzle may be sent. The nozzle is where the probe is, less the offset.");
    const Setup& setup = input_.rig.setup();
    std::vector<std::string_view> names{setup.name};
    for (const Obstacle& obstacle : setup.machine.obstacles) names.push_back(obstacle.name);
    for (const HeadPart& part : setup.machine.head) names.push_back(part.name);
    for (const NamedPoint& point : setup.request.points) names.push_back(point.name);
    add_full_names(names, scene_.legend);
    if (embed_.caution) notes.push_back(caution());
  }

  void flush(bool standalone, double height) {
    const Words words(input_.rig, text_name);
    TextSink sink = sink_;
    SvgWriter out(sink);
    SvgAttributes attributes;
    if (standalone) {
      sink("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n");
      attributes.emplace_back("xmlns", "http://www.w3.org/2000/svg");
    }
    attributes.emplace_back("class", "leeway-plan");
    // What is an image as a whole hides the links in it.
    attributes.emplace_back("role", embed_.linked.empty() ? "img" : "group");
    attributes.emplace_back("aria-labelledby", id("title") + " " + id("about"));
    if (standalone) {
      attributes.emplace_back("width", embed_.width);
      attributes.emplace_back("height", height);
    }
    attributes.emplace_back("viewBox",
                            fmt::format("0 0 {} {}", svg_number(embed_.width), svg_number(height)));
    out.open("svg", attributes);
    out.text_element("title", {{"id", id("title")}}, "Plan of " + setup_name(input_.result, words));
    out.text_element("desc", {{"id", id("about")}},
                     summary(input_.result, input_.rig.setup(), words) + ".");
    if (standalone) sink("<style>\n" + plan_css() + "</style>\n");
    out.rect("paper", {0, embed_.width, 0, height});
    sink(body_);
    out.close();
  }

  const PlanInput& input_;
  const EmbedOptions& embed_;
  TextSink sink_;
  std::string body_;
  SvgWriter svg_;
  PlanScene scene_;
  std::vector<Label> late_labels_;
};

void require_drawable(const DrawOptions& options) {
  if (!options.head) return;
  const Point at = options.head->probe;
  if (std::abs(at.x) <= kLargestLength && std::abs(at.y) <= kLargestLength) return;
  throw InvalidPlace("the head to draw stands at no position of at most 1e6 mm either way");
}

}  // namespace

std::string plan_css() { return drawing_css(kPlanScope); }

void write_plan_svg(const CheckResult& result, const Rig& rig, const DrawOptions& options,
                    const TextSink& sink) {
  require_drawable(options);
  const EmbedOptions embed;
  PlanDrawing({result, rig, options}, embed, sink).write(true);
}

PlanView write_plan_element(const CheckResult& result, const Rig& rig, const DrawOptions& options,
                            const EmbedOptions& embed, const TextSink& sink) {
  require_drawable(options);
  LEEWAY_ASSERT(embed.width >= kLeastPlanWidth);
  return PlanDrawing({result, rig, options}, embed, sink).write(false);
}

}  // namespace leeway
