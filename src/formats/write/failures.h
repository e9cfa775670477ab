#pragma once
// The points that fail, gathered: a whole column or row of the grid in one.

#include <cstddef>
#include <string>
#include <vector>

#include "formats/text/words.h"

namespace leeway {

struct FailureGroup {
  std::string who;        // "column 5, all 5 rows", "grid 2,1", "front left screw, at 32, 28"
  std::size_t worst = 0;  // index into the result's points
  bool alike = true;      // all of them fail at one limit, by the same amount
};

// Columns before rows; a column or row counts as whole when every point of it that was judged
// fails, and there are two at least. Then what is left, point by point. Worst first in each.
std::vector<FailureGroup> failure_groups(const CheckResult& result, const Setup& setup,
                                         const Words& words);

}  // namespace leeway
