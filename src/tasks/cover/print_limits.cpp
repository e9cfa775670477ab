#include "tasks/cover/print_limits.h"

#include <algorithm>
#include <cmath>
#include <string>

#include "leeway/setup.h"
#include "model/limits/swept.h"

namespace leeway {
namespace {

constexpr double kCell = 1;          // mm
constexpr double kMostCells = 1000;  // along an axis: beyond, cells grow
constexpr double kHalfDiagonal = 0.70711;
constexpr double kFinest =
    0.05;  // mm; what is looked at of an edge or an area that is not straight

// A probe that is not stowed while printing hangs beside the nozzle as one more part of the head.
void hang_body(const Probe& probe, double below, Machine& machine) {
  for (HeadPart& part : machine.head) part.underside += below;
  if (!probe.body || probe.stowed) return;
  std::string name = "probe left down";
  const auto same = [&](const HeadPart& part) { return part.name == name; };
  while (std::any_of(machine.head.begin(), machine.head.end(), same)) name += '+';
  machine.head.push_back(
      {name, moved(probe.body->outline, probe.offset), probe.body->underside + below});
}

Setup printing_setup(const Setup& setup, double height, double inset, double below) {
  Setup printing = setup;
  printing.request = {};
  printing.mount = {};
  Machine& machine = printing.machine;
  machine.travel_uncertainty = machine.bed_uncertainty = 0;
  hang_body(setup.probe, below, machine);
  // What no part of the head can meet at this height is not in the way; else the nozzle is one that
  // meets it, so that "over it" says nothing new.
  auto& obstacles = machine.obstacles;
  obstacles.erase(std::remove_if(obstacles.begin(), obstacles.end(),
                                 [height](const Obstacle& o) { return o.height <= height; }),
                  obstacles.end());
  Probe nozzle;
  nozzle.edge_distance = inset;
  nozzle.trigger_height = height;
  nozzle.travel_height = height;
  printing.probe = nozzle;
  return printing;
}

// Heights of the nozzle from which on a part of the head passes above an obstacle.
std::vector<double> passing_heights(const Setup& setup, double below) {
  std::vector<double> heights;
  Machine machine = setup.machine;
  hang_body(setup.probe, below, machine);
  for (const Obstacle& obstacle : machine.obstacles) {
    if (std::isinf(obstacle.height)) continue;
    heights.push_back(obstacle.height);
    for (const HeadPart& part : machine.head) heights.push_back(obstacle.height - part.underside);
  }
  heights.erase(std::remove_if(heights.begin(), heights.end(), [](double h) { return h <= 0; }),
                heights.end());
  std::sort(heights.begin(), heights.end());
  heights.erase(std::unique(heights.begin(), heights.end()), heights.end());
  return heights;
}

double way_length(Point way) { return std::hypot(way.x, way.y); }

}  // namespace

// The limits between two such heights, with the leeway at the middle of each cell that was asked
// for: it changes by no more than 1 mm per mm.
class PrintLimits::Level {
 public:
  Level(const Rig& rig, double height, double inset, double below)
      : setup_(printing_setup(rig.setup(), height, inset, below)),
        limits(rig.limits().with(setup_)),
        moves(setup_, limits) {
    box_ = bounding_box(setup_.machine.bed);
    cell_ = std::max({kCell, box_.width() / kMostCells, box_.depth() / kMostCells});
    columns_ = static_cast<std::size_t>(box_.width() / cell_) + 1;
    rows_ = static_cast<std::size_t>(box_.depth() / cell_) + 1;
    leeways_.assign(columns_ * rows_, kNotAsked);
  }

  double cell() const { return cell_; }

  // No point nearer to `p` than `reach` has less leeway; minus infinity off the bed.
  double least_near(Point p, double reach) {
    const double column = std::floor((p.x - box_.x0) / cell_);
    const double row = std::floor((p.y - box_.y0) / cell_);
    if (!(column >= 0 && row >= 0 && column < static_cast<double>(columns_) &&
          row < static_cast<double>(rows_))) {
      return -kUnlimitedHeight;
    }
    float& leeway =
        leeways_[static_cast<std::size_t>(row) * columns_ + static_cast<std::size_t>(column)];
    if (leeway == kNotAsked) {
      const Point middle{box_.x0 + (column + 0.5) * cell_, box_.y0 + (row + 0.5) * cell_};
      leeway = static_cast<float>(limits.least_leeway(middle)) - kFloatDoubt;
    }
    return static_cast<double>(leeway) - kHalfDiagonal * cell_ - reach;
  }

 private:
  static constexpr float kNotAsked = 1e9F;
  static constexpr float kFloatDoubt = 0.01F;

  Setup setup_;
  Box box_;
  double cell_ = kCell;
  std::size_t columns_ = 0;
  std::size_t rows_ = 0;
  std::vector<float> leeways_;

 public:
  Limits limits;
  MoveLimits moves;
};

PrintLimits::PrintLimits(const Rig& rig, double inset) : rig_(rig), inset_(inset) {
  const Probe& probe = rig.setup().probe;
  if (probe.body && !probe.stowed) below_ = std::max(0.0, -probe.body->underside);
  convex_bed_ = !std::holds_alternative<MultiPolygon>(rig.setup().machine.bed);
  heights_ = passing_heights(rig.setup(), below_);
}

PrintLimits::~PrintLimits() = default;

PrintLimits::Level& PrintLimits::level(double height) {
  // What reaches below the nozzle is that much lower, and the nozzle with it: on the safe side.
  const double lowest = std::max(0.0, height - below_);
  const auto above = std::upper_bound(heights_.begin(), heights_.end(), lowest);
  const std::size_t index = static_cast<std::size_t>(above - heights_.begin());
  std::unique_ptr<Level>& level = levels_[index];
  if (!level) {
    const double from = index == 0 ? 0 : heights_[index - 1];
    level = std::make_unique<Level>(rig_, from, inset_, below_);
  }
  return *level;
}

void PrintLimits::look(Point from, Point to, double height, std::size_t line) {
  look(level(height), from, to, height, line);
}

void PrintLimits::look(Level& level, Point from, Point to, double height, std::size_t line) {
  const double reach = way_length(to - from) / 2;
  const Point middle = 0.5 * (from + to);
  if (level.least_near(middle, reach) >= 0) return;
  if (reach < level.cell()) return look_exactly(level, from, to, height, line);
  look(level, from, middle, height, line);
  look(level, middle, to, height, line);
}

void PrintLimits::look_exactly(Level& level, Point from, Point to, double height,
                               std::size_t line) {
  for (const Point end : {from, to}) {
    const Finding finding = level.limits.evaluate(end);
    if (finding.leeway < 0) {
      keep({level.limits.info(finding.limit), finding.leeway, end, height, line});
    }
  }
  MoveStop stop;
  if (level.moves.blocked(from, to, stop) && stop.leeway < 0) {
    keep({stop.limit, stop.leeway, 0.5 * (from + to), height, line});
  }
  if (convex_bed_) return;
  const double steps = std::ceil(way_length(to - from) / kFinest);
  for (double i = 1; i < steps; ++i) {
    const Point at = from + (i / steps) * (to - from);
    const Finding finding = level.limits.evaluate(at);
    if (finding.leeway < 0) {
      keep({level.limits.info(finding.limit), finding.leeway, at, height, line});
    }
  }
}

void PrintLimits::look_at(const Shape& area) {
  Setup of_area;
  of_area.machine.bed = area;
  of_area.machine.travel = area;
  look_inside(level(0), bounding_box(area), Limits(of_area));
}

// Into quarters, as long as something in the box may be in the area and in the way.
void PrintLimits::look_inside(Level& level, const Box& box, const Limits& area) {
  const Point middle{(box.x0 + box.x1) / 2, (box.y0 + box.y1) / 2};
  const double reach = std::hypot(box.width(), box.depth()) / 2;
  const double inside = area.on_bed(middle);
  if (inside < -reach) return;
  const Finding finding = level.limits.evaluate(middle);
  if (finding.leeway >= reach) return;
  if (inside >= 0 && finding.leeway < 0) {
    keep({level.limits.info(finding.limit), finding.leeway, middle, 0, 0});
  }
  if (reach < 10 * kFinest && (finding.leeway < 0 || reach < kFinest)) return;
  const auto quarter = [&](double x0, double x1, double y0, double y1) {
    look_inside(level, {x0, x1, y0, y1}, area);
  };
  quarter(box.x0, middle.x, box.y0, middle.y);
  quarter(middle.x, box.x1, box.y0, middle.y);
  quarter(box.x0, middle.x, middle.y, box.y1);
  quarter(middle.x, box.x1, middle.y, box.y1);
}

void PrintLimits::keep(const CoverStop& stop) {
  // The nozzle over something is told once, whichever limit says it.
  CoverStop kept = stop;
  if (kept.limit.group == LimitGroup::obstacle) {
    kept.limit.group = LimitGroup::head;
    kept.limit.part = "nozzle";
    kept.limit.part_id = {};
    kept.limit.name = "nozzle over " + kept.limit.obstacle;
  }
  const auto [known, fresh] = worst_.emplace(kept.limit.name, kept);
  if (!fresh && kept.leeway < known->second.leeway) known->second = kept;
}

std::vector<CoverStop> PrintLimits::stops() const {
  std::vector<CoverStop> stops;
  for (const auto& [name, stop] : worst_) stops.push_back(stop);
  std::stable_sort(stops.begin(), stops.end(),
                   [](const CoverStop& a, const CoverStop& b) { return a.leeway < b.leeway; });
  return stops;
}

}  // namespace leeway
