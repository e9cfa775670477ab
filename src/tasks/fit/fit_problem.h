#pragma once
// From a setup and the options of `fit` to a search.

#include "leeway/fit.h"
#include "leeway/rig.h"
#include "tasks/fit/fit_search.h"
#include "tasks/fit/move_ground.h"

namespace leeway {

// All that a search needs, kept together.
struct FitTask {
  // Throws FitRefused where there is nothing to look for.
  FitTask(const Rig& rig, const FitOptions& options);
  FitTask(const FitTask&) = delete;
  FitTask& operator=(const FitTask&) = delete;

  const Rig stated;  // of what is asked for; results tell its leeway
  const Rig rig;     // in which is reachable what keeps options.keep
  const Setup& setup;
  const FitOptions& options;
  const Limits& limits;
  const Regions& regions;
  FitProblem problem;

  // From here on the moves over a mesh must be clear at the stated travel height.
  void count_moves();

 private:
  std::optional<MoveGround> moves;
};

// How far a guarded region may lie within the true one (growth.h), with some to spare, in mm.
double shortfall_of(const Setup& setup);

// The best mesh of the task, uniform or not; nothing when nothing fits.
std::optional<FoundMesh> best_for(const FitTask& task);

// Whether there is one: sooner told.
bool fits(const FitTask& task);

// The margin of the best mesh with the same margin on all sides; nothing when there is none.
std::optional<double> uniform_margin(const FitTask& task);

// What a mesh is worth, and which of its points is the tightest.
FitMesh fit_mesh_of(const FitTask& task, const FoundMesh& found);

}  // namespace leeway
