#include "formats/write/check_view.h"

#include <fmt/format.h>

#include <algorithm>

#include "formats/text/numbers.h"

namespace leeway {
namespace {

double spare(const Finding& finding) { return finding.leeway - finding.guard; }

// How bad a failing point is, least first.
double rank(const Finding& finding) {
  return finding.verdict == Verdict::unreachable ? finding.leeway : spare(finding);
}

std::string uncovered_words(const UncoveredStrips& uncovered) {
  std::vector<std::string> strips;
  const auto add = [&](double width, const char* where) {
    if (rounded(width) > 0) strips.push_back(at_least(width) + where);
  };
  add(uncovered.left, " on the left");
  add(uncovered.right, " on the right");
  add(uncovered.front, " at the front");
  add(uncovered.back, " at the back");
  return joined(strips);
}

std::size_t failing_grid_points(const CheckResult& result) {
  return static_cast<std::size_t>(
      std::count_if(result.points.begin(), result.points.end(), [](const CheckedPoint& point) {
        return point.row > 0 && point.finding.verdict != Verdict::reachable;
      }));
}

// The height that is enough, where anything asks for one; begins with a blank.
std::string height_words(const CheckedMoves& moves, const Words& words) {
  if (!moves.safe.why) return "";
  if (!moves.safe.least)
    return fmt::format(" No height is enough: {}.", words.stop(*moves.safe.why));
  return fmt::format(" {} would be enough.", at_least(*moves.safe.least));
}

std::string unjudged_words(const CheckedMoves& moves, const Words& words) {
  if (!moves.safe.why) return "Nothing is in the way of the moves between the points.";
  if (!moves.safe.least) return "Moves:" + height_words(moves, words);
  return fmt::format(
      "Moves need the nozzle {} above the bed; state travel_height to have them judged.",
      at_least(*moves.safe.least));
}

}  // namespace

bool worse_failure(const CheckResult& result, std::size_t a, std::size_t b) {
  const Finding& first = result.points[a].finding;
  const Finding& second = result.points[b].finding;
  if (first.verdict != second.verdict) return first.verdict > second.verdict;
  if (rank(first) != rank(second)) return rank(first) < rank(second);
  return a < b;
}

std::vector<std::size_t> failing_points(const CheckResult& result, std::size_t most) {
  std::vector<std::size_t> failing;
  failing.reserve(result.counts.marginal + result.counts.unreachable);
  for (std::size_t i = 0; i < result.points.size(); ++i) {
    if (result.points[i].finding.verdict != Verdict::reachable) failing.push_back(i);
  }
  const auto worse = [&](std::size_t a, std::size_t b) { return worse_failure(result, a, b); };
  const std::size_t shown = std::min(most, failing.size());
  std::partial_sort(failing.begin(), failing.begin() + static_cast<std::ptrdiff_t>(shown),
                    failing.end(), worse);
  failing.resize(shown);
  return failing;
}

std::optional<std::size_t> tightest_point(const CheckResult& result) {
  std::optional<std::size_t> tightest;
  for (std::size_t i = 0; i < result.points.size(); ++i) {
    const Finding& finding = result.points[i].finding;
    if (finding.verdict != Verdict::reachable) continue;
    if (!tightest || spare(finding) < spare(result.points[*tightest].finding)) tightest = i;
  }
  return tightest;
}

std::optional<std::size_t> home_point(const CheckResult& result) {
  if (result.points.empty()) return std::nullopt;
  const std::size_t last = result.points.size() - 1;
  const CheckedPoint& point = result.points[last];
  if (point.column > 0 || point.name_index != kHomeIndex) return std::nullopt;
  return last;
}

std::vector<std::size_t> named_points(const CheckResult& result, std::vector<std::size_t> failing) {
  for (const std::optional<std::size_t>& more : {tightest_point(result), home_point(result)}) {
    if (more && std::find(failing.begin(), failing.end(), *more) == failing.end()) {
      failing.push_back(*more);
    }
  }
  return failing;
}

std::string room_sentence(const CheckedPoint& point, const Words& words) {
  const Finding& finding = point.finding;
  if (finding.guard <= 0) return words.room(finding);
  return fmt::format("{}; the stated uncertainty asks for {} of it", words.room(finding),
                     at_least(finding.guard));
}

std::string unguarded_sentence(const Words& words) {
  if (words.states_uncertainty()) return "";
  return " No uncertainty is stated, so no guard band is kept: give the probe an "
         "offset_uncertainty.";
}

std::string tightest_sentence(const CheckResult& result, const Words& words) {
  const std::optional<std::size_t> tightest = tightest_point(result);
  if (!tightest) return "";
  const CheckedPoint& point = result.points[*tightest];
  return fmt::format("The tightest point that passes is {}, probe at {}: {}.{}", words.point(point),
                     pair(point.probe), room_sentence(point, words), unguarded_sentence(words));
}

std::string coverage_sentence(const CheckResult& result, const Setup& setup) {
  if (!result.coverage || !setup.request.grid) return "";
  if (!result.coverage->fraction) {
    return "Coverage: nothing can be printed with this setup, so there is nothing to cover.";
  }
  const Box mesh = grid_bounds_for_probe(setup, *setup.request.grid);
  const std::string uncovered = uncovered_words(result.coverage->uncovered);
  const std::string strips =
      uncovered.empty() ? "It leaves no uncovered strip"
                        : "Uncovered strips, printable but outside the mesh bounds: " + uncovered;
  const std::size_t failing = failing_grid_points(result);
  const std::string less = failing == 0
                               ? ""
                               : fmt::format(" {} of its points {}, so it will cover less.",
                                             failing, failing == 1 ? "fails" : "fail");
  return fmt::format(
      "Coverage: the mesh bounds as asked for, x {} to {} and y {} to {} for the probe, cover {} "
      "% of what can be printed. {}.{}",
      decimal(mesh.x0), decimal(mesh.x1), decimal(mesh.y0), decimal(mesh.y1),
      percent(*result.coverage->fraction), strips, less);
}

std::string home_sentence(const CheckResult& result, const Words& words) {
  const std::optional<std::size_t> home = home_point(result);
  if (!home) return "";
  const CheckedPoint& point = result.points[*home];
  const Verdict verdict = point.finding.verdict;
  const std::string why = verdict == Verdict::reachable
                              ? room_sentence(point, words)
                              : words.reason(point) + "; " + words.nearest(point);
  const char* advice = verdict == Verdict::reachable
                           ? "Watch the first time: homing with the probe off the bed drives the "
                             "nozzle into it."
                           : "Do not home there: homing with the probe off the bed drives the "
                             "nozzle into it.";
  return fmt::format("Homing with the nozzle at {} puts the probe at {}: {}, {}. {}",
                     pair(words.nozzle(point.probe)), pair(point.probe), word(verdict), why,
                     advice);
}

std::string moves_sentence(const CheckResult& result, const Setup& setup, const Words& words) {
  const CheckedMoves& moves = result.moves;
  if (moves.count == 0) return "";
  if (!moves.judged) return unjudged_words(moves, words);
  const std::string height =
      fmt::format("with the nozzle {} above the bed", decimal(*setup.probe.travel_height));
  const char* noun = moves.count == 1 ? "move" : "moves";
  std::string out;
  if (!moves.blocked.empty() && moves.count == 1) {
    out = fmt::format("the one straight move {} something", runs_into(moves));
  } else if (!moves.blocked.empty()) {
    out = fmt::format("{} of {} straight moves {} something", moves.blocked.size(), moves.count,
                      runs_into(moves));
  } else if (moves.drags) {
    out = "the probe or the head would drag over the bed";
  } else {
    out = fmt::format("{} straight {}, all clear", moves.count, noun);
  }
  return fmt::format("Moves: {} {}.{}", out, height, height_words(moves, words));
}

const char* runs_into(const CheckedMoves& moves) {
  const bool sure = std::any_of(moves.blocked.begin(), moves.blocked.end(),
                                [](const BlockedMove& move) { return move.stop.leeway < 0; });
  return sure ? "would run into" : "may run into";
}

std::string strips_words(const UncoveredStrips& uncovered) {
  std::vector<std::string> strips;
  const auto add = [&strips](double width, const char* side) {
    if (rounded(width) > 0) strips.push_back(fmt::format("{} {}", at_least(width), side));
  };
  add(uncovered.left, "left");
  add(uncovered.right, "right");
  add(uncovered.front, "front");
  add(uncovered.back, "back");
  return strips.empty() ? "none" : fmt::format("{}", fmt::join(strips, ", "));
}

std::string coverage_line(const CheckResult& result) {
  if (!result.coverage) return "";
  if (!result.coverage->fraction) return "Coverage: nothing can be printed with this setup.";
  const std::string share = percent(*result.coverage->fraction);
  const std::string lead = failing_grid_points(result) > 0
                               ? fmt::format("Coverage once all points work: {} %", share)
                               : fmt::format("Coverage: {} % of the printable area", share);
  return fmt::format("{}; uncovered strips: {}.", lead, strips_words(result.coverage->uncovered));
}

std::string home_line(const CheckResult& result, const Words& words) {
  const std::optional<std::size_t> home = home_point(result);
  if (!home) return "";
  const CheckedPoint& point = result.points[*home];
  const std::string where =
      fmt::format("Homing: nozzle at {} (probe {}): {}", pair(words.nozzle(point.probe)),
                  pair(point.probe), word(point.finding.verdict));
  if (point.finding.verdict == Verdict::reachable) {
    return fmt::format("{}, leeway {}. Watch the first time.", where,
                       at_most(point.finding.leeway));
  }
  return where + ". Do not home there: it would drive the nozzle into the bed.";
}

std::string moves_line(const CheckResult& result, const Setup& setup, const Words& words) {
  const std::string moves = moves_sentence(result, setup, words);
  if (result.moves.blocked.empty()) return moves;
  const BlockedMove& first = result.moves.blocked.front();
  return fmt::format("{} The first is from {} to {}: {}.", moves,
                     words.point(result.points[first.from]), words.point(result.points[first.to]),
                     words.stop(first.stop));
}

std::vector<std::string> empty_region_sentences(const CheckResult& result) {
  std::vector<std::string> reasons;
  for (const RegionSummary& region : result.regions) {
    if (!region.why_empty) continue;
    if (std::find(reasons.begin(), reasons.end(), *region.why_empty) == reasons.end()) {
      reasons.push_back(*region.why_empty);
    }
  }
  for (std::string& reason : reasons) {
    std::vector<std::string> kinds;
    for (const RegionSummary& region : result.regions) {
      if (region.why_empty == reason) kinds.emplace_back(word(region.kind));
    }
    for (std::string& kind : kinds) std::replace(kind.begin(), kind.end(), '_', '-');
    reason = fmt::format("The {} region{} empty: {}.", joined(kinds),
                         kinds.size() > 1 ? "s are" : " is", reason);
  }
  return reasons;
}

std::string more_points_sentence(std::size_t all, std::size_t shown) {
  if (all <= shown) return "";
  return fmt::format("And {} more; --format csv lists every point.", all - shown);
}

std::string more_moves_sentence(std::size_t all, std::size_t shown) {
  if (all <= shown) return "";
  return fmt::format("And {} more; --format json lists them all.", all - shown);
}

const char* units_sentence() {
  return "Lengths are in mm, positions those of the probe unless they say nozzle. Leeway: how far "
         "it could still go before something stops it.";
}

const char* units_line() {
  return "In mm, for the probe. Leeway: how far it could still go before something stops it.\n";
}

const char* caution() {
  return "Before you try it at the machine: let it cool, move slowly, keep fingers out of its "
         "reach, "
         "and keep within reach of the power switch. Its manual comes first; leave mains wiring to "
         "qualified people.";
}

}  // namespace leeway
