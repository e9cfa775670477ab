#pragma once
// The share of the printable area that the probe can reach, at any offset, of one setup.

#include <optional>
#include <span>

#include "geometry/areas/shifted_overlap.h"
#include "leeway/setup.h"
#include "model/regions/cover_sets.h"

namespace leeway {

class OffsetCover {
 public:
  // Throws SetupTooDetailed, OverlayFault.
  explicit OffsetCover(const Rig& rig);

  // mm2. Where it is 0 there is nothing to cover.
  double printable_area() const { return area_; }

  // The shares at the offsets (xs, y), as coverage_map.h has them. REQUIRES: printable_area() > 0,
  // shares.size() == xs.count.
  void row(const Steps& xs, double y, std::span<double> shares) const;

  // How much a millimetre of the offset changes the share at most, along x and along y.
  Point most_change() const { return change_; }

 private:
  explicit OffsetCover(const CoverSets& sets);

  double area_;
  ShiftedOverlap moved_;
  Point center_;                     // of the disc of travel
  std::optional<DiscOverlap> disc_;  // where the travel is one: what moves is then what blocks
  Point change_;
};

}  // namespace leeway
