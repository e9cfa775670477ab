#include "leeway/draw.h"
#include "leeway/rig.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "formats/drawing/axes.h"
#include "formats/drawing/drawing_style.h"
#include "formats/plan/plan_frame.h"
#include "formats/plan/plan_head.h"
#include "formats/plan/plan_obstacles.h"
#include "formats/plan/plan_points.h"
#include "formats/plan/plan_scene.h"
#include "formats/plan/plan_strips.h"
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
    const std::optional<Box> framed = embed_.frame_head ? head_extent(input_) : std::nullopt;
    framed_ = framed.has_value();
    if (framed_) {
      fit_drawing(*framed, top, embed_.width - kBesideWidth, scene_);
    } else {
      fit_drawing(embed_.extent.value_or(plan_extent(input_)), top, embed_.width, scene_);
    }
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
    if (framed_) open_frame();
    draw_grounds();
    draw_uncovered_strips(svg_, input_, scene_);
    draw_obstacles(svg_, input_, scene_);
    draw_lines();
    draw_blocked_moves(svg_, input_, scene_);
    draw_points(svg_, input_, scene_);
    if (input_.options.head) {
      draw_head(svg_, input_, *input_.options.head, scene_);
    } else {
      draw_offset(svg_, input_, offset_probe(input_.rig.setup()), scene_);
    }
    if (framed_) {
      svg_.close();
      draw_beside(svg_, input_, scene_);
    }
    avoid_lines();
    scene_.labels.insert(scene_.labels.end(), scene_.late_labels.begin(), scene_.late_labels.end());
    scene_.labels.insert(scene_.labels.end(), sizes_.begin(), sizes_.end());
    if (framed_) keep_labels_in(scene_.drawing, scene_.labels);
    draw_labels();
  }

  // What is beyond the frame is not seen.
  void open_frame() {
    svg_.open("clipPath", {{"id", id("frame")}});
    svg_.empty("path", {{"d", path_data(scene_.drawing)}});
    svg_.close();
    svg_.open("g", {{"clip-path", "url(#" + id("frame") + ")"}});
  }

  void draw_grounds() {
    const MultiPolygon& printable = input_.rig.regions().get(RegionKind::printable);
    const MultiPolygon& sure = input_.rig.regions().get(RegionKind::reachable);
    svg_.path("bed", path_data(input_.rig.setup().machine.bed, scene_.view));
    svg_.path("printable", path_data(printable, scene_.view));
    svg_.path("sure", path_data(sure, scene_.view));
    svg_.path("printable-edge", path_data(printable, scene_.view));
    svg_.path("bed-edge", path_data(input_.rig.setup().machine.bed, scene_.view));
    const Box bed = bounding_box(input_.rig.setup().machine.bed);
    scene_.legend.entries.push_back(swatch("bed, not printable; in all " + size_words(bed), "bed"));
    name_size("bed ", bed, false);
    if (!printable.empty()) {
      scene_.legend.entries.push_back(swatch("printable", "printable printable-edge"));
    }
    if (!sure.empty()) {
      const Box reach = *bounds(sure);
      scene_.legend.entries.push_back(
          swatch("reachable, guard bands kept; in all " + size_words(reach), "sure"));
      name_size("reachable ", reach, true);
    } else {
      say_nowhere();
    }
    if (const auto why = input_.rig.regions().why_empty(RegionKind::printable)) {
      scene_.legend.notes.push_back("Nothing can be printed: " + *why + ".");
    }
  }

  static std::string size_words(const Box& box) {
    // A drawing's size needs no more than tenths; never more than there is.
    const auto tenths = [](double size) { return decimal(std::floor(size * 10 + 1e-6) / 10); };
    return tenths(box.width()) + " x " + tenths(box.depth());
  }

  // Left, right and middle of a text.
  bool reachable_around(Point at, double half) const {
    const View& view = scene_.view;
    for (const double x : {at.x - half, at.x, at.x + half}) {
      for (const double y : {at.y - kFontSize / 2, at.y + kFontSize / 2}) {
        const Point mm{(x - view.corner.x) / view.scale, (view.corner.y - y) / view.scale};
        if (input_.rig.limits().evaluate(mm).verdict != Verdict::reachable) return false;
      }
    }
    return true;
  }

  // Along an edge, where nothing else stands; else the legend has it alone.
  void name_size(const char* what, const Box& mm, bool only_reachable) {
    if (input_.options.head || !embed_.legend) return;
    constexpr double kFromEdge = 10;
    const Box box = scene_.view(mm);
    Label label{what + size_words(mm), {}, 0};
    label.around = false;
    label.otherwise = "";
    const double half = text_width(label.text, label.size) / 2;
    for (const double y : {box.y1 - kFromEdge, box.y0 + kFromEdge}) {
      for (const double t : {0.5, 0.35, 0.65, 0.2, 0.8}) {
        const Point at{box.x0 + t * box.width(), y};
        if (!only_reachable || reachable_around(at, half)) label.places.push_back(at);
      }
    }
    sizes_.push_back(label);
  }

  // What is not there is said: a plan without its green looks like one that was not finished.
  void say_nowhere() {
    const Regions& regions = input_.rig.regions();
    const bool stated = regions.why_empty(RegionKind::within_limits) == std::nullopt;
    const std::string says =
        stated ? "No place is reachable with its guard band" : "The probe can be nowhere";
    scene_.legend.entries.push_back(swatch("reachable: nowhere", "nowhere"));
    scene_.legend.notes.push_back(says + ": " + *regions.why_empty(RegionKind::reachable) + ".");
    const Box bed = scene_.view(bounding_box(input_.rig.setup().machine.bed));
    Label label{says, {(bed.x0 + bed.x1) / 2, (bed.y0 + bed.y1) / 2}, 0};
    label.bold = true;
    label.around = false;
    label.otherwise = "";  // the legend has it
    for (const double t :
         {0.35, 0.3, 0.4, 0.25, 0.45, 0.2, 0.55, 0.6, 0.65, 0.7, 0.75, 0.8, 0.1, 0.9}) {
      label.places.push_back({label.at.x, bed.y0 + t * bed.depth()});
    }
    scene_.labels.push_back(label);
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
        place_labels(scene_.labels, scene_.taken, scene_.avoided, within, scene_.marks);
    std::vector<bool> done(scene_.labels.size());
    svg_.group("labels");
    for (const PlacedLabel& place : placed) {
      done[place.label] = true;
      if (place.far) svg_.line("lead", place.lead_from, place.lead_to);
    }
    for (const PlacedLabel& place : placed) {
      const Label& label = scene_.labels[place.label];
      svg_.text(label.bold ? "label strong" : "label", place.base, Anchor::start, label.text);
    }
    svg_.close();
    list_left_out(done);
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
    if (!scene_.numbered) {  // else the key has them in full
      for (const Obstacle& obstacle : setup.machine.obstacles) names.push_back(obstacle.name);
    }
    for (const HeadPart& part : setup.machine.head) names.push_back(part.name);
    for (const NamedPoint& point : setup.request.points) names.push_back(point.name);
    add_full_names(names, scene_.legend);
    if (embed_.caution) notes.push_back(caution());
  }

  void flush(bool standalone, double height) {
    const Words words(input_.rig, text_name);
    PictureHead head{"leeway-plan", id(""), embed_.width, height};
    head.title = "Plan of " + setup_name(input_.result, words);
    head.about = summary(input_.result, input_.rig.setup(), words) + ".";
    head.standalone = standalone;
    if (standalone) head.css = plan_css();
    head.image = embed_.linked.empty();
    SvgWriter out(sink_);
    open_picture(out, head);
    out.raw(body_);
    out.close();
  }

  const PlanInput& input_;
  const EmbedOptions& embed_;
  TextSink sink_;
  std::string body_;
  SvgWriter svg_;
  PlanScene scene_;
  std::vector<Label> sizes_;  // the last labels
  bool framed_ = false;       // only what is about the head is seen
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
  EmbedOptions embed;
  embed.frame_head = true;
  PlanDrawing({result, rig, options}, embed, sink).write(true);
}

PlanView write_plan_element(const CheckResult& result, const Rig& rig, const DrawOptions& options,
                            const EmbedOptions& embed, const TextSink& sink) {
  require_drawable(options);
  LEEWAY_ASSERT(embed.width >= kLeastPlanWidth);
  return PlanDrawing({result, rig, options}, embed, sink).write(false);
}

}  // namespace leeway
