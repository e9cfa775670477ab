#pragma once
// Where to home.

#include "leeway/fit.h"

namespace leeway {

// Of the places whose least leeway is `wanted` or more (and the largest guard or more, so that they
// are reachable) the one nearest the centre of the bed's bounding box, to 0.02 mm; where there is
// none, the place of greatest leeway, to 0.01 mm of leeway. In hundredths of a millimetre where
// that will do. Nothing when no place is reachable.
std::optional<FitHome> home_for(const Rig& rig, double wanted);

}  // namespace leeway
