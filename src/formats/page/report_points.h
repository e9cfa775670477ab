#pragma once
// The report's table of points.

#include <cstddef>
#include <string>
#include <vector>

#include "formats/text/words.h"
#include "leeway/write_check.h"

namespace leeway {

// The points that the table lists, as indices into the result: those that fail, worst first, then
// the others in their order. Of more than kMostPointsListed points only those that fail, at most
// that many, the tightest that passes, and home.
std::vector<std::size_t> listed_points(const CheckResult& result);

// What the table holds, where it does not hold all; else empty.
std::string listed_sentence(const CheckResult& result);

// The table, each row with the id "row-N" for point N of the result and a link to "#p-N".
void write_points_table(const CheckResult& result, const std::vector<std::size_t>& listed,
                        const Words& words, const TextSink& sink);

}  // namespace leeway
