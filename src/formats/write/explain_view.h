#pragma once
// What text and Markdown say of why points fail.

#include <string>
#include <vector>

#include "formats/text/words.h"
#include "leeway/explain.h"

namespace leeway {

// Each a sentence or more, with capital and full stop.

// What was asked for, and how it went.
std::string asked_sentence(const ExplainResult& result, const Setup& setup, const Words& words);

// "5 points fail at travel right: ... ."
std::string group_sentence(const FailingGroup& group, const ExplainResult& result,
                           const Words& words);

// The arithmetic of the group's worst point, written out.
std::string arithmetic_sentence(const FailingGroup& group, const ExplainResult& result,
                                const Setup& setup, const Limits& limits, const Words& words);

// The hypothesis, and what would confirm or refute it at the machine.
std::string slip_sentence(const SlipFound& slip, const Setup& setup);
std::string confirm_sentence(const SlipFound& slip, const Setup& setup);

std::string cure_sentence(const Cure& cure, const Setup& setup);

// The tightest points, where all are reachable.
std::vector<std::string> tightest_sentences(const ExplainResult& result, const Words& words);

// What stands before lists: without a full stop, a colon is to follow. REQUIRES: slips_lead: slips.
std::string tightest_lead();
std::string slips_lead(const ExplainResult& result);
std::string cures_lead();

// Where points fail and no slip was found.
std::string no_slip_sentence();

}  // namespace leeway
