#pragma once
// Rounding numbers that someone enters, never outward.

#include <cmath>

#include "leeway/setup.h"

namespace leeway {

// To a number of decimals, not minding what a decimal loses in binary.
class Rounding {
 public:
  explicit Rounding(int decimals) : units_(std::pow(10, decimals)) {}

  double nearest(double mm) const { return std::round(mm * units_) / units_ + 0.0; }
  Point nearest(Point p) const { return {nearest(p.x), nearest(p.y)}; }
  double up(double mm) const { return -down(-mm) + 0.0; }
  double down(double mm) const {
    const double units = mm * units_;
    const double whole = std::round(units);
    return (std::abs(units - whole) < 1e-6 ? whole : std::floor(units)) / units_ + 0.0;
  }
  Box inward(const Box& box) const { return {up(box.x0), down(box.x1), up(box.y0), down(box.y1)}; }
  // Of a box within another one.
  Margins margins(const Box& around, const Box& box, Margins::From from) const {
    return {up(box.x0 - around.x0), up(around.x1 - box.x1), up(box.y0 - around.y0),
            up(around.y1 - box.y1), from};
  }

 private:
  double units_;
};

}  // namespace leeway
