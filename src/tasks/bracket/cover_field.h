#pragma once
// The coverage of offsets, of sets that are there already.

#include "leeway/offset_field.h"
#include "model/regions/cover_sets.h"

namespace leeway {

// As the one of offset_field.h.
std::optional<OffsetField> offset_field(const CoverSets& sets, const Steps& x, const Steps& y,
                                        const Progress& progress);

}  // namespace leeway
