#pragma once
// The best bounds of a mesh on a lattice of bounds: branch and bound.

#include "tasks/fit/fit_mesh.h"

namespace leeway {

// The best of all choices of sides whose mesh covers something that can be printed; nothing when
// there is none.
std::optional<FoundMesh> best_mesh(const FitProblem& problem);

// Whether there is one.
bool has_mesh(const FitProblem& problem);

}  // namespace leeway
