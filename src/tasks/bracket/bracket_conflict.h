#pragma once
// Why a window is empty, and how much smaller the grids would have to be.

#include "tasks/bracket/bracket_problem.h"

namespace leeway {

// Points without a common offset, of which none can be left out. None where the mounts alone leave
// no place. REQUIRES: the window of all points is empty.
std::vector<BracketPoint> conflict_of(const BracketProblem& problem, const Progress& progress);

// In hundredths of a millimetre, the least amount found on a scan outward. Throws Stopped.
BracketShrink shrink_of(const BracketProblem& problem, const Progress& progress);

}  // namespace leeway
