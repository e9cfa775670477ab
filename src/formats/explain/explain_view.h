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

// The same without the names and the full stop.
std::string group_gist(const FailingGroup& group, const ExplainResult& result, const Words& words);

// The arithmetic of the group's worst point, written out.
std::string arithmetic_sentence(const FailingGroup& group, const ExplainResult& result,
                                const Rig& rig, const Words& words);

// What is to be said first where moves are not clear; else empty.
std::string watch_moves_sentence(const CheckResult& checked, const Setup& setup,
                                 const Words& words);

std::string remedy_sentence(const Remedy& remedy, const Setup& setup);

// The tightest points, where all are reachable.
std::vector<std::string> tightest_sentences(const ExplainResult& result, const Words& words);

// What stands before lists: without a full stop, a colon is to follow.
std::string tightest_lead(const ExplainResult& result, const Setup& setup);
std::string remedies_lead();

// Where all points are reachable and a machine refuses them all the same: what to compare, in
// order.
std::string compare_lead();
std::vector<std::string> compare_sentences(const Setup& setup);

}  // namespace leeway
