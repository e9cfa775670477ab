#include "formats/text/names.h"
#include "formats/text/table.h"
#include "formats/write/bracket_view.h"
#include "formats/write/check_view.h"

namespace leeway {
namespace {

void text_items(const std::vector<std::string>& sentences, const TextSink& sink) {
  for (const std::string& sentence : sentences) sink("  - " + paragraph(sentence, 4).substr(4));
}

void text_paragraphs(const std::vector<std::string>& sentences, const TextSink& sink) {
  for (const std::string& sentence : sentences) sink("\n" + paragraph(sentence));
}

void write_window_text(const BracketReport& report, const BracketView& view, const TextSink& sink) {
  const BracketResult& r = *report.window;
  sink(paragraph(view.summary()));
  sink(paragraph(view.conventions()));
  if (!r.out_of_reach.empty()) {
    sink("\nOut of reach with any offset; the rest is about the other points:\n\n");
    text_items(view.out_of_reach(), sink);
  }
  if (r.out_of_reach.size() == r.points) return;
  if (r.window.empty) {
    text_paragraphs(view.conflict(), sink);
  } else {
    sink("\n");
    Table table({"offset", "x, y", "leeway", "to get there"});
    TableNames names;
    for (const OffsetRow& row : view.offsets()) {
      table.add(" ", {names.cell(row.what), row.offset, row.leeway, row.move});
    }
    table.write(sink);
    sink(names.in_full());
    text_paragraphs(view.moves(), sink);
    sink("\nThe window of offsets that work:\n\n");
    text_items(view.sides(), sink);
  }
  if (const std::vector<std::string> setups = view.setups(); !setups.empty()) {
    sink("\n");
    text_items(setups, sink);
  }
  text_paragraphs(view.costs(), sink);
}

void write_candidates_text(const BracketReport& report, const BracketView& view,
                           const TextSink& sink) {
  const bool several = report.setups.size() > 1;
  std::vector<std::string> heads{"rank", "candidate", "offset"};
  if (several) heads.push_back("setup");
  for (const char* head :
       {"reaches", "uncovered left/right/front/back", "leeway", "greatest grid", "points"}) {
    heads.push_back(head);
  }
  Table table(heads);
  TableNames names;
  for (const CandidateRow& row : view.candidates()) {
    std::vector<std::string> cells{row.rank, names.cell(row.name), row.offset};
    if (several) cells.push_back(names.cell(row.setup));
    for (const std::string& cell : {row.share, row.uncovered, row.leeway, row.mesh, row.points}) {
      cells.push_back(cell);
    }
    table.add(" ", std::move(cells));
  }
  table.write(sink);
  sink(names.in_full());
}

void write_misses_text(const BracketView& view, const TextSink& sink) {
  const std::vector<std::string> misses = view.misses();
  if (misses.empty()) return;
  sink("\nThe points that they miss:\n\n");
  text_items(misses, sink);
}

}  // namespace

void write_bracket_text(const BracketReport& report, const TextSink& sink) {
  const BracketView view(report, text_name);
  if (report.window) write_window_text(report, view, sink);
  if (report.map) {
    text_paragraphs(view.map(), sink);
    sink("\n");
    for (const std::string& line : view.map_picture()) sink(line + "\n");
  }
  if (!report.candidates.empty()) {
    sink("\nThe candidates, best first:\n\n");
    write_candidates_text(report, view, sink);
    write_misses_text(view, sink);
    text_paragraphs(view.ties(), sink);
  }
  sink("\n" + paragraph(caution()));
}

}  // namespace leeway
