#pragma once
// Coverage against leeway over the whole window.

#include <optional>
#include <vector>

#include "leeway/bracket.h"
#include "tasks/bracket/bracket_problem.h"
#include "tasks/bracket/offset_cover.h"

namespace leeway {

struct Trades {
  std::vector<BracketTrade> curve;     // as in bracket.h; at least one
  std::optional<BracketTrade> wanted;  // the best with at least the leeway that was wanted
};

// Of several setups with the least coverage at each offset. `covers` has one a setup; `middle` is
// an offset that works and has the most leeway; `bounds` holds the window. REQUIRES: every cover
// has a printable area. Throws Stopped.
Trades trade_off(const BracketProblem& problem, const std::vector<OffsetCover>& covers,
                 const Box& bounds, Point middle, const BracketOptions& options);

// The same where the window is as thin as a line: of these offsets, which work; at least one.
Trades trade_off_along(const BracketProblem& problem, const std::vector<OffsetCover>& covers,
                       const std::vector<Point>& offsets, const BracketOptions& options);

// The least share of all setups.
double common_share(const std::vector<OffsetCover>& covers, Point offset);

// Which trade stands out most over the straight line from the first to the last, both axes scaled
// to the curve (the "knee": Satopaa, Albrecht, Irwin and Raghavan, "Finding a Kneedle in a
// Haystack", ICDCSW 2011; from memory). The first where nothing stands out.
std::size_t knee_of(const std::vector<BracketTrade>& curve);

}  // namespace leeway
