#pragma once
// A field whose distances come from an object of their own.

#include <memory>
#include <utility>

#include "geometry/distance/field.h"

namespace leeway {

class MeasuredField : public Field {
 public:
  double distance(Point p) const final { return distances_->distance(p); }
  void distances(const double* xs, const double* ys, double* out, std::size_t count) const final {
    distances_->distances(xs, ys, out, count);
  }
  std::unique_ptr<Distances> narrowed(Point middle, double reach) const final {
    return distances_->narrowed(middle, reach);
  }
  std::size_t edges() const final { return distances_->edges(); }

 protected:
  explicit MeasuredField(std::unique_ptr<Distances> distances) : distances_(std::move(distances)) {}

 private:
  std::unique_ptr<Distances> distances_;
};

}  // namespace leeway
