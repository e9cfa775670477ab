#include "formats/plan/plan_points.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "formats/drawing/drawing_style.h"
#include "formats/text/names.h"
#include "formats/text/numbers.h"

namespace leeway {
namespace {

constexpr double kLargestMark = 5.5;  // radius of a mark
constexpr double kSmallestMark = 0.7;
constexpr double kRing = 4;  // around the mark of the homing point
constexpr double kHalo = 4;  // around the mark of a point that is a link
constexpr double kLeastHalo = 6;
constexpr std::size_t kMostNamed = 200;  // named points with a label
constexpr std::size_t kMostBlocked = 500;

constexpr Verdict kVerdicts[] = {Verdict::reachable, Verdict::marginal, Verdict::unreachable};

// The outline of a mark around wherever the pen is.
std::string outline(Verdict verdict, double radius) {
  const auto n = [](double value) { return svg_number(value); };
  if (verdict == Verdict::reachable) {
    return fmt::format("m-{0} 0a{0} {0} 0 1 0 {1} 0a{0} {0} 0 1 0-{1} 0z", n(radius),
                       n(2 * radius));
  }
  if (verdict == Verdict::marginal) {
    const double r = 1.2 * radius;
    return fmt::format("m0-{0}l{0} {0}l-{0} {0}l-{0}-{0}z", n(r));
  }
  // A cross with arms of some width.
  const double arm = 0.36 * radius;
  const double reach = 1.15 * radius - arm;
  return fmt::format(
      "m0-{0}l{1}-{1}l{0} {0}l-{1} {1}l{1} {1}l-{0} {0}l-{1}-{1}l-{1} {1}l-{0}-{0}"
      "l{1}-{1}l-{1}-{1}l{0}-{0}z",
      n(arm), n(reach));
}

// The filled half of a marginal one.
std::string half(double radius) {
  const std::string r = svg_number(1.2 * radius);
  return fmt::format("m0-{0}l{0} {0}l-{0} {0}z", r);
}

std::string pen(Point p) { return "M" + svg_number(p.x) + " " + svg_number(p.y); }

double mark_radius(const PlanInput& input, const View& view) {
  const std::optional<Box> mesh = mesh_bounds(input.rig.setup());
  double apart = 1e9;
  if (mesh) {
    const Grid& grid = *input.rig.setup().request.grid;
    if (grid.columns > 1) apart = std::min(apart, mesh->width() / (grid.columns - 1));
    if (grid.rows > 1) apart = std::min(apart, mesh->depth() / (grid.rows - 1));
  }
  return std::min(std::max(0.24 * apart * view.scale, kSmallestMark), kLargestMark);
}

// Tells which points are the first in their cell of a third of a unit: of more than can be seen
// apart one is drawn.
class Cells {
 public:
  explicit Cells(const Box& drawing)
      : drawing_(drawing),
        columns_(static_cast<std::size_t>(drawing.width() * kPerUnit) + 2),
        rows_(static_cast<std::size_t>(drawing.depth() * kPerUnit) + 2),
        seen_(columns_ * rows_) {}

  bool first(Point p) {
    const std::size_t x = cell(p.x - drawing_.x0, columns_);
    const std::size_t y = cell(p.y - drawing_.y0, rows_);
    const bool seen = seen_[y * columns_ + x];
    seen_[y * columns_ + x] = true;
    return !seen;
  }

 private:
  static constexpr double kPerUnit = 3;

  static std::size_t cell(double along, std::size_t count) {
    const double most = static_cast<double>(count - 1);
    return static_cast<std::size_t>(std::min(std::max(along * kPerUnit, 0.0), most));
  }

  Box drawing_;
  std::size_t columns_;
  std::size_t rows_;
  std::vector<bool> seen_;
};

class Points {
 public:
  Points(SvgWriter& svg, const PlanInput& input, PlanScene& scene)
      : svg_(svg),
        input_(input),
        scene_(scene),
        words_(input.rig, picture_name),
        radius_(mark_radius(input, scene.view)) {}

  void draw() {
    const std::vector<CheckedPoint>& points = input_.result.points;
    svg_.group("points");
    if (points.size() <= kMostPlanElements) {
      for (std::size_t i = 0; i < points.size(); ++i) one(points[i], i);
    } else {
      together();
      for (const std::size_t i : scene_.linked) one(points[i], i);
    }
    svg_.close();
    Cells cells(scene_.drawing);
    for (const CheckedPoint& point : points) {
      if (point.column == 0 || cells.first(scene_.view(point.probe))) note(point);
    }
    if (unnamed_ > 0) {
      scene_.legend.notes.push_back(
          fmt::format("{} more named points stand without their names.", unnamed_));
    }
    explain();
  }

 private:
  double radius_of(const CheckedPoint& point) const {
    return point.column > 0 ? radius_ : std::max(radius_, 3.5);
  }

  void mark(Verdict verdict, Point at, double radius) {
    svg_.path(std::string("mark ") + word(verdict), pen(at) + outline(verdict, radius));
    if (verdict == Verdict::marginal) svg_.path("half", pen(at) + half(radius));
  }

  void one(const CheckedPoint& point, std::size_t index) {
    const Verdict verdict = point.finding.verdict;
    SvgAttributes attributes{{"id", fmt::format("p-{}", index)},
                             {"class", std::string("point ") + word(verdict)}};
    const bool linked = is_linked(index);
    if (linked) attributes.emplace_back("href", fmt::format("#row-{}", index));
    svg_.open(linked ? "a" : "g", attributes);
    if (scene_.point_titles) svg_.text_element("title", {}, title(point));
    if (linked) {
      svg_.circle("halo", scene_.view(point.probe), std::max(radius_of(point) + kHalo, kLeastHalo));
    }
    mark(verdict, scene_.view(point.probe), radius_of(point));
    ring(point);
    svg_.close();
  }

  std::string title(const CheckedPoint& point) const {
    const Verdict verdict = point.finding.verdict;
    return words_.point(point) + ": " + word(verdict) +
           (verdict == Verdict::reachable ? ", " + words_.room(point.finding)
                                          : "; " + words_.reason(point));
  }

  bool is_linked(std::size_t index) const {
    return std::binary_search(scene_.linked.begin(), scene_.linked.end(), index);
  }

  void ring(const CheckedPoint& point) {
    if (point.column > 0 || point.name_index != kHomeIndex) return;
    svg_.circle("ring", scene_.view(point.probe), radius_of(point) + kRing);
  }

  // The grid points of a verdict as one path; the others, while they are few, each by itself.
  void together() {
    const std::vector<CheckedPoint>& points = input_.result.points;
    const auto of_lattice = [](const CheckedPoint& point) { return point.column > 0; };
    const auto others = static_cast<std::size_t>(
        points.end() - std::find_if_not(points.begin(), points.end(), of_lattice));
    const bool all = others > kMostPlanElements;
    const double radius = all ? std::min(radius_, 2.0) : radius_;
    for (const Verdict verdict : kVerdicts) {
      std::string data;
      std::string halves;
      const std::string shape = outline(verdict, radius);
      Cells cells(scene_.drawing);
      for (const CheckedPoint& point : points) {
        if (point.finding.verdict != verdict || !(all || of_lattice(point))) continue;
        if (!cells.first(scene_.view(point.probe))) continue;
        const std::string at = pen(scene_.view(point.probe));
        data += at;
        data += shape;
        if (verdict == Verdict::marginal) halves += at + half(radius);
      }
      svg_.path(std::string("mark ") + (radius < 2 ? "tiny " : "") + word(verdict), data);
      svg_.path("half", halves);
    }
    for (std::size_t i = 0; i < points.size(); ++i) {
      if (all) {
        ring(points[i]);
      } else if (!of_lattice(points[i])) {
        one(points[i], i);
      }
    }
  }

  void note(const CheckedPoint& point) {
    const Point at = scene_.view(point.probe);
    const bool home = point.column == 0 && point.name_index == kHomeIndex;
    const double r = radius_of(point) + (home ? kRing : 1);
    scene_.taken.push_back({at.x - r, at.x + r, at.y - r, at.y + r});
    if (point.column > 0 || (!home && named_ == kMostNamed)) {
      if (point.column == 0) ++unnamed_;
      scene_.marks.push_back({at.x - r, at.x + r, at.y - r, at.y + r});
      return;
    }
    if (!home) ++named_;
    // Within the round mark, so that a line to the label ends on it.
    const double within = 0.7 * r;
    Label label{home ? "home" : words_.point(point), at, r + 2 - within};
    label.half = {within, within};
    scene_.labels.push_back(label);
  }

  void explain() {
    const Counts& counts = input_.result.counts;
    const std::size_t of[] = {counts.reachable, counts.marginal, counts.unreachable};
    for (const Verdict verdict : kVerdicts) {
      const std::size_t n = of[static_cast<int>(verdict)];
      if (n == 0) continue;
      scene_.legend.entries.push_back(
          {fmt::format("{} {}", n, word(verdict)), [verdict](SvgWriter& svg, Point at) {
             svg.path(std::string("mark ") + word(verdict),
                      pen(at) + outline(verdict, kLargestMark));
             if (verdict == Verdict::marginal) svg.path("half", pen(at) + half(kLargestMark));
           }});
    }
    if (input_.rig.setup().request.home) {
      scene_.legend.entries.push_back(
          {"homing point", [](SvgWriter& svg, Point at) { svg.circle("ring", at, 7.5); }});
    }
  }

  SvgWriter& svg_;
  const PlanInput& input_;
  PlanScene& scene_;
  Words words_;
  double radius_;
  std::size_t named_ = 0;
  std::size_t unnamed_ = 0;
};

// Every how many columns or rows a number has room.
int number_step(double apart, double room, int count) {
  if (count == 1) return 1;
  if (!(apart > 0)) return count + 1;  // all in one place: none has room
  int step = 1;
  for (const int next : {2, 5, 10, 20, 50, 100, 200, 500, 1000, 2000, 5000, 10000}) {
    if (apart * step >= room || step > count) break;
    step = next;
  }
  return step;
}

bool has_number(int index, int count, int step) {
  if (step == 1) return true;
  // The first, and then round ones; not the last beside one of them.
  return index == 1 || (index % step == 0 && index <= count);
}

}  // namespace

void draw_points(SvgWriter& svg, const PlanInput& input, PlanScene& scene) {
  Points(svg, input, scene).draw();
}

void draw_blocked_moves(SvgWriter& svg, const PlanInput& input, PlanScene& scene) {
  const std::vector<BlockedMove>& blocked = input.result.moves.blocked;
  if (blocked.empty()) return;
  const std::vector<CheckedPoint>& points = input.result.points;
  svg.group("moves");
  const std::size_t shown = std::min(blocked.size(), kMostBlocked);
  for (std::size_t i = 0; i < shown; ++i) {
    const Point from = scene.view(points[blocked[i].from].probe);
    const Point to = scene.view(points[blocked[i].to].probe);
    svg.line("rim", from, to);
    svg.line("blocked", from, to);
    cover_line(from, to, scene.taken);
  }
  svg.close();
  scene.legend.entries.push_back(
      {fmt::format("{} that would run into something",
                   blocked.size() == 1 ? "a move" : fmt::format("{} moves", blocked.size())),
       [](SvgWriter& out, Point at) {
         out.line("blocked", at - Point{12, 0}, at + Point{12, 0});
       }});
  if (shown < blocked.size()) {
    scene.legend.notes.push_back(
        fmt::format("Of the moves that would run into something {} are drawn.", shown));
  }
}

void draw_grid_numbers(SvgWriter& svg, const PlanInput& input, const PlanScene& scene) {
  const std::optional<Box> mesh = mesh_bounds(input.rig.setup());
  if (!mesh) return;
  const Grid& grid = *input.rig.setup().request.grid;
  const Box& d = scene.drawing;
  const auto place = [&](int column, int row) {
    return scene.view(grid_point(*mesh, grid.columns, grid.rows, column, row));
  };
  const double across = grid.columns > 1 ? place(1, 0).x - place(0, 0).x : 0;
  const double up = grid.rows > 1 ? place(0, 0).y - place(0, 1).y : 0;
  const int column_step =
      number_step(across, text_width(std::to_string(grid.columns), kFontSize) + 4, grid.columns);
  const int row_step = number_step(up, 15, grid.rows);
  // What is seen may be a part.
  const auto within = [](double at, double low, double high) { return at >= low && at <= high; };
  svg.group("grid-numbers");
  for (int column = 1; column <= grid.columns; ++column) {
    if (!has_number(column, grid.columns, column_step)) continue;
    if (column == 1 && column_step > 1 && across * (column_step - 1) < 20) continue;
    if (!within(place(column - 1, 0).x, d.x0, d.x1)) continue;
    svg.text("faint", {place(column - 1, 0).x, d.y0 - 12}, Anchor::middle, std::to_string(column));
  }
  svg.text("faint", {d.x0 - 6, d.y0 - 12}, Anchor::end, "column");
  for (int row = 1; row <= grid.rows; ++row) {
    if (!has_number(row, grid.rows, row_step)) continue;
    if (row == 1 && row_step > 1 && up * (row_step - 1) < 15) continue;
    if (!within(place(0, row - 1).y, d.y0, d.y1)) continue;
    svg.text("faint", {d.x1 + 5, place(0, row - 1).y + 4}, Anchor::start, std::to_string(row));
  }
  svg.text("faint", {d.x1 + 5, d.y0 - 12}, Anchor::start, "row");
  svg.close();
}

}  // namespace leeway
