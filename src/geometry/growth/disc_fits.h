#pragma once
// Whether a disc fits somewhere.

#include "geometry/distance/field.h"

namespace leeway {

// Whether some position in `box` is at least `radius` from the edge of what is allowed. Decided by
// splitting the box; where that does not decide within a fixed effort (a disc that fits exactly in
// a long slot, say) the answer is yes.
bool disc_fits(const Field& allowed, const Box& box, double radius);

}  // namespace leeway
