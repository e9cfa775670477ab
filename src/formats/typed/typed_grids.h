#pragma once
// Several grids to compare, as someone typed them: counts and spacings as ranges.

#include <optional>
#include <vector>

#include "formats/typed/typed_fit.h"
#include "leeway/compare_grids.h"

namespace leeway {

// Whether columns, rows or the spacing are ranges: 3..9.
bool asks_for_several(const TypedFit& typed);

struct ReadGrids {
  std::vector<GridWanted> wanted;
  std::optional<TypedFault> fault;  // the first; then the grids are of no use
};

// Every pair of "3..9" columns and "3..9" rows, either of which may be a single number or left out;
// or spacings "20..50" in steps of 1 mm, or of what stands behind a slash: "20..50/5".
ReadGrids typed_grids(const TypedFit& typed);

}  // namespace leeway
