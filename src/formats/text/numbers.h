#pragma once
// Numbers as text. All values are lengths in mm or plain ratios; "-0" is never written.

#include <optional>
#include <string>
#include <string_view>

#include "leeway/geometry.h"

namespace leeway {

// The value rounded to 1e-6, the step in which leeways are compared; never -0. Values beyond
// 1e9 come back as they are.
double rounded(double value);

// For programs (JSON, CSV): rounded to 1e-6, in the fewest digits. REQUIRES: finite.
std::string shortest(double value);

// For people: the nearest number of at most 3 decimals (6 when `fine`), trailing zeros trimmed.
std::string decimal(double value, bool fine = false);

// For people, the size of a shortfall or of what is asked for: never understated. 3 decimals
// rounded up, or 6 where 3 would say more than a tenth too much. REQUIRES: value >= 0.
std::string at_least(double value);

// For people, the size of what is left over: never overstated. 3 decimals rounded down, or 6
// below 0.001, so that only nothing is called 0. REQUIRES: value >= 0.
std::string at_most(double value);

// A leeway of either sign, never flattered: at_most when >= 0, else minus at_least; "none" for
// minus infinity, which is what a set without any position has.
std::string signed_amount(double leeway);

// A fraction as a percentage of at most one decimal, rounded down: "82", "99.9".
std::string percent(double fraction);

// A decimal number that fills the whole text, with a point; nothing for anything else, or for what
// is not finite.
std::optional<double> number_in(std::string_view text);

// "1 point", "19 points".
std::string counted(std::size_t count, std::string_view what);

// "248.5, 8".
std::string pair(Point p);

// The same as it is, with up to 6 decimals: for what is checked as it is told.
std::string exact_pair(Point p);

}  // namespace leeway
