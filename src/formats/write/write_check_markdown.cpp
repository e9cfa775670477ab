#include <fmt/format.h>

#include <algorithm>

#include "formats/text/names.h"
#include "formats/text/numbers.h"
#include "formats/text/summary.h"
#include "formats/write/check_view.h"
#include "leeway/rig.h"
#include "leeway/write_check.h"

namespace leeway {
namespace {

void write_failing_markdown(const CheckResult& result, const std::vector<std::size_t>& failing,
                            const Words& words, const TextSink& sink) {
  if (failing.empty()) return;
  sink("\n| point | verdict | probe at | nozzle at | why |\n| --- | --- | --- | --- | --- |\n");
  for (const std::size_t i : failing) {
    const CheckedPoint& point = result.points[i];
    sink(fmt::format("| {} | {} | {} | {} | {}; {} |\n", words.point(point),
                     word(point.finding.verdict), pair(point.probe),
                     pair(words.nozzle(point.probe)), words.reason(point), words.nearest(point)));
  }
  const std::size_t all = result.counts.unreachable + result.counts.marginal;
  const std::string more = more_points_sentence(all, failing.size());
  if (!more.empty()) sink("\n" + more + "\n");
}

void write_item(const std::string& sentence, const TextSink& sink) {
  if (!sentence.empty()) sink("- " + sentence + "\n");
}

void write_moves_markdown(const CheckResult& result, const Setup& setup, const Words& words,
                          const TextSink& sink) {
  write_item(moves_sentence(result, setup, words), sink);
  const std::size_t shown = std::min(kMostMovesShown, result.moves.blocked.size());
  for (std::size_t i = 0; i < shown; ++i) {
    const BlockedMove& move = result.moves.blocked[i];
    sink(fmt::format("  - {} to {}: {}\n", words.point(result.points[move.from]),
                     words.point(result.points[move.to]), words.stop(move.stop)));
  }
  const std::string more = more_moves_sentence(result.moves.blocked.size(), shown);
  if (!more.empty()) sink("  - " + more + "\n");
}

void write_all_limits_markdown(const CheckResult& result, const Limits& limits,
                               const std::vector<std::size_t>& shown, const Words& words,
                               const TextSink& sink) {
  if (shown.empty()) return;
  sink("\n| point | limit | leeway | guard |\n| --- | --- | ---: | ---: |\n");
  for (const std::size_t i : shown) {
    const CheckedPoint& point = result.points[i];
    for (std::size_t limit = 0; limit < limits.size(); ++limit) {
      const LimitReading reading = limits.reading(limit, point.probe);
      sink(fmt::format("| {} | {} | {} | {} |\n", words.point(point),
                       words.limit(static_cast<std::uint32_t>(limit)),
                       signed_amount(reading.leeway), at_least(reading.guard)));
    }
  }
}

}  // namespace

void write_check_markdown(const CheckResult& result, const Rig& rig, const WriteOptions& options,
                          const TextSink& sink) {
  const Words words(rig, markdown_name);
  const std::vector<std::size_t> failing = failing_points(result, kMostPointsShown);
  const std::string first = first_remark(rig.setup(), result, markdown_name);
  if (!first.empty()) sink(first + "\n\n");
  sink(fmt::format("**{}**: {}.\n\n{}\n", setup_name(result, words),
                   summary(result, rig.setup(), words), units_sentence()));
  write_failing_markdown(result, failing, words, sink);
  if (options.all_limits) {
    write_all_limits_markdown(result, rig.limits(), named_points(result, failing), words, sink);
  }
  sink("\n");
  for (const std::string& remark : remark_sentences(rig.setup(), result, markdown_name))
    write_item(remark, sink);
  write_item(tightest_sentence(result, words), sink);
  write_item(coverage_sentence(result, rig.setup()), sink);
  write_item(home_sentence(result, words), sink);
  write_moves_markdown(result, rig.setup(), words, sink);
  for (const std::string& sentence : empty_region_sentences(result)) write_item(sentence, sink);
  if (!result.points.empty()) write_item(caution(), sink);
}

}  // namespace leeway
