#include "tasks/explain/questions/questions.h"
#include "leeway/explain.h"

#include <algorithm>
#include <cmath>

namespace leeway {
namespace {

constexpr double kTrueAnswers = 0.97;  // of the answers that people give
constexpr double kLeastToTell = 0.06;  // in nats

constexpr QuestionKind kQuestions[] = {QuestionKind::probe_sideways, QuestionKind::probe_lengthways,
                                       QuestionKind::zero,           QuestionKind::travel,
                                       QuestionKind::margins,        QuestionKind::numbers};

Answer first_answer(QuestionKind question) {
  return static_cast<Answer>(2 * static_cast<int>(question));
}
Answer second_answer(QuestionKind question) {
  return static_cast<Answer>(2 * static_cast<int>(question) + 1);
}

std::optional<Answer> by_side(double value, QuestionKind question) {
  constexpr double kToSee = 3;  // mm
  if (std::abs(value) < kToSee) return std::nullopt;
  return value < 0 ? first_answer(question) : second_answer(question);
}

std::optional<Answer> where_zero_is(const Box& bed) {
  const double near = 0.1 * std::min(bed.width(), bed.depth());
  if (std::abs(bed.x0) < near && std::abs(bed.y0) < near) return Answer::zero_at_corner;
  const bool centre = std::abs(bed.x0 + bed.x1) < near && std::abs(bed.y0 + bed.y1) < near;
  return centre ? std::optional(Answer::zero_at_centre) : std::nullopt;
}

Answer where_travel_ends(const Machine& machine) {
  constexpr double kToSee = 2;  // mm
  const Box bed = bounding_box(machine.bed);
  const Box travel = bounding_box(machine.travel);
  const bool further = travel.x0 < bed.x0 - kToSee || travel.x1 > bed.x1 + kToSee ||
                       travel.y0 < bed.y0 - kToSee || travel.y1 > bed.y1 + kToSee;
  return further ? Answer::travel_goes_further : Answer::travel_ends_with_bed;
}

double chance_of(Answer answer, const std::optional<Answer>& expected) {
  if (!expected) return 0.5;
  return *expected == answer ? kTrueAnswers : 1 - kTrueAnswers;
}

double entropy(double p) { return p > 0 ? -p * std::log(p) : 0; }

// What an answer tells on average, in nats.
double information_of(QuestionKind kind, const std::vector<Explanation>& explanations) {
  double whole = 0;
  for (const Explanation& one : explanations) whole += one.probability;
  double information = 0;
  for (const Answer answer : {first_answer(kind), second_answer(kind)}) {
    double chance = 0;
    for (const Explanation& one : explanations) {
      const double expected = chance_of(answer, expected_answer(kind, *one.supposes));
      chance += one.probability * expected;
      information -= one.probability / whole * entropy(expected);
    }
    if (!(chance > 0)) return 0;
    information += entropy(chance / whole);
  }
  return information;
}

}  // namespace

const char* word(Answer answer) {
  switch (answer) {
    case Answer::probe_left:
      return "probe-left";
    case Answer::probe_right:
      return "probe-right";
    case Answer::probe_front:
      return "probe-in-front";
    case Answer::probe_behind:
      return "probe-behind";
    case Answer::zero_at_corner:
      return "zero-at-corner";
    case Answer::zero_at_centre:
      return "zero-at-centre";
    case Answer::travel_goes_further:
      return "travel-goes-further";
    case Answer::travel_ends_with_bed:
      return "travel-ends-with-bed";
    case Answer::margins_from_bed:
      return "margins-from-bed";
    case Answer::margins_from_travel:
      return "margins-from-travel";
    case Answer::numbers_for_probe:
      return "numbers-for-probe";
    case Answer::numbers_for_nozzle:
      break;
  }
  return "numbers-for-nozzle";
}

const std::vector<Answer>& all_answers() {
  static const std::vector<Answer> all = [] {
    std::vector<Answer> answers;
    for (const QuestionKind kind : kQuestions) {
      answers.push_back(first_answer(kind));
      answers.push_back(second_answer(kind));
    }
    return answers;
  }();
  return all;
}

QuestionKind question_of(Answer answer) {
  return static_cast<QuestionKind>(static_cast<int>(answer) / 2);
}

std::optional<Answer> expected_answer(QuestionKind question, const Setup& setup) {
  const std::optional<Grid>& grid = setup.request.grid;
  switch (question) {
    case QuestionKind::probe_sideways:
      return by_side(setup.probe.offset.x, question);
    case QuestionKind::probe_lengthways:
      return by_side(setup.probe.offset.y, question);
    case QuestionKind::zero:
      return where_zero_is(bounding_box(setup.machine.bed));
    case QuestionKind::travel:
      return where_travel_ends(setup.machine);
    case QuestionKind::margins: {
      const Margins* margins = grid ? std::get_if<Margins>(&grid->extent) : nullptr;
      if (margins == nullptr) return std::nullopt;
      return margins->from == Margins::From::bed ? Answer::margins_from_bed
                                                 : Answer::margins_from_travel;
    }
    case QuestionKind::numbers:
      break;
  }
  if (!grid) return std::nullopt;
  return grid->frame == Frame::probe ? Answer::numbers_for_probe : Answer::numbers_for_nozzle;
}

double log_agreement(const std::vector<Answer>& answers, const Setup& setup) {
  double sum = 0;
  for (const Answer answer : answers) {
    sum += std::log(chance_of(answer, expected_answer(question_of(answer), setup)));
  }
  return sum;
}

std::optional<std::pair<Answer, Answer>> contradicting(const std::vector<Answer>& answers) {
  for (const QuestionKind kind : kQuestions) {
    const auto given = [&](Answer answer) {
      return std::find(answers.begin(), answers.end(), answer) != answers.end();
    };
    if (given(first_answer(kind)) && given(second_answer(kind))) {
      return {{first_answer(kind), second_answer(kind)}};
    }
  }
  return std::nullopt;
}

std::vector<Contradicted> contradicted(const std::vector<Answer>& answers, const Setup& setup) {
  std::vector<Contradicted> out;
  for (const Answer answer : answers) {
    const std::optional<Answer> expected = expected_answer(question_of(answer), setup);
    if (expected && *expected != answer) out.push_back({answer, *expected});
  }
  return out;
}

std::array<Answer, 2> answers_to(QuestionKind question) {
  return {first_answer(question), second_answer(question)};
}

std::optional<QuestionKind> next_question(const std::vector<Explanation>& explanations,
                                          const std::vector<Answer>& answered) {
  double most = kLeastToTell;
  std::optional<QuestionKind> best;
  for (const QuestionKind kind : kQuestions) {
    const bool known = std::any_of(answered.begin(), answered.end(),
                                   [&](Answer a) { return question_of(a) == kind; });
    if (known) continue;
    const double information = information_of(kind, explanations);
    if (information > most) most = information, best = kind;
  }
  return best;
}

}  // namespace leeway
