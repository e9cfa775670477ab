#pragma once
// The regions as polygons: for areas, drawings and searches, never for a verdict.

#include <memory>
#include <optional>
#include <string>

#include "leeway/limits.h"
#include "leeway/setup.h"

namespace leeway {

enum class RegionKind { bed, printable, sensing, within_limits, reachable };
inline constexpr int kRegionKinds = 5;

// "bed", "printable", "sensing", "within_limits", "reachable".
const char* word(RegionKind kind);

// The regions of a setup, each computed when it is first asked for. All are in bed coordinates:
// where the probe may be, or (printable) where the nozzle may print. Vertices are whole
// micrometres, circles are polygons on the safe side (inscribed where they allow, circumscribed
// where they forbid), and so is every rounding of a side. A vertex may stand outside the true
// region by 0.001 mm where slanted sides cross, by 0.01 mm where the guard varies much with
// direction.
//
// A copy shares what has been computed. Not thread-safe. Throws OverlayFault when the overlay fails
// its own checks in every way of computing it: a wrong region is never returned.
class Regions {
 public:
  // Throws InvalidSetup (validate.h).
  explicit Regions(const Setup& setup);
  // The same, sharing with the limits of the same machine and probe what is swept.
  Regions(const Setup& setup, const Limits& limits);

  // The regions with another offset from nozzle to probe: bed, printable and sensing are shared.
  Regions at(Point offset) const;

  // Valid as long as these regions, or a copy, live. The first call computes: some milliseconds
  // where outlines are heavy.
  const MultiPolygon& get(RegionKind kind) const;

  // In words, why a region is empty; nothing when it is not.
  std::optional<std::string> why_empty(RegionKind kind) const;

 private:
  struct Fixed;
  struct Moving;
  Regions(const Setup& setup, std::shared_ptr<SweptSets> swept_sets);

  std::shared_ptr<Fixed> fixed_;    // whatever the offset
  std::shared_ptr<Moving> moving_;  // with it
};

// In mm2; 0 for the empty region.
double area(const MultiPolygon& region);

// The area of the part of a region inside a box.
double area_within(const MultiPolygon& region, const Box& box);

// The smallest box around a region; nothing when it is empty.
std::optional<Box> bounds(const MultiPolygon& region);

// The point of a closed region nearest to `p` (`p` itself when inside); nothing when it is empty,
// or when `p` is no position (limits.h).
std::optional<Point> closest_point(const MultiPolygon& region, Point p);

}  // namespace leeway
