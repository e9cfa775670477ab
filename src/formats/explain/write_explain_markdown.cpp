#include <fmt/format.h>

#include "formats/explain/explain_view.h"
#include "formats/explain/mistake_view.h"
#include "formats/explain/question_view.h"
#include "formats/text/names.h"
#include "formats/text/numbers.h"
#include "formats/text/summary.h"
#include "formats/write/check_view.h"
#include "leeway/rig.h"
#include "leeway/write_explain.h"

namespace leeway {

void write_explain_markdown(const ExplainResult& result, const Rig& rig, const TextSink& sink) {
  const Words words(rig, markdown_name);
  sink(fmt::format("**{}**: {}\n\n", setup_name(result.check, words),
                   asked_sentence(result, rig.setup(), words)));
  sink(
      fmt::format("From the numbers as given (mm; offset from nozzle to probe {}; positions are "
                  "the probe's):\n\n",
                  pair(rig.setup().probe.offset)));
  const std::string first = first_remark(rig.setup(), result.check, markdown_name);
  if (!first.empty()) sink(first + "\n\n");
  const std::string moves = watch_moves_sentence(result.check, rig.setup(), words);
  if (!moves.empty()) sink(moves + "\n\n");
  if (!result.tightest.empty()) {
    sink(tightest_lead(result, rig.setup()) + " are:\n\n");
    for (const std::string& sentence : tightest_sentences(result, words)) {
      sink("- " + sentence + "\n");
    }
    sink("\n" + compare_lead() + ":\n\n");
    int number = 0;
    for (const std::string& sentence : compare_sentences(rig.setup())) {
      sink(fmt::format("{}. {}\n", ++number, sentence));
    }
  }
  for (const FailingGroup& group : result.groups) {
    sink("- " + group_sentence(group, result, words) + " For example " +
         arithmetic_sentence(group, result, rig, words) + "\n");
  }
  for (const std::string& sentence : empty_region_sentences(result.check)) {
    sink("- " + sentence + "\n");
  }
  const std::string too_much = too_much_sentence(result);
  const bool too_much_leads = too_much_first(result);
  if (!too_much.empty() && too_much_leads) sink("\n" + too_much + "\n");
  if (!result.mistakes.empty()) {
    sink(result.mistakes.size() == 1
             ? "\nThis is a guess: it would account for what fails. Could you check?\n\n"
             : "\nThese are guesses: any one of them would account for what fails. Could you "
               "check?\n\n");
    int number = 0;
    for (const MistakeFound& mistake : result.mistakes) {
      sink(fmt::format("{}. {} {}\n", ++number, mistake_sentence(mistake, rig.setup()),
                       confirm_sentence(mistake, rig.setup())));
    }
  }
  if (!too_much.empty() && !too_much_leads) sink("\n" + too_much + "\n");
  if (result.question) sink("\n" + question_sentence(*result.question, false) + "\n");
  if (!result.remedies.empty()) {
    sink("\nIf the numbers are right, each of these alone would remedy it:\n\n");
    for (const Remedy& remedy : result.remedies)
      sink("- " + remedy_sentence(remedy, rig.setup()) + "\n");
  }
  sink(std::string("\n") + caution() + "\n");
}

}  // namespace leeway
