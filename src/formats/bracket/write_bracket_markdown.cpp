#include <fmt/format.h>

#include "formats/bracket/bracket_view.h"
#include "formats/text/names.h"
#include "formats/write/check_view.h"

namespace leeway {
namespace {

void markdown_items(const std::vector<std::string>& sentences, const TextSink& sink) {
  for (const std::string& sentence : sentences) sink("- " + sentence + "\n");
}

void write_window_markdown(const BracketReport& report, const BracketView& view,
                           const TextSink& sink) {
  const BracketResult& r = *report.window;
  sink(view.summary() + "\n\n" + view.conventions() + "\n");
  if (!r.out_of_reach.empty()) {
    sink("\nOut of reach with any offset; the rest is about the other points:\n\n");
    markdown_items(view.out_of_reach(), sink);
  }
  if (r.out_of_reach.size() == r.points) return;
  sink("\n");
  if (r.window.empty) {
    markdown_items(view.conflict(), sink);
  } else {
    sink(
        "| offset | x, y | leeway | reaches | to get there |\n| --- | ---: | ---: | ---: | --- "
        "|\n");
    for (const OffsetRow& row : view.offsets()) {
      sink(fmt::format("| {} | {} | {} | {} | {} |\n", row.what, row.offset, row.leeway,
                       row.reaches, row.move));
    }
    for (const std::string& sentence : view.advice()) sink("\n" + sentence + "\n");
    for (const std::string& sentence : view.moves()) sink("\n" + sentence + "\n");
    sink("\nThe window of offsets that work:\n\n");
    markdown_items(view.sides(), sink);
    const std::vector<InfluenceRow> rows = view.influences();
    if (!rows.empty()) {
      sink(
          "\nWhat moves its ends most, in mm to the right or to the back, where the number grows "
          "by 1:\n\n"
          "| number | of the window | moves by |\n| --- | --- | ---: |\n");
    }
    for (const InfluenceRow& row : rows) {
      sink(fmt::format("| {} | {} | {} |\n", row.number, row.end, row.moves));
    }
    sink("\n");
  }
  markdown_items(view.setups(), sink);
  sink("\n");
  markdown_items(view.costs(), sink);
}

}  // namespace

void write_bracket_markdown(const BracketReport& report, const TextSink& sink) {
  const BracketView view(report, markdown_name);
  if (report.window) write_window_markdown(report, view, sink);
  if (report.map) {
    sink("\n");
    markdown_items(view.map(), sink);
  }
  if (!report.candidates.empty()) {
    sink(
        "\n| rank | candidate | offset | setup | reaches | uncovered left/right/front/back | "
        "leeway | "
        "greatest grid | "
        "points |\n| ---: | --- | ---: | --- | ---: | ---: | ---: | --- | --- |\n");
    for (const CandidateRow& row : view.candidates()) {
      sink(fmt::format("| {} | {} | {} | {} | {} | {} | {} | {} | {} |\n", row.rank, row.name,
                       row.offset, row.setup, row.share, row.uncovered, row.leeway, row.mesh,
                       row.points));
    }
    sink("\n");
    markdown_items(view.misses(), sink);
    markdown_items(view.ties(), sink);
  }
  sink("\n");
  markdown_items({caution()}, sink);
}

}  // namespace leeway
