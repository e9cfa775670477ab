#include "leeway/remarks.h"

#include <algorithm>
#include <cmath>
#include <variant>

#include "leeway/geometry.h"

namespace leeway {
namespace {

// All of these: common practice, no source.
constexpr double kSmallBed_mm = 50;
constexpr double kLargeBed_mm = 2000;
constexpr double kLeastOfBed = 0.5;
constexpr double kMostUncertainty_mm = 5;
// A grid over the box of a disc has at most 4 - pi of 4 off the disc, a fifth; of few points more.
constexpr double kMostLeftOutOfRectangle = 1.0 / 3;
constexpr double kMostLeftOutOfRound = 0.5;

double shared(double a0, double a1, double b0, double b1) {
  return std::max(0.0, std::min(a1, b1) - std::max(a0, b0));
}

// Of the bed's box, the share that is in the travel's.
double share_in_travel(const Machine& machine) {
  const Box bed = bounding_box(machine.bed);
  const Box travel = bounding_box(machine.travel);
  const double area = bed.width() * bed.depth();
  return area > 0 ? shared(bed.x0, bed.x1, travel.x0, travel.x1) *
                        shared(bed.y0, bed.y1, travel.y0, travel.y1) / area
                  : 0;
}

double most_left_out(const Shape& bed) {
  return std::holds_alternative<Box>(bed) ? kMostLeftOutOfRectangle : kMostLeftOutOfRound;
}

double share_left_out(const Setup& setup, const Counts& counts) {
  if (!setup.request.grid || !setup.request.grid->skip_outside_bed) return 0;
  const Grid& grid = *setup.request.grid;
  return static_cast<double>(counts.skipped) /
         (static_cast<double>(grid.columns) * static_cast<double>(grid.rows));
}

bool has_extent(const Probe& probe) {
  return probe.body || !std::holds_alternative<Point>(probe.spot);
}

}  // namespace

std::vector<Remark> remarks(const Setup& setup, const CheckResult& checked) {
  std::vector<Remark> out;
  const auto remark_if = [&out](bool is_so, RemarkKind kind, double value) {
    if (is_so) out.push_back({kind, value, {}});
  };
  const Probe& probe = setup.probe;
  const Machine& machine = setup.machine;
  const Box bed = bounding_box(machine.bed);
  const double side = std::max(bed.width(), bed.depth());
  const bool no_offset = probe.offset.x == 0 && probe.offset.y == 0;
  const bool far_x = std::abs(probe.offset.x) > bed.width() / 2;
  const bool far_y = std::abs(probe.offset.y) > bed.depth() / 2;
  const double uncertainty = std::max({probe.offset_uncertainty.x, probe.offset_uncertainty.y,
                                       machine.travel_uncertainty, machine.bed_uncertainty});
  const double of_bed = share_in_travel(machine);
  const double left_out = share_left_out(setup, checked.counts);
  if (!checked.probe_overlaps.empty() && !no_offset) {
    out.push_back({RemarkKind::probe_in_head, 0, checked.probe_overlaps});
  }
  remark_if(no_offset && has_extent(probe), RemarkKind::no_offset, 0);
  remark_if(far_x || far_y, RemarkKind::long_offset,
            std::abs(far_x ? probe.offset.x : probe.offset.y));
  remark_if(side < kSmallBed_mm, RemarkKind::small_bed, side);
  remark_if(side > kLargeBed_mm, RemarkKind::large_bed, side);
  remark_if(of_bed < kLeastOfBed, RemarkKind::travel_off_bed, of_bed);
  remark_if(uncertainty > kMostUncertainty_mm, RemarkKind::uncertainty, uncertainty);
  remark_if(!probe.stowed && !probe.body, RemarkKind::down_unknown, 0);
  const double below = probe.body ? -probe.body->underside : 0;
  remark_if(!probe.stowed && below > 0, RemarkKind::scrapes, below);
  remark_if(left_out > most_left_out(machine.bed), RemarkKind::many_left_out, left_out);
  return out;
}

bool comes_first(RemarkKind kind) {
  return kind == RemarkKind::many_left_out || kind == RemarkKind::probe_in_head;
}

}  // namespace leeway
