#include <fmt/format.h>

#include <algorithm>

#include "formats/text/names.h"
#include "formats/text/numbers.h"
#include "formats/text/plan.h"
#include "formats/text/summary.h"
#include "formats/text/table.h"
#include "formats/write/check_view.h"
#include "formats/write/failures.h"
#include "leeway/rig.h"
#include "leeway/write_check.h"

namespace leeway {
namespace {

// One text being written: what all its sections need.
struct CheckPage {
  const CheckResult& result;
  const Rig& rig;
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
  TableNames names;
  for (const std::size_t i : failing) {
    const CheckedPoint& point = page.result.points[i];
    table.add(verdict_mark(point.finding.verdict, page.options.color),
              {names.cell(page.words.point(point)), pair(point.probe),
               pair(page.words.nozzle(point.probe)),
               page.words.reason(point) + "; " + page.words.nearest(point)});
  }
  table.write(page.sink);
  page.sink(names.in_full());
  const std::size_t all = page.result.counts.unreachable + page.result.counts.marginal;
  const std::string more = more_points_sentence(all, failing.size());
  if (!more.empty()) page.sink("\n" + paragraph(more, 2));
}

void write_moves_text(const CheckPage& page) {
  section(page, moves_sentence(page.result, page.rig.setup(), page.words));
  if (page.result.moves.blocked.empty()) return;
  const std::size_t shown = std::min(kMostMovesShown, page.result.moves.blocked.size());
  Table table({"from", "to", "what happens"});
  TableNames names;
  for (std::size_t i = 0; i < shown; ++i) {
    const BlockedMove& move = page.result.moves.blocked[i];
    table.add("X", {names.cell(page.words.point(page.result.points[move.from])),
                    names.cell(page.words.point(page.result.points[move.to])),
                    page.words.stop(move.stop)});
  }
  page.sink("\n");
  table.write(page.sink);
  page.sink(names.in_full());
  const std::string more = more_moves_sentence(page.result.moves.blocked.size(), shown);
  if (!more.empty()) page.sink("\n" + paragraph(more, 2));
}

void write_limits_of(const CheckPage& page, const CheckedPoint& point) {
  page.sink("\n");
  page.sink(paragraph(fmt::format("{}, probe at {}: {}", page.words.point(point), pair(point.probe),
                                  word(point.finding.verdict)),
                      2));
  Table table({"leeway", "guard", "limit"});
  for (std::size_t i = 0; i < page.rig.limits().size(); ++i) {
    const LimitReading reading = page.rig.limits().reading(i, point.probe);
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

void write_check_in_full(const CheckPage& page) {
  const CheckResult& result = page.result;
  const std::vector<std::size_t> failing = failing_points(result, kMostPointsShown);
  page.sink(paragraph(units_sentence()));
  if (page.rig.setup().request.grid && !result.points.empty()) page.sink("\n");
  write_plan(result, page.rig.setup(), {page.options.color}, page.sink);
  write_failing_text(page, failing);
  section(page, tightest_sentence(result, page.words));
  section(page, coverage_sentence(result, page.rig.setup()));
  section(page, home_sentence(result, page.words));
  write_moves_text(page);
  for (const std::string& sentence : empty_region_sentences(result)) section(page, sentence);
  if (page.options.all_limits) write_all_limits_text(page, named_points(result, failing));
}

// A line for each, without blank lines between; together in a section.
std::string lines_of_section(const std::vector<std::string>& sentences) {
  std::string out;
  for (const std::string& sentence : sentences) {
    if (!sentence.empty()) out += paragraph(sentence);
  }
  return out.empty() ? out : "\n" + out;
}

// Each failure in a line; no more lines than `most` where there are many.
std::string failure_lines(const CheckPage& page, std::size_t most) {
  const std::vector<FailureGroup> groups =
      failure_groups(page.result, page.rig.setup(), page.words);
  std::string out;
  std::size_t lines = 0;
  for (std::size_t i = 0; i < groups.size(); ++i) {
    const FailureGroup& group = groups[i];
    const CheckedPoint& worst = page.result.points[group.worst];
    const std::string text =
        paragraph(fmt::format("{}: {}.", group.who, page.words.brief(worst, !group.alike)), 4);
    const auto more = static_cast<std::size_t>(std::count(text.begin(), text.end(), '\n'));
    const bool last = i + 1 == groups.size();
    if (i > 0 && lines + more + (last ? 0 : 1) > most) {
      out += fmt::format("    And {} more; --long tells more of them, --format csv all.\n",
                         groups.size() - i);
      break;
    }
    out += "  " + verdict_mark(worst.finding.verdict, page.options.color) + text.substr(3);
    lines += more;
  }
  return out.empty() ? out : "\n" + out;
}

std::string draw_place_words(const CheckPage& page) {
  const std::vector<std::size_t> worst = failing_points(page.result, 1);
  if (worst.empty()) return "";
  const CheckedPoint& point = page.result.points[worst[0]];
  if (point.column > 0) return fmt::format(" --at {},{}", point.column, point.row);
  return fmt::format(" --at x={},y={}", shortest(point.probe.x), shortest(point.probe.y));
}

std::string next_steps(const CheckPage& page) {
  const bool named = !page.options.setup.empty();
  const std::string setup = named ? page.options.setup : "FILE";
  const bool grid = page.rig.setup().request.grid.has_value();
  const bool all_well = page.result.verdict == Verdict::reachable;
  std::string out;
  if (!named) out += "\nTo go on from here, keep the setup in a file (--save FILE):";
  out += fmt::format("\nNumbers to enter:   leeway fit {}{}\n", setup,
                     grid ? "" : " --columns 5 --rows 5");
  if (!all_well && !page.result.points.empty()) {
    out += fmt::format("What may be wrong:  leeway explain {}\n", setup);
  }
  return out + fmt::format("A picture:          leeway draw {}{} --output plan.svg\n", setup,
                           draw_place_words(page));
}

std::string unguarded_line(const CheckPage& page) {
  const std::string sentence = unguarded_sentence(page.words);
  return page.result.points.empty() || sentence.empty() ? "" : sentence.substr(1);
}

std::string plan_text(const CheckPage& page, std::size_t most_rows) {
  PlanOptions options{page.options.color, true};
  options.most_rows = static_cast<int>(std::clamp<std::size_t>(most_rows, 8, kMostPlanRows));
  std::string plan;
  write_plan(page.result, page.rig.setup(), options,
             [&plan](std::string_view piece) { plan += piece; });
  return plan.empty() ? plan : "\n" + plan;
}

std::string closing_lines(const CheckPage& page) {
  std::vector<std::string> lines{unguarded_line(page), coverage_line(page.result),
                                 home_line(page.result, page.words),
                                 moves_line(page.result, page.rig.setup(), page.words)};
  for (std::string& sentence : empty_region_sentences(page.result)) {
    lines.push_back(std::move(sentence));
  }
  return lines_of_section(lines);
}

// At most kMostLines lines, whatever fails: a large grid is drawn in groups, and of many failures
// that have nothing in common only some are told.
void write_check_briefly(const CheckPage& page, const std::string& headline) {
  constexpr std::size_t kMostLines = 40;
  constexpr std::size_t kAround = 6;         // units, caution, and blank lines
  constexpr std::size_t kAroundTheRows = 6;  // of the plan
  constexpr std::size_t kEnoughFailures = 5;
  const auto lines_in = [](const std::string& text) {
    return static_cast<std::size_t>(std::count(text.begin(), text.end(), '\n'));
  };
  const std::string below = next_steps(page) + closing_lines(page);
  const std::size_t taken = lines_in(headline) + lines_in(below) + kAround;
  const std::size_t left = kMostLines - std::min(kMostLines, taken);
  const std::size_t failures = lines_in(failure_lines(page, kEnoughFailures));
  const std::string plan = plan_text(page, left - std::min(left, kAroundTheRows + failures));
  page.sink(units_line());
  page.sink(plan);
  page.sink(failure_lines(page, std::max(kEnoughFailures, left - std::min(left, lines_in(plan)))));
  page.sink(below);
}

// What comes before the headline.
std::string lead(const Setup& setup, const CheckResult& checked) {
  const std::string first = first_remark(setup, checked, text_name);
  return first.empty() ? "" : paragraph(first);
}

}  // namespace

void write_check_text(const CheckResult& result, const Rig& rig, const WriteOptions& options,
                      const TextSink& sink) {
  const CheckPage page{result, rig, options, sink, Words(rig, text_name)};
  std::string headline =
      lead(rig.setup(), result) + paragraph(setup_name(result, page.words) + ": " +
                                            summary(result, rig.setup(), page.words) + ".");
  for (const std::string& remark : remark_sentences(rig.setup(), result, text_name)) {
    headline += paragraph(remark);
  }
  sink(headline);
  if (options.in_full || options.all_limits) {
    write_check_in_full(page);
  } else {
    write_check_briefly(page, headline);
  }
  if (!result.points.empty()) section(page, caution());
}

}  // namespace leeway
