#include "formats/cover/cover_view.h"
#include "formats/text/names.h"
#include "formats/text/table.h"
#include "formats/write/check_view.h"
#include "formats/write/fit_view.h"

namespace leeway {

void write_cover_text(const CoverResult& result, const Rig& rig, const WriteCoverOptions& options,
                      const TextSink& sink) {
  const Words words(rig, text_name);
  const std::string name = result.setup.empty() ? "This setup" : words.name(result.setup);
  sink(paragraph(name + ": " + cover_headline(result, options.program) + "."));
  const auto tell = [&sink](const std::vector<std::string>& sentences) {
    if (!sentences.empty()) sink("\n");
    for (const std::string& sentence : sentences) sink(paragraph(sentence));
  };
  tell(stop_sentences(result, words));
  tell(extent_sentences(result));
  if (const std::string grid = grid_sentence(result, options.program); !grid.empty()) tell({grid});
  if (result.grid) {
    sink("\n");
    Table table({"what", "left", "right", "front", "back"});
    for (const FitRow& row : mesh_rows(result.grid->numbers)) {
      table.add(" ", {row.what, row.left, row.right, row.front, row.back});
    }
    table.write(sink);
    const std::string missing = missing_sentence(result.grid->numbers);
    if (!missing.empty()) tell({missing});
    sink("\nTo check it:\n\n  " + check_command_words(result, options.setup) + "\n");
  }
  tell(program_sentences(options));
  sink("\n" + paragraph("Lengths are in mm. Heights are of the nozzle above the bed."));
  sink("\n" + paragraph(caution()));
}

}  // namespace leeway
