#pragma once
// The offset that reaches most, where none reaches all.

#include <optional>

#include "tasks/bracket/bracket_problem.h"

namespace leeway {

struct MostReached {
  Point offset;                     // in hundredths or thousandths of a millimetre where those do
  std::vector<std::size_t> missed;  // of within_reach()
  std::size_t at_most = 0;          // no offset reaches more points
  double leeway = 0;                // with the points that it reaches
};

// The depth of the arrangement of the points' own windows, by branch and bound over squares of
// offsets: what an offset leaves a point changes by no more than 1 mm per mm. Squares of less than
// a micrometre that still may hold more are not looked into, and the work is bounded. Then
// `at_most` is more than what is reached. Of equal ones that with most leeway, to within 0.05 mm.
// Nothing where no offset reaches any point. Throws Stopped.
std::optional<MostReached> most_reached(const BracketProblem& problem, const Progress& progress);

}  // namespace leeway
