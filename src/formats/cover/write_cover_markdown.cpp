#include <fmt/format.h>

#include "formats/cover/cover_view.h"
#include "formats/text/names.h"
#include "formats/write/check_view.h"
#include "formats/write/fit_view.h"

namespace leeway {

void write_cover_markdown(const CoverResult& result, const Rig& rig,
                          const WriteCoverOptions& options, const TextSink& sink) {
  const Words words(rig, markdown_name);
  const std::string name = result.setup.empty() ? "This setup" : words.name(result.setup);
  sink(fmt::format("**{}**: {}.\n\n", name, cover_headline(result, options.program)));
  const auto items = [&sink](const std::vector<std::string>& sentences) {
    for (const std::string& sentence : sentences) sink("- " + sentence + "\n");
  };
  items(stop_sentences(result, words));
  items(extent_sentences(result));
  items(program_sentences(options));
  items({"Lengths are in mm. Heights are of the nozzle above the bed."});
  if (const std::string grid = grid_sentence(result, options.program); !grid.empty())
    sink("\n" + grid + "\n");
  if (result.grid) {
    sink("\n| what | left | right | front | back |\n| --- | ---: | ---: | ---: | ---: |\n");
    for (const FitRow& row : mesh_rows(result.grid->numbers)) {
      sink(fmt::format("| {} | {} | {} | {} | {} |\n", row.what, row.left, row.right, row.front,
                       row.back));
    }
    const std::string missing = missing_sentence(result.grid->numbers);
    if (!missing.empty()) sink("\n" + missing + "\n");
    sink("\nTo check it:\n\n```sh\n" + check_command_words(result, options.setup) + "\n```\n");
  }
  sink(std::string("\n") + caution() + "\n");
}

}  // namespace leeway
