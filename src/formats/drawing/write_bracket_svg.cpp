#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "formats/drawing/axes.h"
#include "formats/drawing/drawing_style.h"
#include "formats/drawing/heat_colours.h"
#include "formats/drawing/label_layout.h"
#include "formats/drawing/legend.h"
#include "formats/drawing/svg.h"
#include "formats/drawing/trade_off_curve.h"
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
constexpr int kBands = 40;  // of colour

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
    if (report_.window && report_.window->trade_off) {
      write_trade_off_curve(svg_, *report_.window->trade_off, {kPictureEdge, bottom + 6},
                            kWidth - 2 * kPictureEdge);
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

  // What is shown, from the least to the most.
  void choose_range() {
    for (int row = 0; row < map_.y.count; ++row) {
      for (int column = 0; column < map_.x.count; ++column) {
        if (!map_.is_open(column, row)) continue;
        low_ = shown_ ? std::min(low_, map_.at(column, row)) : map_.at(column, row);
        high_ = shown_ ? std::max(high_, map_.at(column, row)) : map_.at(column, row);
        shown_ = true;
      }
    }
    // All the same: it gets the lightest colour.
    if (high_ - low_ < 1e-6) low_ = high_ - 0.01;
  }

  // Whether an offset or one beside it is of use: the window's outline cuts through cells.
  bool shows(int column, int row) const {
    for (int y = std::max(0, row - 1); y <= std::min(map_.y.count - 1, row + 1); ++y) {
      for (int x = std::max(0, column - 1); x <= std::min(map_.x.count - 1, column + 1); ++x) {
        if (map_.is_open(x, y)) return true;
      }
    }
    return false;
  }

  bool cut_by_window() const {
    return map_.points == 0 && report_.window && !report_.window->window.region.empty();
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

  // A path for each step of colour, of all cells with that or more, each painted over the one
  // before: no cell ends where another begins, so that no viewer shows a seam.
  void draw_cells() {
    const auto band = [this](int column, int row) {
      if (cut_by_window() ? !shows(column, row) : !map_.is_open(column, row)) return -1;
      const double part = (map_.at(column, row) - low_) / (high_ - low_);
      return static_cast<int>(std::clamp(std::floor(part * kBands + 1e-9), 0.0, kBands - 1.0));
    };
    std::vector<int> bands;
    for (int row = 0; row < map_.y.count; ++row) {
      for (int column = 0; column < map_.x.count; ++column) bands.push_back(band(column, row));
    }
    svg_.open("clipPath", {{"id", "map-window"}});
    if (cut_by_window()) {
      svg_.empty("path", {{"clip-rule", "evenodd"},
                          {"d", path_data(report_.window->window.region, view_)}});
    } else {
      svg_.rect("", drawing_);
    }
    svg_.close();
    svg_.open("g", {{"class", "cells"}, {"clip-path", "url(#map-window)"}});
    for (int least = 0; least < kBands; ++least) {
      const bool any = least == 0 || std::find(bands.begin(), bands.end(), least) != bands.end();
      if (!any) continue;
      svg_.empty("path", {{"class", "cell"},
                          {"fill", heat_colour((least + 0.5) / kBands)},
                          {"d", cells_from(bands, least)}});
    }
    svg_.close();
  }

  // The cells of a band or a later one: runs along the rows, equal ones of following rows as one.
  std::string cells_from(const std::vector<int>& bands, int least) const {
    const double dx = view_.scale * (map_.x.count > 1 ? map_.x.step() : 1);
    const double dy = view_.scale * (map_.y.count > 1 ? map_.y.step() : 1);
    using Run = std::pair<int, int>;
    const auto runs = [&](int row) {
      std::vector<Run> found;
      if (row >= map_.y.count) return found;
      const auto in = [&](int column) {
        return bands[static_cast<std::size_t>(row) * static_cast<std::size_t>(map_.x.count) +
                     static_cast<std::size_t>(column)] >= least;
      };
      for (int from = 0; from < map_.x.count; ++from) {
        if (!in(from)) continue;
        const int begin = from;
        while (from < map_.x.count && in(from)) ++from;
        found.push_back({begin, from});
      }
      return found;
    };
    std::string data;
    for (int row = 0; row < map_.y.count;) {
      const std::vector<Run> here = runs(row);
      int end = row + 1;
      while (end < map_.y.count && runs(end) == here) ++end;
      for (const auto& [from, to] : here) {
        const Point corner =
            view_(Point{map_.x.at(from), map_.y.at(end - 1)}) - Point{dx / 2, dy / 2};
        data += fmt::format("M{} {}h{}v{}h{}z", svg_number(corner.x), svg_number(corner.y),
                            svg_number(dx * (to - from)), svg_number(dy * (end - row)),
                            svg_number(-dx * (to - from)));
      }
      row = end;
    }
    return data;
  }

  // As many lines as can be told apart: 10, 5, 2 or 1 % from one to the next.
  double contour_step() const {
    for (const double step : {0.1, 0.05, 0.02}) {
      if ((high_ - low_) / step >= 4) return step;
    }
    return 0.01;
  }

  void draw_contours() {
    if (map_.points > 0 || !shown_) return;  // numbers of points have no lines between them
    const double step = contour_step();
    svg_.open("g", {{"class", "contours"}, {"clip-path", "url(#map-window)"}});
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
        const Point at =
            (*longest)[static_cast<std::size_t>(t * static_cast<double>(longest->size() - 1))];
        if (is_shown(at)) label.places.push_back(view_(at));
      }
      if (label.places.empty()) continue;
      label.at = label.places.front();
      numbers_.push_back(label);
    }
    svg_.close();
  }

  // Whether the cell of an offset is open.
  bool is_shown(Point offset) const {
    const auto index = [](const Steps& steps, double value) {
      return std::clamp(static_cast<int>(std::lround((value - steps.from) / steps.step())), 0,
                        steps.count - 1);
    };
    return map_.is_open(index(map_.x, offset.x), index(map_.y, offset.y));
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

  // `kind` says shape and fill: "dark round", "light round", "light square", "light triangle",
  // "light diamond", "star", "cross".
  static void mark(SvgWriter& svg, const std::string& kind, Point at) {
    if (kind == "cross") {
      const std::string data = plain_line({at - Point{6, 0}, at + Point{6, 0}}) +
                               plain_line({at - Point{0, 6}, at + Point{0, 6}});
      svg.path("over-rim", data);
      svg.path("over", data);
    } else if (kind == "light square") {
      svg.path("spot-light", path_data(Box{at.x - 4.5, at.x + 4.5, at.y - 4.5, at.y + 4.5}));
    } else if (kind == "light triangle") {
      svg.path("spot-light",
               plain_line({at - Point{6, -4.5}, at + Point{6, 4.5}, at - Point{0, 6.5}}) + "z");
    } else if (kind == "light diamond") {
      svg.path("spot-light", plain_line({at - Point{6, 0}, at - Point{0, 6}, at + Point{6, 0},
                                         at + Point{0, 6}}) +
                                 "z");
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
      offset_mark("the nearest that works", "nearest " + exact_pair(r.nearest->offset),
                  "light round", r.nearest->offset);
    }
    if (r.trade_off && r.trade_off->curve.size() > 1) {
      const Point most = r.trade_off->most_coverage.trade.offset;
      offset_mark("the most coverage", "most coverage " + exact_pair(most), "light triangle", most);
    }
    if (r.trade_off && r.trade_off->knee) {
      const Point knee = r.trade_off->knee->trade.offset;
      offset_mark("between them", "between them " + exact_pair(knee), "light diamond", knee);
    }
    if (r.best) {
      offset_mark("the most leeway", "most leeway " + exact_pair(r.best->offset), "star",
                  r.best->offset);
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
    if (!shown_) return;
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
    const double most = map_.points > 0 ? static_cast<double>(map_.points) : 100;
    const double step =
        std::max(map_.points > 0 ? 1.0 : 0.01, tick_step(height / (most * (high_ - low_)), 24));
    for (const double amount : ticks(most * low_, most * high_, step)) {
      const double y = top + height * (1 - (amount / most - low_) / (high_ - low_));
      svg_.line("tick", {x + 14, y}, {x + 18, y});
      svg_.text("", {x + 21, y + 4}, Anchor::start,
                tick_text(amount, step) + (map_.points > 0 ? "" : " %"));
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
  bool shown_ = false;  // whether any offset is open
  double low_ = 0;      // the share that is darkest
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
