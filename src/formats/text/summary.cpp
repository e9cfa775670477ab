#include "formats/text/summary.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <vector>

#include "formats/text/numbers.h"
#include "formats/write/check_view.h"

namespace leeway {
namespace {

constexpr std::size_t kMostRuns = 3;       // "columns 1, 3 and 5 to 7"
constexpr std::size_t kMostLostNames = 4;  // of points, columns and rows together

// How many points of each column (or row) there are, and how many are unreachable.
struct LineCounts {
  std::size_t all = 0;
  std::size_t bad = 0;

  bool lost() const { return all > 0 && bad == all; }
};

struct Lost {
  std::vector<LineCounts> columns;
  std::vector<LineCounts> rows;
  std::size_t all = 0;
  std::size_t bad = 0;
};

bool lost(const CheckedPoint& point) { return point.finding.verdict == Verdict::unreachable; }

Lost count_lost(const CheckResult& result, const Grid& grid) {
  Lost out;
  out.columns.resize(static_cast<std::size_t>(grid.columns));
  out.rows.resize(static_cast<std::size_t>(grid.rows));
  for (const CheckedPoint& point : result.points) {
    if (point.column <= 0) continue;
    const std::size_t bad = lost(point) ? 1 : 0;
    LineCounts& column = out.columns[static_cast<std::size_t>(point.column - 1)];
    LineCounts& row = out.rows[static_cast<std::size_t>(point.row - 1)];
    ++column.all;
    ++row.all;
    ++out.all;
    column.bad += bad;
    row.bad += bad;
    out.bad += bad;
  }
  return out;
}

// "column 5", "columns 4 and 5", "columns 1 to 3"; empty for none or for too many to say.
std::string lines_words(const std::vector<LineCounts>& lines, const char* kind) {
  std::vector<std::string> runs;
  std::size_t count = 0;
  for (std::size_t i = 0; i < lines.size(); ++i) {
    if (!lines[i].lost()) continue;
    std::size_t end = i;
    while (end + 1 < lines.size() && lines[end + 1].lost()) ++end;
    count += end - i + 1;
    runs.push_back(std::to_string(i + 1));
    if (end == i + 1) runs.push_back(std::to_string(end + 1));
    if (end > i + 1) runs.back() += fmt::format(" to {}", end + 1);
    i = end;
  }
  if (runs.empty() || runs.size() > kMostRuns) return "";
  return fmt::format("{}{} {}", kind, count > 1 ? "s" : "", joined(runs));
}

bool covered(const CheckedPoint& point, const Lost& lines, bool by_columns, bool by_rows) {
  return (by_columns && lines.columns[static_cast<std::size_t>(point.column - 1)].lost()) ||
         (by_rows && lines.rows[static_cast<std::size_t>(point.row - 1)].lost());
}

// What is out of reach: whole columns and rows, then single points; empty when that
// cannot be said shortly.
std::string lost_words(const CheckResult& result, const Words& words, const Lost& lines,
                       bool by_columns, bool by_rows) {
  std::vector<std::string> names;
  const bool all = lines.bad > 0 && lines.bad == lines.all;
  if (all) names.push_back("all points of the grid");
  if (!all && by_columns) names.push_back(lines_words(lines.columns, "column"));
  if (!all && by_rows) names.push_back(lines_words(lines.rows, "row"));
  if (std::count(names.begin(), names.end(), "") > 0) return "";
  for (const CheckedPoint& point : result.points) {
    if (!lost(point)) continue;
    if (point.column > 0 && (all || covered(point, lines, by_columns, by_rows))) continue;
    if (names.size() == kMostLostNames) return "";
    names.push_back(words.point(point));
  }
  return joined(names);
}

std::string lost_words(const CheckResult& result, const Setup& setup, const Words& words) {
  Lost lines;
  if (setup.request.grid) lines = count_lost(result, *setup.request.grid);
  std::string shortest;
  for (const auto& [by_columns, by_rows] : {std::pair(false, false), std::pair(true, false),
                                            std::pair(false, true), std::pair(true, true)}) {
    const std::string found = lost_words(result, words, lines, by_columns, by_rows);
    if (!found.empty() && (shortest.empty() || found.size() < shortest.size())) shortest = found;
  }
  return shortest;
}

std::string counts_words(const CheckResult& result) {
  const Counts& counts = result.counts;
  const std::size_t judged = result.points.size();
  std::string out;
  if (judged == 1) {
    out = fmt::format("the one point is {}", word(result.points[0].finding.verdict));
  } else if (counts.reachable == judged) {
    out = fmt::format("all {} points are reachable", judged);
  } else if (counts.unreachable == judged) {
    out = fmt::format("none of the {} points is reachable", judged);
  } else {
    out = fmt::format("{} of {} points reachable", counts.reachable, judged);
    if (counts.marginal > 0) out += fmt::format(", {} marginal", counts.marginal);
    if (counts.unreachable > 0) out += fmt::format(", {} unreachable", counts.unreachable);
  }
  if (counts.skipped > 0) out += fmt::format(" ({} more left out, off the bed)", counts.skipped);
  return out;
}

std::string leeway_left(double leeway) {
  return leeway > 0 ? at_most(leeway) + " mm of leeway" : "no leeway";
}

std::string nothing_judged(const CheckResult& result) {
  if (result.counts.skipped > 0) {
    return fmt::format(
        "all {} points of the grid lie off the bed and were left out, so that "
        "there is nothing to judge",
        result.counts.skipped);
  }
  for (const RegionSummary& region : result.regions) {
    if (region.kind != RegionKind::reachable) continue;
    if (!region.bounds) return "no points were asked for, and none could be reached";
    return fmt::format(
        "no points were asked for; those that would work lie within x {} to {} and "
        "y {} to {}",
        decimal(region.bounds->x0), decimal(region.bounds->x1), decimal(region.bounds->y0),
        decimal(region.bounds->y1));
  }
  return "no points were asked for";
}

// What is the matter with the unreachable points, the worst of them last.
std::string shortfall_words(const CheckResult& result, const Setup& setup, const Words& words,
                            const CheckedPoint& worst) {
  const bool all = result.counts.unreachable == result.points.size();
  const std::string what = all ? "" : lost_words(result, setup, words);
  const std::string out = what.empty() ? "" : ": " + what;
  if (std::isinf(worst.finding.leeway)) return out + ". Why: " + words.reason(worst);
  return fmt::format("{}. Worst: {} mm short at {}", out, at_least(-worst.finding.leeway),
                     words.where(worst.finding.limit));
}

// What follows on the counts.
std::string points_words(const CheckResult& result, const Setup& setup, const Words& words) {
  const std::vector<std::size_t> failing = failing_points(result, 1);
  if (failing.empty()) {
    const CheckedPoint& point = result.points[*tightest_point(result)];
    return fmt::format("; the tightest is {}, with {} after its guard band ({})",
                       words.point(point),
                       leeway_left(rounded(point.finding.leeway - point.finding.guard)),
                       words.limit(point.finding.limit));
  }
  const CheckedPoint& worst = result.points[failing[0]];
  if (lost(worst)) return shortfall_words(result, setup, words, worst);
  return fmt::format(". Worst: {} has {} to {}, and the stated uncertainty asks for {}",
                     words.point(worst), leeway_left(worst.finding.leeway),
                     words.where(worst.finding.limit), at_least(worst.finding.guard));
}

}  // namespace

std::string setup_name(const CheckResult& result, const Words& words) {
  return result.setup.empty() ? "This setup" : words.name(result.setup);
}

std::string summary(const CheckResult& result, const Setup& setup, const Words& words) {
  if (result.points.empty()) return nothing_judged(result);
  std::string out = counts_words(result) + points_words(result, setup, words);
  const CheckedMoves& moves = result.moves;
  if (moves.clear()) return out;
  if (moves.blocked.empty()) return "the travel height is too low; " + out;
  const std::string which = moves.count == 1
                                ? "the one move"
                                : fmt::format("{} of {} moves", moves.blocked.size(), moves.count);
  return fmt::format("{} {} something; {}", which, runs_into(moves), out);
}

const char* key(RemarkKind kind) {
  switch (kind) {
    case RemarkKind::probe_in_head:
      return "probe_in_head";
    case RemarkKind::no_offset:
      return "no_offset";
    case RemarkKind::long_offset:
      return "long_offset";
    case RemarkKind::small_bed:
      return "small_bed";
    case RemarkKind::large_bed:
      return "large_bed";
    case RemarkKind::travel_off_bed:
      return "travel_off_bed";
    case RemarkKind::uncertainty:
      return "uncertainty";
    case RemarkKind::down_unknown:
      return "down_unknown";
    case RemarkKind::scrapes:
      return "scrapes";
    case RemarkKind::many_left_out:
      break;
  }
  return "many_left_out";
}

std::string overlapped_words(const std::vector<std::string>& parts, NameStyle style) {
  std::string out;
  for (std::size_t i = 0; i < parts.size(); ++i) {
    if (i > 0) out += i + 1 == parts.size() ? " and " : ", ";
    out += parts[i] == "nozzle" ? "the nozzle" : style(parts[i]);
  }
  return out;
}

std::string sentence(const Remark& remark, NameStyle style) {
  const auto percent = [&] { return fmt::format("{} %", std::floor(remark.value * 100)); };
  switch (remark.kind) {
    case RemarkKind::probe_in_head:
      return fmt::format(
          "With this offset the probe sits in its own head: seen from above it overlaps {}. The "
          "offset or an outline cannot be right.",
          overlapped_words(remark.parts, style));
    case RemarkKind::no_offset:
      return "The offset is 0, 0: is the probe really under the nozzle?";
    case RemarkKind::long_offset:
      return fmt::format("The offset of {} is longer than half the bed: is that in mm?",
                         decimal(remark.value));
    case RemarkKind::small_bed:
      return fmt::format("The bed's longer side is {}: is that in mm?", decimal(remark.value));
    case RemarkKind::large_bed:
      return fmt::format("The bed's longer side is {}: is that in mm?", decimal(remark.value));
    case RemarkKind::travel_off_bed:
      return fmt::format(
          "The nozzle's travel covers {} of the bed: are both counted from the same zero?",
          percent());
    case RemarkKind::uncertainty:
      return fmt::format("A standard uncertainty of {} is stated: is that in mm?",
                         decimal(remark.value));
    case RemarkKind::down_unknown:
      return "The probe stays down while printing, but no body is stated: nothing of it counts in "
             "what can be printed.";
    case RemarkKind::scrapes:
      return fmt::format(
          "The probe stays down while printing and reaches {} below the nozzle: it would scrape "
          "over the print. Is it stowed?",
          decimal(remark.value));
    case RemarkKind::many_left_out:
      break;
  }
  return fmt::format(
      "{} of the grid lies off the bed and was left out: where is the machine's zero?", percent());
}

std::vector<std::string> remark_sentences(const Setup& setup, const CheckResult& checked,
                                          NameStyle style) {
  std::vector<std::string> out;
  for (const Remark& remark : remarks(setup, checked)) {
    if (!comes_first(remark.kind)) out.push_back("Remark: " + sentence(remark, style));
  }
  return out;
}

std::string first_remark(const Setup& setup, const CheckResult& checked, NameStyle style) {
  std::string out;
  for (const Remark& remark : remarks(setup, checked)) {
    if (comes_first(remark.kind)) out += (out.empty() ? "" : " ") + sentence(remark, style);
  }
  return out;
}

}  // namespace leeway
