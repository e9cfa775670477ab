#include "geometry/distance/near_edges.h"

namespace leeway {

NearEdges::NearEdges(EdgeSet edges, double sign) : edges_(std::move(edges)), sign_(sign) {}

double NearEdges::distance(Point p) const { return sign_ * edges_.distance(p); }

void NearEdges::distances(const double* xs, const double* ys, double* out,
                          std::size_t count) const {
  edges_.distances(xs, ys, sign_, out, count);
}

std::unique_ptr<Distances> NearEdges::narrowed(Point middle, double reach) const {
  if (edges_.size() == 1) return nullptr;
  EdgeSet near = edges_.near(middle, reach);
  if (near.size() == edges_.size()) return nullptr;
  return std::make_unique<NearEdges>(std::move(near), sign_);
}

// A field that has two sets of edges takes one for each sign.
std::int64_t NearEdges::identity() const {
  if (edges_.size() != 1) return 0;
  const std::int64_t number = std::int64_t{edges_.first()} + 1;
  return sign_ > 0 ? number : -number;
}

}  // namespace leeway
