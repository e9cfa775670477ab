#pragma once
// Words that are nearly right.

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace leeway {

using WordList = std::vector<std::string_view>;

// The least number of insertions, deletions, substitutions and exchanges of neighbours that turn
// one word into the other, no place edited twice (the restricted distance of Damerau and
// Levenshtein). Bytes count.
std::size_t edit_distance(std::string_view a, std::string_view b);

// The word of the list that was plausibly meant; empty when none is close enough. Capitals count
// as small letters; blanks and hyphens as underscores; a word we do not use stands for ours
// ("plate" for "bed").
std::string_view nearest_word(std::string_view word, const WordList& words);

// "offset, spot, body".
std::string listed(const WordList& words);

// What looks like a number, or a text, to its writer but not to us, in words: "a decimal comma?
// write -30.5" for numbers that were too many, "a dash that is not the minus sign". Empty for
// neither.
std::string comma_hint(std::string_view numbers);
std::string character_hint(std::string_view text);

}  // namespace leeway
