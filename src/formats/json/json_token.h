#pragma once
// The pieces of a JSON text that carry text or a value, judged one by one.

#include <cstddef>
#include <string>
#include <string_view>

namespace leeway {

// Where a text ceases to be JSON, and why in plain words.
struct SyntaxFault {
  std::size_t at = 0;
  std::string code;
  std::string found;
  std::string allowed;
  std::string nearest;
};

// The end of the blanks and comments that begin at `at`. A comment without end stops at its start.
std::size_t skip_blank(std::string_view text, std::size_t at);

// Reads the string whose opening quote is at `at`, and steps over it. False where it is no JSON
// string; `fault` then says why.
bool scan_string(std::string_view text, std::size_t& at, SyntaxFault& fault);

// The letters, digits, signs and dots that begin at `at`: a number, a word, or an attempt at one.
std::string_view word_at(std::string_view text, std::size_t at);

bool is_json_number(std::string_view word);

// NaN or an infinity in whatever spelling, or a JSON number beyond the range of double.
bool is_not_finite(std::string_view word);

// What stands at `at`, for a message: `the character ";"`, `the word "offset"`, the end.
std::string describe_at(std::string_view text, std::size_t at);

}  // namespace leeway
