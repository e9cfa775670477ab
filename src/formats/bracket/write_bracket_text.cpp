#include "formats/bracket/bracket_view.h"
#include "formats/text/names.h"
#include "formats/text/table.h"
#include "formats/write/check_view.h"

namespace leeway {
namespace {

void text_items(const std::vector<std::string>& sentences, const TextSink& sink) {
  for (const std::string& sentence : sentences) sink("  - " + paragraph(sentence, 4).substr(4));
}

void text_paragraphs(const std::vector<std::string>& sentences, const TextSink& sink) {
  for (const std::string& sentence : sentences) sink("\n" + paragraph(sentence));
}

void write_influences_text(const BracketView& view, const TextSink& sink) {
  const std::vector<InfluenceRow> rows = view.influences();
  if (rows.empty()) return;
  sink(
      "\nWhat moves its ends most, in mm to the right or to the back, where the number grows by "
      "1:\n\n");
  Table table({"number", "of the window", "moves by"});
  for (const InfluenceRow& row : rows) table.add(" ", {row.number, row.end, row.moves});
  table.write(sink);
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
    Table table({"offset", "x, y", "leeway", "reaches", "to get there"});
    TableNames names;
    for (const OffsetRow& row : view.offsets()) {
      table.add(" ", {names.cell(row.what), row.offset, row.leeway, row.reaches, row.move});
    }
    table.write(sink);
    sink(names.in_full());
    text_paragraphs(view.advice(), sink);
    text_paragraphs(view.moves(), sink);
    sink("\nThe window of offsets that work:\n\n");
    text_items(view.sides(), sink);
    write_influences_text(view, sink);
  }
  if (const std::vector<std::string> setups = view.setups(); !setups.empty()) {
    sink("\n");
    text_items(setups, sink);
  }
  text_paragraphs(view.costs(), sink);
}

// One table would be wider than the text.
void write_candidates_text(const BracketReport& report, const BracketView& view,
                           const TextSink& sink) {
  const bool several = report.setups.size() > 1;
  const auto heads = [several](std::vector<std::string> first,
                               const std::vector<std::string>& rest) {
    if (several) first.push_back("setup");
    first.insert(first.end(), rest.begin(), rest.end());
    return first;
  };
  Table worth(heads({"rank", "candidate", "offset"}, {"reaches", "leeway", "points"}));
  Table grids(heads({"candidate"}, {"uncovered left/right/front/back", "greatest grid"}));
  TableNames names;
  for (const CandidateRow& row : view.candidates()) {
    const std::string name = names.cell(row.name);
    const std::string setup = several ? names.cell(row.setup) : "";
    const auto cells = [&](std::vector<std::string> first, const std::vector<std::string>& rest) {
      if (several) first.push_back(setup);
      first.insert(first.end(), rest.begin(), rest.end());
      return first;
    };
    worth.add(" ", cells({row.rank, name, row.offset}, {row.share, row.leeway, row.points}));
    grids.add(" ", cells({name}, {row.uncovered, row.mesh}));
  }
  worth.write(sink);
  sink("\n");
  grids.write(sink);
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
