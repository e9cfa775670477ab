#pragma once
// Minkowski sums and unions by CGAL with exact numbers, behind plain values: its headers are
// compiled in one file alone.

#include <memory>
#include <utility>
#include <vector>

#include "leeway/geometry.h"

namespace leeway::judges {

// A set of polygons in whole micrometres, its vertices rational numbers.
class ExactSet {
 public:
  struct Impl;
  explicit ExactSet(std::shared_ptr<const Impl> impl) : impl_(std::move(impl)) {}
  const Impl& get() const { return *impl_; }

 private:
  std::shared_ptr<const Impl> impl_;
};

// All coordinates must be whole micrometres.
ExactSet cgal_minkowski_sum(const Polygon& a, const Polygon& b);
// Where all of `b` fits into `a` when it is moved there: what is left of `a` when the sums of its
// surroundings with the mirrored `b` are taken away.
ExactSet cgal_erosion(const Polygon& a, const Polygon& b);
ExactSet union_of(const std::vector<Ring>& rings);
ExactSet exact(const MultiPolygon& polygons);

// Of the symmetric difference, in square millimetres: 0 only when it is empty.
double area_of_difference(const ExactSet& a, const ExactSet& b);

// The length of all rings, in mm.
double perimeter(const MultiPolygon& polygons);

}  // namespace leeway::judges
