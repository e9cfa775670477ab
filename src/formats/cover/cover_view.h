#pragma once
// What text and Markdown show of a print and the mesh bounds.

#include <string>
#include <vector>

#include "formats/text/words.h"
#include "leeway/write_cover.h"

namespace leeway {

// "12.5 on the left and 3 at the back"; empty for no side.
std::string past_words(const FitSides& sides);

// Without capital and full stop, to go after the setup's name.
std::string cover_headline(const CoverResult& result, const MotionSummary* program);

// Each with capital and full stop. What is in the way, what is printed, what is not known.
std::vector<std::string> stop_sentences(const CoverResult& result, const Words& words);
std::vector<std::string> extent_sentences(const CoverResult& result);
std::vector<std::string> program_sentences(const WriteCoverOptions& options);

// What there is to say of the grid, before its numbers.
std::string grid_sentence(const CoverResult& result, const MotionSummary* program);
// The command that puts the grid into a setup, and the one that checks it; empty without a grid.
std::string check_command_words(const CoverResult& result, const std::string& setup);

}  // namespace leeway
