#include "tasks/bracket/offset_cover.h"

#include <algorithm>
#include <cmath>

namespace leeway {
namespace {

// How far the outline goes to the right and back to the left, all told, and likewise in y; half of
// it is the most of the outline that can face one way.
Point half_outline(const MultiPolygon& region) {
  Point sum;
  const auto add = [&sum](const Ring& ring) {
    for (std::size_t i = 0; i < ring.size(); ++i) {
      const Point edge = ring[(i + 1) % ring.size()] - ring[i];
      sum = sum + Point{std::abs(edge.x), std::abs(edge.y)};
    }
  };
  for (const Polygon& polygon : region) {
    add(polygon.outer);
    for (const Ring& hole : polygon.holes) add(hole);
  }
  return 0.5 * sum;
}

}  // namespace

OffsetCover::OffsetCover(const Rig& rig) : OffsetCover(cover_sets(rig)) {}

OffsetCover::OffsetCover(const CoverSets& sets)
    : area_(sets.printable_area), moved_(sets.ground, sets.travel ? sets.blocked : sets.nozzle) {
  // A move by dx sweeps no more than dx times what of an outline faces along x.
  Point facing = half_outline(sets.ground);
  if (sets.travel) {
    center_ = sets.travel->center;
    disc_.emplace(sets.ground, sets.travel->radius);
  } else {
    const Point other = half_outline(sets.nozzle);
    facing = {std::min(facing.x, other.x), std::min(facing.y, other.y)};
  }
  if (area_ > 0) change_ = {facing.y / area_, facing.x / area_};
}

void OffsetCover::row(const Steps& xs, double y, std::span<double> shares) const {
  moved_.row(xs, y, shares);
  for (int column = 0; column < xs.count; ++column) {
    double& share = shares[static_cast<std::size_t>(column)];
    if (disc_) share = disc_->area(center_ + Point{xs.at(column), y}) - share;
    share = std::clamp(share / area_, 0.0, 1.0);
  }
}

}  // namespace leeway
