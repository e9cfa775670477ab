#pragma once
// An order in which a way over places is short.

#include <cstddef>
#include <optional>
#include <vector>

#include "leeway/geometry.h"

namespace leeway {

// Indices into `places`. The way begins at `start`, or at any of the places. It is never longer
// than the way over the places as they stand.
std::vector<std::size_t> short_order(const std::vector<Point>& places,
                                     const std::optional<Point>& start);

}  // namespace leeway
