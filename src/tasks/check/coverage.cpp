#include "tasks/check/coverage.h"

#include <algorithm>

namespace leeway {

Coverage coverage_of(const MultiPolygon& printable, const Box& mesh) {
  Coverage coverage;
  const double all = area(printable);
  if (all > 0) coverage.fraction = area_within(printable, mesh) / all;
  if (const std::optional<Box> box = bounds(printable)) {
    coverage.uncovered = {std::max(0.0, mesh.x0 - box->x0), std::max(0.0, box->x1 - mesh.x1),
                          std::max(0.0, mesh.y0 - box->y0), std::max(0.0, box->y1 - mesh.y1)};
  }
  return coverage;
}

}  // namespace leeway
