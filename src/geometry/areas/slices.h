#pragma once
// Where a region lies across vertical strips.

#include <vector>

#include "leeway/geometry.h"

namespace leeway {

// A closed interval. REQUIRES: low <= high.
struct Interval {
  double low = 0;
  double high = 0;

  friend bool operator==(const Interval&, const Interval&) = default;
};

// Sorted, without overlap.
using Intervals = std::vector<Interval>;

Intervals intersection(const Intervals& a, const Intervals& b);

// What is not in `a`, out to `low` and `high`.
Intervals complement(const Intervals& a, double low, double high);

// Each end moved outward; intervals that meet become one. REQUIRES: by >= 0.
Intervals widened(const Intervals& a, double by);

Intervals united(Intervals a, const Intervals& b);

class Slices {
 public:
  explicit Slices(const MultiPolygon& region);

  // The y for which some x of [x0, x1] makes a point of the closed region. REQUIRES: x0 < x1.
  Intervals somewhere(double x0, double x1) const;

  // The y for which all x of [x0, x1] do. A rectangle of some height over [x0, x1] lies in the
  // region if and only if its y range lies in one of the intervals. REQUIRES: x0 < x1.
  Intervals throughout(double x0, double x1) const;

 private:
  struct Edge {
    Point left;
    Point right;
  };

  Intervals just_right_of(double x) const;

  std::vector<Edge> edges_;  // by left end
};

}  // namespace leeway
