#pragma once
// What could be looked at next, and what each explanation would have one see.

#include <array>
#include <optional>
#include <vector>

#include "leeway/explain.h"

namespace leeway {

// What somebody with this machine would answer; nothing where neither answer fits.
std::optional<Answer> expected_answer(QuestionKind question, const Setup& setup);

QuestionKind question_of(Answer answer);

// How well a machine agrees with what was seen: a logarithm. Answers are sometimes wrong.
double log_agreement(const std::vector<Answer>& answers, const Setup& setup);

// Those of the answers that somebody with this machine would not give.
std::vector<Contradicted> contradicted(const std::vector<Answer>& answers, const Setup& setup);

// The probability of an explanation, and the machine that it supposes.
struct Explanation {
  double probability = 0;
  const Setup* supposes = nullptr;
};

// The question whose answer tells most, by expected information, of those that are not answered;
// nothing where none tells anything worth asking for.
std::optional<QuestionKind> next_question(const std::vector<Explanation>& explanations,
                                          const std::vector<Answer>& answered);

// Both, in their order.
std::array<Answer, 2> answers_to(QuestionKind question);

}  // namespace leeway
