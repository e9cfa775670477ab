#pragma once
// Coverage over leeway, as a small diagram.

#include "formats/drawing/svg.h"
#include "leeway/bracket.h"

namespace leeway {

inline constexpr double kCurveTall = 190;

// A diagram that is kCurveTall high, its upper left corner at `at`. What is named in it is marked
// as the map marks it: the most coverage, the knee, the most leeway.
void write_trade_off_curve(SvgWriter& svg, const BracketTradeOff& trade_off, Point at,
                           double width);

}  // namespace leeway
