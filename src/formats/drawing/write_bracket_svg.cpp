#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "formats/drawing/axes.h"
#include "formats/drawing/drawing_style.h"
#include "formats/drawing/heat_colours.h"
#include "formats/drawing/label_layout.h"
#include "formats/drawing/legend.h"
#include "formats/drawing/svg.h"
#include "formats/plan/plan_scene.h"
#include "formats/text/names.h"
#include "formats/text/numbers.h"
#include "formats/write/bracket_view.h"
#include "formats/write/check_view.h"
#include "geometry/areas/contour.h"
#include "geometry/plane/assert.h"
#include "geometry/plane/polygons.h"

namespace leeway {
namespace {

constexpr const char* kMapScope = ".leeway-map";
constexpr double kWidth = 800;
constexpr double kBarRoom = 74;  // right of the drawing, for the scale of colours
constexpr double kMostTall = 640;
constexpr int kBands = 50;  // of colour

// On colours from dark to light every line has a core and a rim that differ in lightness.
constexpr const char* kStyles = R"({0} .cell{{stroke:none;shape-rendering:crispEdges}}
{0} .contour-rim{{stroke:#ffffff;stroke-width:2.4px;stroke-opacity:.55}}
{0} .contour{{stroke:#000000;stroke-width:.9px}}
{0} .over-rim{{stroke:#ffffff;stroke-width:4.5px;stroke-linejoin:round}}
{0} .over{{stroke:#000000;stroke-width:1.6px;stroke-linejoin:round}}
{0} .dashed{{stroke-dasharray:7 4}}
{0} .dotted{{stroke-dasharray:1.5 3}}
{0} .window{{fill:#ffffff;fill-opacity:.35;fill-rule:evenodd}}
{0} .spot-dark{{fill:#000000;stroke:#ffffff;stroke-width:1.5px}}
{0} .spot-light{{fill:#ffffff;stroke:#000000;stroke-width:1.8px}}
{0} text.on-map{{fill:#000000;stroke:#ffffff}}
)";

class Map {
 public:
  Map(const BracketReport& report, const TextSink& sink)
      : report_(report),
        map_(*report.map),
        sink_(sink),
        svg_([this](std::string_view text) { body_ += text; }) {}

  void write() {
    choose_range();
    const std::vector<std::string> lead = lead_lines();
    const double top = 28 + kLineHeight * static_cast<double>(lead.size()) + 22;
    fit(top);
    svg_.text("title", {kPictureEdge, 28}, Anchor::start,
              cut_to_width(title(), 16 * kBold, kWidth - 2 * kPictureEdge));
    double y = 32;
    for (const std::string& line : lead) {
      y += kLineHeight;
      svg_.text("", {kPictureEdge, y}, Anchor::start, line);
    }
    draw_cells();
    draw_contours();
    draw_outlines();
    draw_offsets();
    write_axes(svg_,
               {view_, drawing_, "offset in x, mm: the probe right of the nozzle (front below)",
                "offset in y, mm: behind it"});
    draw_labels();
    draw_bar();
    double bottom = drawing_.y1 + kAxisBelow + 12;
    legend_.notes.push_back(
        "The share of the printable area that the probe can reach, without guard bands, at each "
        "offset from nozzle to probe; lines of equal share with their numbers in percent. The "
        "window "
        "keeps the guard bands.");
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
    legend_.notes.push_back(caution());
    write_legend(svg_, legend_, {kPictureEdge, bottom}, kWidth - 2 * kPictureEdge);
    bottom += legend_height(legend_, kWidth - 2 * kPictureEdge);
    flush(bottom + kPictureEdge);
  }

 private:
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
    return broken_lines(text, 12, kWidth - 2 * kPictureEdge);
  }

  // Whole tenths around what there is, for the colours to tell more apart.
  void choose_range() {
    const auto [least, most] = std::minmax_element(map_.coverage.begin(), map_.coverage.end());
    low_ = std::max(0.0, std::floor(*least * 10 + 1e-9) / 10);
    high_ = std::min(1.0, std::ceil(*most * 10 - 1e-9) / 10);
    if (high_ - low_ < 0.2) low_ = std::max(0.0, high_ - 0.2);
    if (high_ - low_ < 0.2) high_ = low_ + 0.2;
  }

  // Cells reach half a step beyond the outermost offsets.
  Box extent() const {
    const double half_x = map_.x.count > 1 ? map_.x.step() / 2 : 0.5;
    const double half_y = map_.y.count > 1 ? map_.y.step() / 2 : 0.5;
    return {map_.x.from - half_x, map_.x.to + half_x, map_.y.from - half_y, map_.y.to + half_y};
  }

  void fit(double top) {
    const Box mm = extent();
    double left = 60;
    for (int round = 0; round < 2; ++round) {
      const double width = kWidth - left - kBarRoom - kPictureEdge;
      view_.scale = std::min(width / mm.width(), kMostTall / mm.depth());
      left = kPictureEdge + axis_left(mm.y0, mm.y1, view_.scale);
    }
    view_.corner = {left - view_.scale * mm.x0, top + view_.scale * mm.y1};
    drawing_ = view_(mm);
  }

  // A path for each band of colour, of runs along the rows.
  void draw_cells() {
    std::vector<std::string> bands(kBands);
    const double dx = view_.scale * (map_.x.count > 1 ? map_.x.step() : 1);
    const double dy = view_.scale * (map_.y.count > 1 ? map_.y.step() : 1);
    const auto band = [this](int column, int row) {
      const double part = (map_.at(column, row) - low_) / (high_ - low_);
      return static_cast<std::size_t>(
          std::clamp(std::floor(part * kBands + 1e-9), 0.0, kBands - 1.0));
    };
    for (int row = 0; row < map_.y.count; ++row) {
      for (int from = 0; from < map_.x.count;) {
        int to = from + 1;
        while (to < map_.x.count && band(to, row) == band(from, row)) ++to;
        const Point corner = view_(Point{map_.x.at(from), map_.y.at(row)}) - Point{dx / 2, dy / 2};
        bands[band(from, row)] += fmt::format("M{} {}h{}v{}h{}z", svg_number(corner.x),
                                              svg_number(corner.y), svg_number(dx * (to - from)),
                                              svg_number(dy), svg_number(-dx * (to - from)));
        from = to;
      }
    }
    svg_.group("cells");
    for (std::size_t i = 0; i < bands.size(); ++i) {
      if (bands[i].empty()) continue;
      const double part = (static_cast<double>(i) + 0.5) / kBands;
      svg_.empty("path", {{"class", "cell"}, {"fill", heat_colour(part)}, {"d", bands[i]}});
    }
    svg_.close();
  }

  // As many lines as can be told apart: 10, 5, 2 or 1 % from one to the next.
  double contour_step() const {
    const auto [least, most] = std::minmax_element(map_.coverage.begin(), map_.coverage.end());
    for (const double step : {0.1, 0.05, 0.02}) {
      if ((*most - *least) / step >= 4) return step;
    }
    return 0.01;
  }

  void draw_contours() {
    const double step = contour_step();
    svg_.group("contours");
    for (int i = 0; i * step <= 1 + 1e-9; ++i) {
      const double level = i * step;
      const Line* longest = nullptr;
      std::vector<Line> lines = contour_lines(map_.x, map_.y, map_.coverage, level);
      for (const Line& line : lines) {
        const std::string data = line_data(line);
        svg_.path("contour-rim", data);
        svg_.path("contour", data);
        if (longest == nullptr || line.size() > longest->size()) longest = &line;
      }
      if (longest == nullptr || longest->size() < 4) continue;
      Label label{fmt::format("{} %", decimal(std::round(level * 1000) / 10)), {}, 0};
      label.around = false;
      label.otherwise = "";
      for (const double t : {0.5, 0.4, 0.6, 0.25, 0.75, 0.1, 0.9}) {
        label.places.push_back(view_(
            (*longest)[static_cast<std::size_t>(t * static_cast<double>(longest->size() - 1))]));
      }
      label.at = label.places.front();
      numbers_.push_back(label);
    }
    svg_.close();
  }

  void outline(const std::string& data, const std::string& kind, const std::string& fill = "") {
    svg_.path(fill, data);
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
      outline(path_data(report_.window->window.region, view_), "", "window");
      cover_outline(report_.window->window.region, view_, avoided_);
      legend_.entries.push_back(sample(report_.window->out_of_reach.empty()
                                           ? "the window: every point reachable"
                                           : "the window: every point within reach of some offset",
                                       ""));
    }
    svg_.close();
    if (envelopes) legend_.entries.push_back(sample("envelope of the mount", " dashed"));
    if (parts) legend_.entries.push_back(sample("parts of the head", " dotted"));
  }

  bool inside(Point offset) const {
    const Point p = view_(offset);
    return p.x >= drawing_.x0 && p.x <= drawing_.x1 && p.y >= drawing_.y0 && p.y <= drawing_.y1;
  }

  // `kind` says shape and fill: "dark round", "light round", "light square", "star", "cross".
  static void mark(SvgWriter& svg, const std::string& kind, Point at) {
    if (kind == "cross") {
      const std::string data = plain_line({at - Point{6, 0}, at + Point{6, 0}}) +
                               plain_line({at - Point{0, 6}, at + Point{0, 6}});
      svg.path("over-rim", data);
      svg.path("over", data);
    } else if (kind == "light square") {
      svg.path("spot-light", path_data(Box{at.x - 4.5, at.x + 4.5, at.y - 4.5, at.y + 4.5}));
    } else if (kind == "star") {
      std::vector<Point> points;
      for (int i = 0; i < 10; ++i) {
        const double angle = 3.14159265358979323846 * (i / 5.0 - 0.5);
        points.push_back(at + (i % 2 ? 3.4 : 8.0) * Point{std::cos(angle), std::sin(angle)});
      }
      svg.path("spot-light", plain_line(points) + "z");
    } else {
      svg.circle(kind == "dark round" ? "spot-dark" : "spot-light", at, 5);
    }
  }

  void offset_mark(const std::string& name, const std::string& text, const std::string& kind,
                   Point offset, bool in_legend = true) {
    if (!inside(offset)) {
      legend_.notes.push_back(fmt::format("Outside the picture: {}, {}.", name, pair(offset)));
      return;
    }
    const Point at = view_(offset);
    mark(svg_, kind, at);
    taken_.push_back({at.x - 7, at.x + 7, at.y - 7, at.y + 7});
    Label label{text, at, 4, 12};
    label.bold = true;
    label.half = {7, 7};
    offsets_.push_back(label);
    if (in_legend) {
      legend_.entries.push_back(
          {name, [kind](SvgWriter& svg, Point where) { mark(svg, kind, where); }});
    }
  }

  void draw_offsets() {
    if (inside({0, 0})) offset_mark("the nozzle", "nozzle", "cross", {0, 0});
    for (const RankedCandidate& ranked : report_.candidates) {
      offset_mark("a candidate", picture_name(ranked.candidate.name), "light square",
                  ranked.candidate.offset, &ranked == &report_.candidates.front());
    }
    std::vector<Point> seen;
    for (const Setup& setup : report_.setups) {
      if (std::find(seen.begin(), seen.end(), setup.probe.offset) != seen.end()) continue;
      seen.push_back(setup.probe.offset);
      offset_mark("the present offset", "now " + pair(setup.probe.offset), "dark round",
                  setup.probe.offset, seen.size() == 1);
    }
    if (!report_.window) return;
    const BracketResult& r = *report_.window;
    if (r.nearest && !r.present.inside) {
      offset_mark("the nearest that works", "nearest " + pair(r.nearest->offset), "light round",
                  r.nearest->offset);
    }
    if (r.best) {
      offset_mark("the most leeway", "most leeway " + pair(r.best->offset), "star", r.best->offset);
    }
    if (r.most) {
      offset_mark("what reaches most points",
                  fmt::format("reaches {} of {}, {}", r.most->reached,
                              r.most->reached + r.most->missed.size(), pair(r.most->offset)),
                  "star", r.most->offset);
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
        const std::string line = plain_line({place.lead_to, place.lead_from});
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

  // The scale of colours, right of the drawing.
  void draw_bar() {
    const double x = drawing_.x1 + 18;
    const double height = std::min(drawing_.depth(), 260.0);
    const double top = drawing_.y0;
    svg_.group("bar-of-colours");
    for (int i = 0; i < kBands; ++i) {
      const double y = top + height * (1 - (i + 1.0) / kBands);
      svg_.empty("path", {{"class", "cell"},
                          {"fill", heat_colour((i + 0.5) / kBands)},
                          {"d", path_data(Box{x, x + 14, y, y + height / kBands + 0.3})}});
    }
    svg_.path("tick", path_data(Box{x, x + 14, top, top + height}));
    const int from = static_cast<int>(std::lround(low_ * 100));
    const int to = static_cast<int>(std::lround(high_ * 100));
    const int step = to - from > 70 ? 20 : 10;
    for (int percents = from; percents <= to; percents += step) {
      const double y = top + height * (1 - static_cast<double>(percents - from) / (to - from));
      svg_.line("tick", {x + 14, y}, {x + 18, y});
      svg_.text("", {x + 21, y + 4}, Anchor::start, fmt::format("{} %", percents));
    }
    svg_.close();
  }

  static std::string plain_line(const std::vector<Point>& points) {
    std::string data;
    for (const Point p : points) {
      data += fmt::format("{}{} {}", data.empty() ? "M" : "L", svg_number(p.x), svg_number(p.y));
    }
    return data;
  }

  using Line = std::vector<Point>;
  std::string line_data(const Line& line) const {
    std::vector<Point> points;
    for (const Point p : line) points.push_back(view_(p));
    return plain_line(points);
  }

  void flush(double height) {
    TextSink sink = sink_;
    SvgWriter out(sink);
    sink("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n");
    out.open("svg",
             {{"xmlns", "http://www.w3.org/2000/svg"},
              {"class", "leeway-map"},
              {"role", "img"},
              {"aria-labelledby", "map-title map-about"},
              {"width", kWidth},
              {"height", height},
              {"viewBox", fmt::format("0 0 {} {}", svg_number(kWidth), svg_number(height))}});
    out.text_element("title", {{"id", "map-title"}}, title());
    std::string about;
    for (const std::string& line : lead_lines()) about += (about.empty() ? "" : " ") + line;
    out.text_element("desc", {{"id", "map-about"}}, about);
    sink("<style>\n" + drawing_css(kMapScope) + fmt::format(kStyles, kMapScope) + "</style>\n");
    out.rect("paper", {0, kWidth, 0, height});
    sink(body_);
    out.close();
  }

  const BracketReport& report_;
  const CoverageMap& map_;
  TextSink sink_;
  std::string body_;
  SvgWriter svg_;
  View view_;
  Box drawing_;
  double low_ = 0;  // the share that is darkest
  double high_ = 1;
  Legend legend_;
  std::vector<Box> taken_;
  std::vector<Box> avoided_;
  std::vector<Label> offsets_;
  std::vector<Label> names_;
  std::vector<Label> numbers_;
};

}  // namespace

void write_bracket_svg(const BracketReport& report, const TextSink& sink) {
  LEEWAY_ASSERT(report.map.has_value());
  Map(report, sink).write();
}

}  // namespace leeway
