#pragma once
// The nearest offset that works, without all else that `bracket` tells.

#include <optional>

#include "leeway/setup.h"

namespace leeway {

// Of the window of offsets of a valid setup, that nearest to its own, to the hundredth or
// thousandth of a millimetre and verified; nothing where no offset works for all points. Throws
// SetupTooDetailed.
std::optional<Point> nearest_in_window(const Setup& setup);

}  // namespace leeway
