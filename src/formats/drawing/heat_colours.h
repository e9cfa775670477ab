#pragma once
// The colours of a quantity: cividis, even to the eye and the same order for people with any of the
// usual colour vision (Nunez, Anderton and Renslow, "Optimizing colormaps with consideration for
// color vision deficiency to enable accurate interpretation of scientific data", PLoS ONE 13(7),
// 2018, e0199239).

#include <string>

namespace leeway {

// The colour of a share from 0 to 1, as "#7c7b78": the authors' table at entries 0, 64, 128, 192
// and 255, straight lines between (the scale is made nearly straight).
std::string heat_colour(double share);

}  // namespace leeway
