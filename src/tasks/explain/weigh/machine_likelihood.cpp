#include "tasks/explain/weigh/machine_likelihood.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "tasks/explain/weigh/reach.h"
#include "tasks/explain/weigh/roundness.h"

namespace leeway {
namespace {

constexpr double kNever = -40;

// Of one size of a bed, per mm.
double log_bed_size(double size) {
  if (size < 100) return std::log(1.0 / 1500) + 6 * std::log(std::max(size, 1.0) / 100);
  if (size < 150) return std::log(1.0 / 900);
  if (size <= 420) return std::log(1.0 / 400);
  if (size <= 1000) return std::log(1.0 / 2500);
  return std::log(1.0 / 5000) - 6 * std::log(size / 1000);
}

double log_origin(const Box& bed) {
  const bool corner = bed.x0 == 0 && bed.y0 == 0;
  const bool centre = std::abs(bed.x0 + bed.x1) < 0.5 && std::abs(bed.y0 + bed.y1) < 0.5;
  if (corner) return std::log(0.65);
  if (centre) return std::log(0.25);
  const double away = std::max(std::abs(bed.x0), std::abs(bed.y0));
  return std::log(0.1 / 400) - std::max(0.0, away - 15) / 10;
}

double log_bed(const Shape& shape, Unknown unknown) {
  const Box bed = bounding_box(shape);
  if (!(bed.width() > 0) || !(bed.depth() > 0)) return kNever;
  double sum = log_bed_size(bed.width()) + log_origin(bed);
  const bool known = unknown != Unknown::bed;
  if (known) sum += log_roundness(bed.width());
  if (std::abs(bed.width() - bed.depth()) < 0.01) return sum + std::log(0.45);
  sum += std::log(0.55) + log_bed_size(bed.depth());
  return known ? sum + log_roundness(bed.depth()) : sum;
}

// Of travel past one side of the bed, per mm; negative where it ends before it.
double log_past_side(double past) {
  if (std::abs(past) < 1e-6) return std::log(kShareEndsWithBed);
  if (past > 0) {
    return std::log(0.52 / 12 * std::exp(-past / 12) + 0.16 / 40 * std::exp(-past / 40));
  }
  return std::log(0.03 / 6 * std::exp(past / 6) + 2e-5 * std::exp(past / 60) + 1e-9);
}

// Of where the probe stands, per mm2.
double log_place(Point o) {
  const double far = std::hypot(o.x, o.y);
  double sum = std::log(1.0 / 12000);
  if (far < 14) sum -= (14 - far) / 2;
  if (far > 65) sum -= (far - 65) / 8;
  return std::max(sum, kNever);
}

double log_offset(const Setup& setup, Unknown unknown) {
  const Point o = setup.probe.offset;
  double sum = log_place(o);
  if (o == Point{0, 0}) return std::log(0.02);
  for (const HeadPart& part : setup.machine.head) {
    const Box box = bounding_box(part.outline);
    if (o.x > box.x0 && o.x < box.x1 && o.y > box.y0 && o.y < box.y1) sum -= 4;
  }
  if (unknown == Unknown::offset) return sum;
  // Many brackets stand straight to a side.
  const auto of_number = [](double value) {
    return value == 0 ? std::log(20.0) : log_measured_roundness(value);
  };
  return sum + of_number(o.x) + of_number(o.y);
}

double log_spot(const Shape& spot) {
  const double radius = bounding_box(spot).width() / 2;
  if (!(radius > 0)) return 0;
  return -radius / 4 + log_roundness(radius) / 2;
}

// Standard uncertainties are a tenth or a few, seldom a millimetre.
double log_uncertainty(double u) {
  if (!(u > 0)) return 0;
  const double decades = std::log(u / 0.15);
  return -decades * decades / 2;
}

}  // namespace

double log_travel(const Machine& machine, Unknown unknown) {
  const Box bed = bounding_box(machine.bed);
  const Box travel = bounding_box(machine.travel);
  const Sides past = inside_by(bed, travel);
  const std::array<double, 4> sides{past.left, past.right, past.front, past.back};
  const std::array<double, 4> ends{travel.x0, travel.x1, travel.y0, travel.y1};
  const auto [least, most] = std::minmax_element(sides.begin(), sides.end());
  if (*most - *least < 1e-6 && *least >= 0) {
    return *most < 1e-6 ? std::log(0.25) : std::log(0.1 / 12) - *most / 12 + log_roundness(*most);
  }
  double sum = std::log(0.6);
  for (std::size_t i = 0; i < sides.size(); ++i) {
    sum += log_past_side(sides[i]);
    const bool chosen = std::abs(sides[i]) > 1e-6 && unknown == Unknown::nothing;
    if (chosen) sum += std::max(log_roundness(ends[i]), log_roundness(sides[i]));
  }
  return sum;
}

double log_machine(const Setup& setup, Unknown unknown) {
  const Point u = setup.probe.offset_uncertainty;
  return log_bed(setup.machine.bed, unknown) + log_travel(setup.machine, unknown) +
         log_offset(setup, unknown) + log_spot(setup.probe.spot) +
         log_uncertainty(std::max(u.x, u.y)) + log_uncertainty(setup.machine.bed_uncertainty) +
         log_uncertainty(setup.machine.travel_uncertainty);
}

}  // namespace leeway
