#pragma once
// Which numbers of the machines move the ends of the window.

#include <vector>

#include "leeway/bracket.h"
#include "tasks/bracket/bracket_problem.h"

namespace leeway {

// At most five, those that move an end most first: of the limits that stop an offset there each
// number is changed and the window looked for again. Throws what BracketProblem throws, and
// Stopped.
std::vector<BracketInfluence> influences_on(const BracketProblem& problem,
                                            const BracketWindow& window, const Progress& progress);

}  // namespace leeway
