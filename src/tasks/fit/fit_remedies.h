#pragma once
// What to say where nothing fits.

#include "tasks/fit/fit_problem.h"

namespace leeway {

// The limit that stops it: of the place with most room where no place is reachable, else of the
// worst point of the mesh that the options ask for.
FitLimiting limiting_for(const FitTask& task);

// For each parameter the least change of it alone that lets something fit, found by trying: counts
// one by one, edge distance and coverage factor to 0.01, the offset by the shortest move in 16
// directions, to 0.1 mm. A parameter that remedies nothing is left out.
std::vector<FitRemedy> remedies_for(const FitTask& task);

}  // namespace leeway
