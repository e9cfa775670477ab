#pragma once
// What `explain` says of the mistakes that would account for what fails.

#include <string>

#include "leeway/explain.h"

namespace leeway {

// Each a sentence or more, with capital and full stop.

// "69 %", "over 99 %".
std::string chance_words(double probability);

// Below it nothing is the reason: it only is less improbable than the rest.
inline constexpr double kStandsOut = 0.1;
bool nothing_stands_out(const ExplainResult& result);
std::string nothing_stands_out_sentence();

// The hypothesis with its probability.
std::string mistake_sentence(const MistakeFound& mistake, const Setup& setup);

// That the numbers are right and the request is too large; empty where that is hardly possible.
std::string too_much_sentence(const ExplainResult& result);
// Whether that is the best explanation: then it comes before the mistakes.
bool too_much_first(const ExplainResult& result);

// Stands before the list: without a full stop, a colon is to follow. REQUIRES: mistakes.
std::string mistakes_lead(const ExplainResult& result);

// Where points fail and no mistake was found.
std::string no_mistake_sentence(const ExplainResult& result);

}  // namespace leeway
