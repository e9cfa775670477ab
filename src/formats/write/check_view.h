#pragma once
// What text and Markdown show of a check: which points, in which order, and the sentences around
// them.

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "formats/text/words.h"

namespace leeway {

// As many failing points, and as many blocked moves, as a person reads.
inline constexpr std::size_t kMostPointsShown = 40;
inline constexpr std::size_t kMostMovesShown = 20;

// Which of two points that fail is the worse: the unreachable ones by leeway, then the marginal
// ones by leeway less guard. Indices into the result.
bool worse_failure(const CheckResult& result, std::size_t a, std::size_t b);

// The points that fail, as indices into the result: the unreachable ones by leeway, then the
// marginal ones by leeway less guard, worst first; at most `most` of them.
std::vector<std::size_t> failing_points(const CheckResult& result, std::size_t most);

// The reachable point with the least leeway less guard; nothing when no point passes.
std::optional<std::size_t> tightest_point(const CheckResult& result);

// The homing point; nothing when none was asked for.
std::optional<std::size_t> home_point(const CheckResult& result);

// The points that are named: those that fail, the tightest that passes, and home.
std::vector<std::size_t> named_points(const CheckResult& result, std::vector<std::size_t> failing);

// "0.6 of room to the right end of the nozzle's travel; the stated uncertainty asks for 0.2".
std::string room_sentence(const CheckedPoint& point, const Words& words);

// A sentence to follow another, behind a blank, where no guard is kept; else empty.
std::string unguarded_sentence(const Words& words);

// Each is a sentence or two, with capital and full stop; empty when there is nothing to say.
std::string tightest_sentence(const CheckResult& result, const Words& words);
std::string coverage_sentence(const CheckResult& result, const Setup& setup);
std::string home_sentence(const CheckResult& result, const Words& words);
// "would run into", or "may run into" where only a guard band is missed.
const char* runs_into(const CheckedMoves& moves);
std::string moves_sentence(const CheckResult& result, const Setup& setup, const Words& words);

// "20 left, 17 back": only those that there are, else "none".
std::string strips_words(const UncoveredStrips& uncovered);

// The same in a line each, as far as names let them.
std::string coverage_line(const CheckResult& result);
std::string home_line(const CheckResult& result, const Words& words);
std::string moves_line(const CheckResult& result, const Setup& setup, const Words& words);

std::vector<std::string> empty_region_sentences(const CheckResult& result);

// "And 12 more; --format csv lists all 52 among the points."; empty when all are shown.
std::string more_points_sentence(std::size_t all, std::size_t shown);
std::string more_moves_sentence(std::size_t all, std::size_t shown);

// In which units everything is told, and where positions are meant.
const char* units_sentence();

// The same in a line, with its newline.
const char* units_line();

// What to mind before trying any of it at the machine.
const char* caution();

}  // namespace leeway
