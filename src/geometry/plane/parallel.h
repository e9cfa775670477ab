#pragma once
// Work that may be done at the same time. Nothing else starts threads.
//
// Built with LEEWAY_NO_THREADS (CMake: LEEWAY_THREADS=OFF) everything runs in the calling thread,
// as where there are no threads.

#include <cstddef>
#include <functional>

namespace leeway {

// Into how many parts a large work is best split: one for each processor that may be used, few
// even where there are many.
std::size_t parallel_parts();

// Calls work(0), ..., work(parts - 1), the first in the calling thread, and returns when all have
// ended. What one of them throws is thrown then; of several the first in order.
void in_parallel(std::size_t parts, const std::function<void(std::size_t)>& work);

}  // namespace leeway
