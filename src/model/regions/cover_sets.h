#pragma once
// What the share of the printable area that the probe can reach is made of:
//   area(P and S and (N + o)) / area(P),
// as with a probe that is stowed while printing.
// Of the three only N moves with the offset o.

#include <optional>

#include "leeway/rig.h"

namespace leeway {

struct CoverSets {
  double printable_area = 0;  // P, mm2
  MultiPolygon ground;        // P and S; S with the limits of the probe's body
  MultiPolygon nozzle;        // N, where the travel is no disc
  // Where it is: the true disc, and what of it is not N.
  std::optional<Disc> travel;
  MultiPolygon blocked;
};

// Without guards, in whole micrometres and on the safe side. Throws SetupTooDetailed, OverlayFault.
CoverSets cover_sets(const Rig& rig);

}  // namespace leeway
