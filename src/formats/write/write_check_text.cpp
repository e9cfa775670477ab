#include <fmt/format.h>

#include <algorithm>

#include "formats/text/names.h"
#include "formats/text/numbers.h"
#include "formats/text/plan.h"
#include "formats/text/summary.h"
#include "formats/text/table.h"
#include "formats/write/check_view.h"
#include "leeway/write_check.h"

namespace leeway {
namespace {

constexpr std::size_t kWidestPoint = 24;

// One text being written: what all its sections need.
struct CheckPage {
  const CheckResult& result;
  const Setup& setup;
  const Limits& limits;
  const WriteOptions& options;
  const TextSink& sink;
  Words words;
};

void section(const CheckPage& page, const std::string& text, std::size_t indent = 0) {
  if (text.empty()) return;
  page.sink("\n");
  page.sink(paragraph(text, indent));
}

void write_failing_text(const CheckPage& page, const std::vector<std::size_t>& failing) {
  if (failing.empty()) return;
  page.sink("\nPoints that fail, worst first (X unreachable, ~ marginal):\n\n");
  Table table({"point", "probe at", "nozzle at", "why"});
  for (const std::size_t i : failing) {
    const CheckedPoint& point = page.result.points[i];
    table.add(verdict_mark(point.finding.verdict, page.options.color),
              {cut(page.words.point(point), kWidestPoint), pair(point.probe),
               pair(page.words.nozzle(point.probe)),
               page.words.reason(point) + "; " + page.words.nearest(point)});
  }
  table.write(page.sink);
  const std::size_t all = page.result.counts.unreachable + page.result.counts.marginal;
  const std::string more = more_points_sentence(all, failing.size());
  if (!more.empty()) page.sink("\n" + paragraph(more, 2));
}

void write_moves_text(const CheckPage& page) {
  section(page, moves_sentence(page.result, page.setup, page.words));
  if (page.result.moves.blocked.empty()) return;
  const std::size_t shown = std::min(kMostMovesShown, page.result.moves.blocked.size());
  Table table({"from", "to", "what happens"});
  for (std::size_t i = 0; i < shown; ++i) {
    const BlockedMove& move = page.result.moves.blocked[i];
    table.add("X", {cut(page.words.point(page.result.points[move.from]), kWidestPoint),
                    cut(page.words.point(page.result.points[move.to]), kWidestPoint),
                    page.words.stop(move.stop)});
  }
  page.sink("\n");
  table.write(page.sink);
  const std::string more = more_moves_sentence(page.result.moves.blocked.size(), shown);
  if (!more.empty()) page.sink("\n" + paragraph(more, 2));
}

void write_limits_of(const CheckPage& page, const CheckedPoint& point) {
  page.sink("\n");
  page.sink(paragraph(fmt::format("{}, probe at {}: {}", page.words.point(point), pair(point.probe),
                                  word(point.finding.verdict)),
                      2));
  Table table({"leeway", "guard", "limit"});
  for (std::size_t i = 0; i < page.limits.size(); ++i) {
    const LimitReading reading = page.limits.reading(i, point.probe);
    const bool fails = reading.leeway < reading.guard;
    const Verdict verdict = reading.leeway < 0 ? Verdict::unreachable
                            : fails            ? Verdict::marginal
                                               : Verdict::reachable;
    table.add(verdict_mark(verdict, page.options.color),
              {signed_amount(reading.leeway), at_least(reading.guard),
               page.words.limit(static_cast<std::uint32_t>(i))});
  }
  table.write(page.sink);
}

void write_all_limits_text(const CheckPage& page, const std::vector<std::size_t>& shown) {
  if (shown.empty()) return;
  page.sink(
      "\nEvery limit of the points named above; the guard band is the leeway that the stated\n"
      "uncertainty asks for:\n");
  for (const std::size_t i : shown) write_limits_of(page, page.result.points[i]);
}

}  // namespace

void write_check_text(const CheckResult& result, const Setup& setup, const Limits& limits,
                      const WriteOptions& options, const TextSink& sink) {
  const CheckPage page{result, setup, limits, options, sink, Words(setup, limits, text_name)};
  const std::vector<std::size_t> failing = failing_points(result, kMostPointsShown);
  sink(paragraph(setup_name(result, page.words) + ": " + summary(result, setup, page.words) + "."));
  sink(paragraph(units_sentence()));
  if (setup.request.grid && !result.points.empty()) sink("\n");
  write_plan(result, setup, options.color, sink);
  write_failing_text(page, failing);
  section(page, tightest_sentence(result, page.words));
  section(page, coverage_sentence(result, setup));
  section(page, home_sentence(result, page.words));
  write_moves_text(page);
  for (const std::string& sentence : empty_region_sentences(result)) section(page, sentence);
  if (options.all_limits) write_all_limits_text(page, named_points(result, failing));
  if (!result.points.empty()) section(page, caution());
}

}  // namespace leeway
