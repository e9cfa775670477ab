#pragma once
// From a setup and the options of `fit` to a search.

#include "leeway/fit.h"
#include "tasks/fit/fit_search.h"

namespace leeway {

// All that a search needs, kept together. Throws FitRefused where there is nothing to look for.
struct FitTask {
  FitTask(const Setup& setup, const FitOptions& options);
  FitTask(const FitTask&) = delete;
  FitTask& operator=(const FitTask&) = delete;

  const Setup& setup;
  const FitOptions& options;
  Limits limits;
  Regions regions;
  FitProblem problem;
};

// The best mesh of the task, uniform or not; nothing when nothing fits.
std::optional<FoundMesh> best_for(const FitTask& task);

// The margin of the best mesh with the same margin on all sides; nothing when there is none.
std::optional<double> uniform_margin(const FitTask& task);

FitMesh describe(const FitTask& task, const FoundMesh& found);

}  // namespace leeway
