#pragma once
// From a setup and the options of `fit` to a search.

#include <memory>

#include "leeway/fit.h"
#include "tasks/fit/fit_search.h"

namespace leeway {

// All that a search needs, kept together.
struct FitTask {
  // Throws FitRefused where there is nothing to look for.
  FitTask(const Setup& setup, const FitOptions& options);
  // Another question about the same setup: what is known of that is shared.
  FitTask(const FitTask& same, const FitOptions& options);
  FitTask(const FitTask&) = delete;
  FitTask& operator=(const FitTask&) = delete;

  const Setup& setup;
  const FitOptions& options;

 private:
  std::shared_ptr<const Limits> limits_;
  std::shared_ptr<const Regions> regions_;

 public:
  const Limits& limits;
  const Regions& regions;
  FitProblem problem;
};

// The best mesh of the task, uniform or not; nothing when nothing fits.
std::optional<FoundMesh> best_for(const FitTask& task);

// Whether there is one: sooner told.
bool fits(const FitTask& task);

// The margin of the best mesh with the same margin on all sides; nothing when there is none.
std::optional<double> uniform_margin(const FitTask& task);

FitMesh describe(const FitTask& task, const FoundMesh& found);

}  // namespace leeway
