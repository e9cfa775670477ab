#include "formats/text/names.h"
#include "formats/text/table.h"
#include "formats/write/check_view.h"
#include "formats/write/fit_view.h"
#include "leeway/rig.h"
#include "leeway/write_fit.h"

namespace leeway {

void write_fit_text(const FitResult& result, const Rig& rig, const TextSink& sink) {
  const Words words(rig, text_name);
  const std::string name = result.setup.empty() ? "This setup" : words.name(result.setup);
  sink(paragraph(name + ": " + fit_summary(result, words) + "."));
  const std::string unguarded = unguarded_mesh_sentence(result, rig);
  if (!unguarded.empty()) sink(paragraph(unguarded));
  sink("Lengths are in mm. Leeway: how far it could still go before something stops it.\n");
  if (result.mesh) {
    sink("\n" + fit_rows_lead() + ":\n\n");
    Table table({"what", "left", "right", "front", "back"});
    for (const FitRow& row : mesh_rows(result.numbers)) {
      table.add(" ", {row.what, row.left, row.right, row.front, row.back});
    }
    table.write(sink);
    for (const std::string& sentence : mesh_sentences(result, rig.setup(), words)) {
      sink("\n" + paragraph(sentence));
    }
  } else {
    sink("\n" + paragraph(limiting_sentence(result, words)));
    const std::vector<std::string> remedies = remedy_sentences(result);
    if (remedies.empty()) {
      sink("\n" + paragraph(no_remedy_sentence()));
    } else {
      sink("\n" + fit_remedies_lead() + ":\n\n");
      for (const std::string& remedy : remedies) sink("  - " + paragraph(remedy, 4).substr(4));
    }
  }
  for (const std::string& sentence : other_sentences(result, words)) {
    sink("\n" + paragraph(sentence));
  }
  sink("\n" + paragraph(caution()));
}

}  // namespace leeway
