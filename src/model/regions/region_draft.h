#pragma once
// How a region comes about: what allows is intersected, what forbids is united and subtracted once.
// All on the safe side (geometry/growth.h), on the lattice of whole micrometres.

#include <optional>
#include <vector>

#include "geometry/growth/growth.h"
#include "leeway/setup.h"
#include "model/limits/limit_list.h"

namespace leeway {

class RegionDraft {
 public:
  void allow(std::optional<Polygon> polygon);
  void allow(MultiPolygon polygons) { allowed_.push_back(std::move(polygons)); }
  void allow_disc(const Disc& disc) { discs_.push_back(disc); }
  void forbid(std::vector<Polygon> parts);
  const std::vector<Polygon>& forbidden() const { return forbidden_; }

  // What is allowed and not forbidden. REQUIRES: something was allowed. Throws OverlayFault.
  MultiPolygon finish() const;
  // Whether that is nothing, without working out what it is: only as much is taken away as it takes
  // to leave nothing, or to leave a place that all of it spares. Up to slivers of a micrometre.
  bool leaves_nothing() const;

 private:
  MultiPolygon all_allowed() const;
  std::vector<Polygon> forbidden_near(const Box& box) const;

  std::vector<MultiPolygon> allowed_;
  std::vector<Disc> discs_;  // allowed too
  std::vector<Polygon> forbidden_;
};

// Allows the positions at which all of `spot` lies in `shape`, as far from its edge as the growth
// says.
void shrink(const Shape& shape, const Shape& spot, const Growth& growth, SweptSets& swept_sets,
            RegionDraft& draft);

// The same for a single point.
void shrink(const Shape& shape, const Growth& growth, RegionDraft& draft);

// Whether the uncertainty is taken off too.
enum class Guarded : bool { no, yes };
Spread spread_if(Guarded guarded, const Spread& spread);

// Forbids the probe positions at which the sensing spot comes too near an obstacle.
void forbid_obstacles(const Setup& setup, Guarded guarded, SweptSets& swept_sets,
                      RegionDraft& draft);

// Forbids the positions at which one of `parts` would come down on an obstacle while the nozzle is
// `nozzle_height` above the bed. The positions are of what the parts are relative to, moved by
// `offset` where that is the nozzle.
void forbid_head(const Setup& setup, const std::vector<MovingPart>& parts, double nozzle_height,
                 Point offset, Guarded guarded, SweptSets& swept_sets, RegionDraft& draft);

// Allows where the spot is over the bed, its edge distance kept.
void shrink_bed(const Setup& setup, Guarded guarded, SweptSets& swept_sets, RegionDraft& draft);

// Allows where the spot is over the bed and forbids where it is near an obstacle.
void sense(const Setup& setup, Guarded guarded, SweptSets& swept_sets, RegionDraft& draft);

}  // namespace leeway
