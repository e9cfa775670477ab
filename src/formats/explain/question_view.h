#pragma once
// What `explain` asks next, and what was read and seen.

#include <string>

#include "leeway/explain.h"

namespace leeway {

// The question alone.
std::string asks(QuestionKind question);
// "left", "at the centre": within a sentence.
std::string answer_words(Answer answer);
// What it would mean: "\"sign of x\", 93 %".
std::string meaning_words(const PossibleAnswer& answer);

// The question, and what each answer would mean; `options`: with what to add to the command.
std::string question_sentence(const Question& question, bool options);

// That what was seen is not as the setup has it.
std::string contradicted_sentence(const Contradicted& one);

// The numbers that were used, in words.
std::string numbers_sentence(const Setup& setup);

// Where all points are reachable and nothing is known of what a controller does.
std::string refused_sentence();

}  // namespace leeway
