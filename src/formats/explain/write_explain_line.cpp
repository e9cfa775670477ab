#include "leeway/write_explain.h"

#include "formats/explain/confirm_view.h"
#include "formats/explain/explain_view.h"
#include "formats/explain/mistake_view.h"
#include "formats/explain/question_view.h"
#include "formats/explain/since_view.h"
#include "formats/text/names.h"
#include "formats/write/check_view.h"
#include "leeway/rig.h"

namespace leeway {

// For a chat: how it went, the best explanation, and one question.
void write_explain_line(const ExplainResult& result, const Rig& rig, const TextSink& sink) {
  const Words words(rig, text_name);
  std::string out = asked_sentence(result, rig.setup(), words);
  if (result.since) out += " " + did_sentence(result);
  const std::string moves = watch_moves_sentence(result.check, rig.setup(), words);
  if (!moves.empty()) out += " " + moves;
  const std::string too_much = too_much_sentence(result);
  for (const Contradicted& one : result.contradicted) out += " " + contradicted_sentence(one);
  if (nothing_stands_out(result)) {
    out += " " + nothing_stands_out_sentence();
  } else if (!too_much.empty() && too_much_first(result)) {
    out += " " + too_much;
  } else if (!result.mistakes.empty()) {
    out += " " + mistake_sentence(result.mistakes.front(), rig.setup());
  }
  if (result.question) {
    out += " " + asks(result.question->kind);
  } else if (!result.mistakes.empty() && !too_much_first(result) && !nothing_stands_out(result)) {
    out += " " + confirm_sentence(result.mistakes.front(), rig.setup());
  } else if (result.groups.empty()) {
    out += " Which point does the machine refuse?";
  }
  sink(out + "\n");
}

}  // namespace leeway
