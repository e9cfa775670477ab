#include "formats/explain/question_view.h"

#include <fmt/format.h>

#include "formats/explain/mistake_view.h"
#include "formats/text/change_text.h"
#include "formats/text/numbers.h"
#include "formats/text/words.h"

namespace leeway {
namespace {

std::string meaning(const PossibleAnswer& answer, bool options) {
  const std::string how = options ? fmt::format(" (--answer {})", word(answer.answer)) : "";
  return fmt::format(" If {}{}: {}.", answer_words(answer.answer), how, meaning_words(answer));
}

std::string spot_words(const Probe& probe) {
  const Box spot = bounding_box(probe.spot);
  if (!(spot.width() > 0) && !(spot.depth() > 0)) return "";
  return fmt::format("; its sensing area is {} by {}", decimal(spot.width()),
                     decimal(spot.depth()));
}

}  // namespace

std::string asks(QuestionKind question) {
  switch (question) {
    case QuestionKind::probe_sideways:
      return "Looking from the front, is the probe left or right of the nozzle?";
    case QuestionKind::probe_lengthways:
      return "Looking from the front, is the probe in front of the nozzle or behind it?";
    case QuestionKind::zero:
      return "Where is the machine's position 0, 0: at a corner of the bed, or at its centre?";
    case QuestionKind::travel:
      return "With the nozzle raised and moved slowly, does it go past an edge of the bed, or does "
             "it stop there?";
    case QuestionKind::margins:
      return "Does the controller count margins from the edges of the bed, or from the ends of the "
             "travel?";
    case QuestionKind::numbers:
      break;
  }
  return "Do the grid's numbers say where the probe shall be, or where the nozzle shall be?";
}

std::string answer_words(Answer answer) {
  switch (answer) {
    case Answer::probe_left:
      return "left";
    case Answer::probe_right:
      return "right";
    case Answer::probe_front:
      return "in front";
    case Answer::probe_behind:
      return "behind";
    case Answer::zero_at_corner:
      return "at a corner";
    case Answer::zero_at_centre:
      return "at the centre";
    case Answer::travel_goes_further:
      return "past it";
    case Answer::travel_ends_with_bed:
      return "it stops there";
    case Answer::margins_from_bed:
      return "from the bed";
    case Answer::margins_from_travel:
      return "from the travel";
    case Answer::numbers_for_probe:
      return "the probe";
    case Answer::numbers_for_nozzle:
      break;
  }
  return "the nozzle";
}

std::string meaning_words(const PossibleAnswer& answer) {
  const std::string what =
      answer.mistake ? fmt::format("\"{}\"", word(*answer.mistake)) : "that too much is asked for";
  if (answer.probability < kStandsOut) return "nothing stands out";
  return fmt::format("{}, {}", what, chance_words(answer.probability));
}

std::string question_sentence(const Question& question, bool options) {
  std::string out = asks(question.kind);
  for (const PossibleAnswer& answer : question.answers) out += meaning(answer, options);
  return out;
}

namespace {

std::string seen_words(Answer answer) {
  switch (answer) {
    case Answer::probe_left:
      return "the probe is left of the nozzle";
    case Answer::probe_right:
      return "the probe is right of the nozzle";
    case Answer::probe_front:
      return "the probe is in front of the nozzle";
    case Answer::probe_behind:
      return "the probe is behind the nozzle";
    case Answer::zero_at_corner:
      return "position 0, 0 is at a corner of the bed";
    case Answer::zero_at_centre:
      return "position 0, 0 is at the centre of the bed";
    case Answer::travel_goes_further:
      return "the nozzle goes past an edge of the bed";
    case Answer::travel_ends_with_bed:
      return "the nozzle stops at the edges of the bed";
    case Answer::margins_from_bed:
      return "margins count from the edges of the bed";
    case Answer::margins_from_travel:
      return "margins count from the ends of the travel";
    case Answer::numbers_for_probe:
      return "the grid's numbers are for the probe";
    case Answer::numbers_for_nozzle:
      break;
  }
  return "the grid's numbers are for the nozzle";
}

}  // namespace

std::string contradicted_sentence(const Contradicted& one) {
  return fmt::format(
      "Seen: {}. The setup says: {}. One of the two is wrong: look again, and correct it before "
      "anything else.",
      seen_words(one.seen), seen_words(one.stated));
}

std::string numbers_sentence(const Setup& setup) {
  return fmt::format("Read: the bed is {}; the nozzle travels over {}; the probe is {}{}.",
                     shape_words(setup.machine.bed), shape_words(setup.machine.travel),
                     offset_words(setup.probe.offset), spot_words(setup.probe));
}

std::string refused_sentence() {
  return "Which point does it refuse? To weigh what its controller may hold instead: `--refused "
         "5,1`, and `--accepted 1,1` for one that it takes.";
}

}  // namespace leeway
