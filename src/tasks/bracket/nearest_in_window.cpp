#include "tasks/bracket/nearest_in_window.h"

#include "tasks/bracket/bracket_problem.h"
#include "tasks/bracket/offset_finder.h"

namespace leeway {

std::optional<Point> nearest_in_window(const Setup& setup) {
  const BracketProblem problem({&setup, 1});
  if (problem.within_reach().empty() || !problem.out_of_reach().empty()) return std::nullopt;
  return OffsetFinder(problem, setup.probe.offset).nearest();
}

}  // namespace leeway
