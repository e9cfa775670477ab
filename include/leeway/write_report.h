#pragma once
// The report: one HTML file that holds everything there is to say of a setup.

#include <string>
#include <variant>

#include "leeway/draw.h"
#include "leeway/explain.h"
#include "leeway/fit.h"
#include "leeway/numbers_to_enter.h"
#include "leeway/write_bracket.h"
#include "leeway/write_check.h"

namespace leeway {

// What fit found; or a sentence, without capital and full stop, why it did not look (FitRefused).
using FitOrWhyNot = std::variant<FitResult, std::string>;

// Up to so many points are listed all; of more, those that fail, the tightest and home.
inline constexpr std::size_t kMostPointsListed = 200;

// Summary, cautions, plan, table of points, why points fail, and the numbers to enter. The page
// asks for nothing else, holds under a strict content security policy, and needs no script: one
// only joins the points of plan and table where scripts run. The same input gives the same bytes.
//
// The numbers to enter are those of the setup's own grid, `own`, where that is reachable at every
// point and its moves are not known to be blocked; else those of the fit, and the page says so.
//
// `mount` is what bracket has of this setup alone, and adds a section where it has a map. `options`
// are for the plan; the date stands at the end. REQUIRES: all results are of this setup. Throws
// what Regions throws.
void write_report_html(const ExplainResult& explained, const FitOrWhyNot& fitted,
                       const NumbersToEnter& own, const BracketReport& mount, const Rig& rig,
                       const DrawOptions& options, const TextSink& sink);

}  // namespace leeway
