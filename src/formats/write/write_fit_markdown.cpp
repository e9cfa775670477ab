#include <fmt/format.h>

#include "formats/text/names.h"
#include "formats/write/check_view.h"
#include "formats/write/fit_view.h"
#include "leeway/rig.h"
#include "leeway/write_fit.h"

namespace leeway {

void write_fit_markdown(const FitResult& result, const Rig& rig, const TextSink& sink) {
  const Words words(rig, markdown_name);
  const std::string name = result.setup.empty() ? "This setup" : words.name(result.setup);
  sink(
      fmt::format("**{}**: {}.\n\nLengths are in mm. Leeway: how far it could still go before "
                  "something stops it.\n",
                  name, fit_summary(result, words)));
  const std::string unguarded = unguarded_mesh_sentence(result, rig);
  if (!unguarded.empty()) sink("\n" + unguarded + "\n");
  const auto items = [&sink](const std::vector<std::string>& sentences) {
    for (const std::string& sentence : sentences) sink("- " + sentence + "\n");
  };
  if (result.mesh) {
    sink("\n| what | left | right | front | back |\n| --- | ---: | ---: | ---: | ---: |\n");
    for (const FitRow& row : mesh_rows(result.numbers)) {
      sink(fmt::format("| {} | {} | {} | {} | {} |\n", row.what, row.left, row.right, row.front,
                       row.back));
    }
    sink("\n");
    items(mesh_sentences(result, rig.setup(), words));
  } else {
    sink("\n" + limiting_sentence(result, words) + "\n");
    const std::vector<std::string> remedies = remedy_sentences(result);
    sink(remedies.empty() ? "\n" + no_remedy_sentence() + "\n"
                          : "\n" + fit_remedies_lead() + ":\n\n");
    items(remedies);
    sink("\n");
  }
  items(other_sentences(result, words));
  items({caution()});
}

}  // namespace leeway
