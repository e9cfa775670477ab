#pragma once
// The coverage of offsets, of sets that are there already.

#include "leeway/coverage_map.h"
#include "model/regions/cover_sets.h"

namespace leeway {

// As the one of coverage_map.h.
std::optional<CoverageMap> coverage_map(const CoverSets& sets, const Steps& x, const Steps& y,
                                        const Progress& progress);

}  // namespace leeway
