#include "formats/bracket/bracket_map.h"

#include <fmt/format.h>

#include <algorithm>

#include "formats/bracket/bracket_view.h"
#include "formats/bracket/map_marks.h"
#include "formats/bracket/map_shares.h"
#include "formats/bracket/trade_off_curve.h"
#include "formats/drawing/axes.h"
#include "formats/drawing/drawing_style.h"
#include "formats/drawing/label_layout.h"
#include "formats/drawing/legend.h"
#include "formats/drawing/svg.h"
#include "formats/plan/plan_scene.h"
#include "formats/text/names.h"
#include "formats/text/numbers.h"
#include "formats/write/check_view.h"
#include "geometry/plane/assert.h"
#include "geometry/plane/polygons.h"

namespace leeway {
namespace {

constexpr const char* kMapScope = ".leeway-map";
constexpr double kBarRoom = 74;  // right of the drawing, for the scale of colours
constexpr double kMostTall = 640;

// On colours from dark to light every line has a core and a rim that differ in lightness.
constexpr const char* kStyles = R"({0} .cell{{stroke:none}}
{0} .contour-rim{{stroke:#ffffff;stroke-width:2.4px;stroke-opacity:.55}}
{0} .contour{{stroke:#000000;stroke-width:.9px}}
{0} .over-rim{{stroke:#ffffff;stroke-width:4.5px;stroke-linejoin:round}}
{0} .over{{stroke:#000000;stroke-width:1.6px;stroke-linejoin:round}}
{0} .dashed{{stroke-dasharray:7 4}}
{0} .dotted{{stroke-dasharray:1.5 3}}
{0} .window-rim{{stroke:#ffffff;stroke-width:7px;stroke-linejoin:round}}
{0} .window{{stroke:#000000;stroke-width:3px;stroke-linejoin:round}}
{0} .curve{{stroke:#0072b2;stroke-width:2px;stroke-linejoin:round}}
{0} .curve-mark{{fill:#ffffff;stroke:#000000;stroke-width:1.8px}}
{0} .spot-dark{{fill:#000000;stroke:#ffffff;stroke-width:1.5px}}
{0} .spot-light{{fill:#ffffff;stroke:#000000;stroke-width:1.8px}}
{0} .tips path{{fill:none;pointer-events:all}}
{0} text.on-map{{fill:#000000;stroke:#ffffff}}
)";

class Map {
 public:
  Map(const BracketReport& report, const MapEmbed& embed, const TextSink& sink)
      : report_(report),
        embed_(embed),
        map_(*report.map),
        shares_(report),
        sink_(sink),
        svg_([this](std::string_view text) { body_ += text; }) {}

  void write() {
    const std::vector<std::string> lead = lead_lines();
    fit(embed_.standalone ? write_top(lead) : kPictureEdge);
    shares_.draw_cells(svg_, view_);
    shares_.draw_contours(svg_, view_, numbers_);
    draw_outlines();
    draw_offsets();
    write_axes(svg_,
               {view_, drawing_, "offset in x, mm: the probe right of the nozzle (front below)",
                "offset in y, mm: behind it"});
    draw_labels();
    shares_.draw_tips(svg_, view_);
    shares_.draw_scale(svg_, drawing_);
    double bottom = drawing_.y1 + kAxisBelow + 12;
    if (report_.window && report_.window->trade_off) {
      write_trade_off_curve(svg_, *report_.window->trade_off, {kPictureEdge, bottom + 6},
                            embed_.width - 2 * kPictureEdge);
      bottom += kCurveTall + 14;
    }
    legend_.notes.push_back(meaning());
    if (report_.setups.size() > 1) {
      legend_.notes.push_back("Of several setups the map has the least share at each offset.");
    }
    std::vector<std::string_view> names;
    for (const Setup& setup : report_.setups) {
      names.push_back(setup.name);
      for (const HeadPart& part : setup.machine.head) names.push_back(part.name);
    }
    for (const RankedCandidate& ranked : report_.candidates) names.push_back(ranked.candidate.name);
    add_full_names(names, legend_);
    if (embed_.standalone) legend_.notes.push_back(caution());
    write_legend(svg_, legend_, {kPictureEdge, bottom}, embed_.width - 2 * kPictureEdge);
    bottom += legend_height(legend_, embed_.width - 2 * kPictureEdge);
    PictureHead head{"leeway-map", "map-", embed_.width, bottom + kPictureEdge};
    head.title = title();
    for (const std::string& line : lead) head.about += (head.about.empty() ? "" : " ") + line;
    head.standalone = embed_.standalone;
    if (embed_.standalone) head.css = bracket_map_css();
    SvgWriter out(sink_);
    open_picture(out, head);
    out.raw(body_);
    out.close();
  }

 private:
  // Where the drawing may begin.
  double write_top(const std::vector<std::string>& lead) {
    svg_.text("title", {kPictureEdge, 28}, Anchor::start,
              cut_to_width(title(), 16 * kBold, embed_.width - 2 * kPictureEdge));
    double y = 32;
    for (const std::string& line : lead) {
      y += kLineHeight;
      svg_.text("", {kPictureEdge, y}, Anchor::start, line);
    }
    return y + 18;
  }

  std::string title() const {
    std::vector<std::string> names;
    for (const Setup& setup : report_.setups) {
      names.push_back(setup.name.empty() ? "a setup" : picture_name(setup.name));
    }
    return "Where the probe may sit: " + joined(names);
  }

  std::vector<std::string> lead_lines() const {
    std::string text;
    const BracketView view(report_, picture_name);
    if (report_.window) text = view.summary();
    for (const std::string& sentence : view.map()) text += (text.empty() ? "" : " ") + sentence;
    return broken_lines(text, 12, embed_.width - 2 * kPictureEdge);
  }

  std::string meaning() const {
    const BracketView view(report_, picture_name);
    return map_.points > 0
               ? fmt::format(
                     "How many of the points each offset from nozzle to probe reaches, guard bands "
                     "kept, {}; blank elsewhere.",
                     view.map_ground())
               : fmt::format(
                     "The share of the printable area that the probe can reach, without guard "
                     "bands, at each offset from nozzle to probe {}; blank elsewhere. Lines of "
                     "equal share with their numbers in percent.",
                     view.map_ground());
  }

  void fit(double top) {
    const Box mm = shares_.extent();
    double left = 60;
    for (int round = 0; round < 2; ++round) {
      const double width = embed_.width - left - kBarRoom - kPictureEdge;
      view_.scale = std::min(width / mm.width(), kMostTall / mm.depth());
      left = kPictureEdge + axis_left(mm.y0, mm.y1, view_.scale);
    }
    view_.corner = {left - view_.scale * mm.x0, top + view_.scale * mm.y1};
    drawing_ = view_(mm);
  }

  void outline(const std::string& data, const std::string& kind) {
    svg_.path("over-rim", data);
    svg_.path("over" + kind, data);
  }

  LegendEntry sample(const std::string& text, const std::string& kind) {
    return {text, [kind](SvgWriter& svg, Point at) {
              svg.line("over-rim", at - Point{12, 0}, at + Point{12, 0});
              svg.line("over" + kind, at - Point{12, 0}, at + Point{12, 0});
            }};
  }

  void draw_outlines() {
    svg_.open("clipPath", {{"id", "map-frame"}});
    svg_.rect("", drawing_);
    svg_.close();
    svg_.open("g", {{"clip-path", "url(#map-frame)"}});
    bool parts = false;
    bool envelopes = false;
    for (const Setup& setup : report_.setups) {
      for (const HeadPart& part : setup.machine.head) {
        outline(path_data(part.outline, view_), " dotted");
        const Box box = view_(bounding_box(part.outline));
        Label label{picture_name(part.name), {(box.x0 + box.x1) / 2, (box.y0 + box.y1) / 2}, 4};
        label.places = {label.at};
        label.half = {box.width() / 2, box.depth() / 2};
        cover_outline(part.outline, view_, label.mark);
        names_.push_back(label);
        parts = true;
      }
      if (setup.mount.envelope) {
        outline(path_data(*setup.mount.envelope, view_), " dashed");
        envelopes = true;
      }
    }
    if (report_.window && !report_.window->window.region.empty()) {
      const std::string data = path_data(report_.window->window.region, view_);
      svg_.path("window-rim", data);
      svg_.path("window", data);
      cover_outline(report_.window->window.region, view_, avoided_);
      legend_.entries.push_back({report_.window->out_of_reach.empty()
                                     ? "the window: every point reachable"
                                     : "the window: every point within reach of some offset",
                                 [](SvgWriter& svg, Point at) {
                                   svg.line("window-rim", at - Point{12, 0}, at + Point{12, 0});
                                   svg.line("window", at - Point{12, 0}, at + Point{12, 0});
                                 }});
    }
    svg_.close();
    if (envelopes) legend_.entries.push_back(sample("envelope of the mount", " dashed"));
    if (parts) legend_.entries.push_back(sample("parts of the head", " dotted"));
  }

  bool inside(Point offset) const {
    const Point p = view_(offset);
    return p.x >= drawing_.x0 && p.x <= drawing_.x1 && p.y >= drawing_.y0 && p.y <= drawing_.y1;
  }

  void offset_mark(const std::string& name, const std::string& text, MapMark mark, Point offset,
                   bool in_legend = true) {
    if (!inside(offset)) {
      legend_.notes.push_back(fmt::format("Outside the picture: {}, {}.", name, pair(offset)));
      return;
    }
    const Point at = view_(offset);
    draw_mark(svg_, mark, at);
    taken_.push_back({at.x - 7, at.x + 7, at.y - 7, at.y + 7});
    Label label{text, at, 4, 12};
    label.bold = true;
    label.half = {7, 7};
    offsets_.push_back(label);
    if (in_legend) {
      legend_.entries.push_back(
          {name, [mark](SvgWriter& svg, Point where) { draw_mark(svg, mark, where); }});
    }
  }

  void draw_offsets() {
    if (inside({0, 0})) offset_mark("the nozzle", "nozzle", MapMark::cross, {0, 0});
    for (const RankedCandidate& ranked : report_.candidates) {
      offset_mark("a candidate", picture_name(ranked.candidate.name), MapMark::square,
                  ranked.candidate.offset, &ranked == &report_.candidates.front());
    }
    std::vector<Point> seen;
    for (const Setup& setup : report_.setups) {
      if (std::find(seen.begin(), seen.end(), setup.probe.offset) != seen.end()) continue;
      seen.push_back(setup.probe.offset);
      offset_mark("the present offset", "now " + pair(setup.probe.offset), MapMark::dark_disc,
                  setup.probe.offset, seen.size() == 1);
    }
    if (!report_.window) return;
    const BracketResult& r = *report_.window;
    if (r.nearest && !r.present.inside) {
      offset_mark("the nearest that works", "nearest " + exact_pair(r.nearest->offset),
                  MapMark::light_disc, r.nearest->offset);
    }
    if (r.trade_off && r.trade_off->curve.size() > 1) {
      const Point most = r.trade_off->most_coverage.trade.offset;
      offset_mark("the most coverage", "most coverage " + exact_pair(most), MapMark::triangle,
                  most);
    }
    if (r.trade_off && r.trade_off->knee) {
      const Point knee = r.trade_off->knee->trade.offset;
      offset_mark("between them", "between them " + exact_pair(knee), MapMark::diamond, knee);
    }
    if (r.best) {
      offset_mark("the most leeway", "most leeway " + exact_pair(r.best->offset), MapMark::star,
                  r.best->offset);
    }
    if (r.most) {
      offset_mark("what reaches most points",
                  fmt::format("reaches {} of {}, {}", r.most->reached,
                              r.most->reached + r.most->missed.size(), pair(r.most->offset)),
                  MapMark::star, r.most->offset);
    }
  }

  void draw_labels() {
    std::vector<Label> labels = offsets_;
    labels.insert(labels.end(), names_.begin(), names_.end());
    labels.insert(labels.end(), numbers_.begin(), numbers_.end());
    const Box within{drawing_.x0 + 2, drawing_.x1 - 2, drawing_.y0 + 2, drawing_.y1 - 2};
    for (Label& label : labels) {
      label.text = cut_to_width(label.text, label.size, 0.5 * within.width());
    }
    std::vector<bool> done(labels.size());
    svg_.group("labels");
    for (const PlacedLabel& place : place_labels(labels, taken_, avoided_, within)) {
      done[place.label] = true;
      const Label& label = labels[place.label];
      if (place.far) {
        const std::string line = line_data({place.lead_to, place.lead_from});
        svg_.path("contour-rim", line);
        svg_.path("contour", line);
      }
      svg_.text(label.bold ? "label on-map strong" : "label on-map", place.base, Anchor::start,
                label.text);
    }
    svg_.close();
    std::vector<std::string> left_out;
    for (std::size_t i = 0; i < labels.size(); ++i) {
      if (!done[i] && labels[i].otherwise != "") left_out.push_back(labels[i].text);
    }
    if (!left_out.empty()) {
      legend_.notes.push_back("No place in the picture for: " + joined(left_out) + ".");
    }
  }

  const BracketReport& report_;
  const MapEmbed embed_;
  const CoverageMap& map_;
  const MapShares shares_;
  TextSink sink_;
  std::string body_;
  SvgWriter svg_;
  View view_;
  Box drawing_;
  Legend legend_;
  std::vector<Box> taken_;
  std::vector<Box> avoided_;
  std::vector<Label> offsets_;
  std::vector<Label> names_;
  std::vector<Label> numbers_;
};

}  // namespace

std::string bracket_map_css() { return drawing_css(kMapScope) + fmt::format(kStyles, kMapScope); }

void write_bracket_map(const BracketReport& report, const MapEmbed& embed, const TextSink& sink) {
  LEEWAY_ASSERT(report.map.has_value());
  Map(report, embed, sink).write();
}

}  // namespace leeway
