#pragma once
// The distances to a few straight edges that none of the positions asked for lies across.

#include "geometry/distance/edge_set.h"
#include "geometry/distance/field.h"

namespace leeway {

class NearEdges final : public Distances {
 public:
  // `sign` is 1 where the positions are allowed, else -1. REQUIRES: at least one edge.
  NearEdges(EdgeSet edges, double sign);

  double distance(Point p) const override;
  void distances(const double* xs, const double* ys, double* out, std::size_t count) const override;
  std::unique_ptr<Distances> narrowed(Point middle, double reach) const override;
  std::size_t edges() const override { return edges_.size(); }
  std::int64_t identity() const override;

 private:
  EdgeSet edges_;
  double sign_;
};

}  // namespace leeway
