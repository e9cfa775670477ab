#include <fmt/format.h>

#include <string>

#include "formats/explain/confirm_view.h"
#include "formats/explain/explain_view.h"
#include "formats/explain/mistake_view.h"
#include "formats/explain/question_view.h"
#include "formats/explain/since_view.h"
#include "formats/text/names.h"
#include "formats/text/summary.h"
#include "formats/text/table.h"
#include "formats/write/check_view.h"
#include "leeway/rig.h"
#include "leeway/write_explain.h"

namespace leeway {
namespace {

void item(const std::string& text, std::size_t indent, const char* mark, const TextSink& sink) {
  const std::string lines = paragraph(text, indent);
  sink(std::string(indent - 2, ' ') + mark + lines.substr(indent - 1));
}

// The guesses in the order of their probabilities; that too much is asked for is one of them.
void write_mistakes(const ExplainResult& result, const Rig& rig, const TextSink& sink) {
  const std::string too_much = too_much_sentence(result);
  const bool first = too_much_first(result);
  if (!too_much.empty() && first) sink("\n" + paragraph(too_much));
  if (!result.mistakes.empty()) {
    sink("\n" + paragraph(mistakes_lead(result) + ":") + "\n");
    for (const MistakeFound& mistake : result.mistakes) {
      item(mistake_sentence(mistake, rig.setup()), 4, "?", sink);
      sink(paragraph(confirm_sentence(mistake, rig.setup()), 4));
    }
  } else if (!result.groups.empty()) {
    sink("\n" + paragraph(no_mistake_sentence(result)));
  }
  if (!too_much.empty() && !first) sink("\n" + paragraph(too_much));
  if (result.question) {
    sink("\nThe next thing to find out:\n\n");
    item(question_sentence(*result.question, true), 4, "-", sink);
  }
}

}  // namespace

void write_explain_text(const ExplainResult& result, const Rig& rig, const TextSink& sink) {
  const Words words(rig, text_name);
  sink(paragraph(setup_name(result.check, words) + ". " +
                 asked_sentence(result, rig.setup(), words)));
  if (result.since) {
    sink(paragraph(changed_sentence(result, rig.setup())));
    sink(paragraph(did_sentence(result)));
  }
  sink(paragraph(numbers_sentence(rig.setup())));
  sink(paragraph(units_sentence()));
  for (const Contradicted& one : result.contradicted) {
    sink("\n" + paragraph(contradicted_sentence(one)));
  }
  const std::string remark = first_remark(rig.setup(), result.check, text_name);
  if (!remark.empty()) sink("\n" + paragraph(remark));
  const std::string moves = watch_moves_sentence(result.check, rig.setup(), words);
  if (!moves.empty()) sink("\n" + paragraph(moves));
  if (!result.tightest.empty()) {
    sink(fmt::format("\n{}:\n\n", tightest_lead(result, rig.setup())));
    for (const std::string& sentence : tightest_sentences(result, words)) {
      item(sentence, 4, "-", sink);
    }
    if (!result.mistakes.empty()) {
      write_mistakes(result, rig, sink);
    } else {
      sink("\n" + paragraph(refused_sentence()));
    }
    sink("\n" + paragraph(compare_lead() + ":") + "\n");
    int number = 0;
    for (const std::string& sentence : compare_sentences(rig.setup())) {
      item(sentence, 4, std::to_string(++number).c_str(), sink);
    }
    sink("\n" + paragraph(caution()));
    return;
  }
  for (const FailingGroup& group : result.groups) {
    sink("\n" + paragraph(group_sentence(group, result, words)));
    sink(paragraph(arithmetic_sentence(group, result, rig, words), 4));
  }
  for (const std::string& sentence : empty_region_sentences(result.check)) {
    sink("\n" + paragraph(sentence));
  }
  write_mistakes(result, rig, sink);
  if (!result.remedies.empty()) {
    sink(fmt::format("\n{}:\n\n", remedies_lead()));
    for (const Remedy& remedy : result.remedies)
      item(remedy_sentence(remedy, rig.setup()), 4, "-", sink);
  }
  sink("\n" + paragraph(caution()));
}

}  // namespace leeway
