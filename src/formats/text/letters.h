#pragma once
// Letters of words that programs read.

namespace leeway {

// Of ASCII; the underscore is one of them.
inline bool is_letter(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '_';
}

inline bool is_digit(char c) { return c >= '0' && c <= '9'; }

}  // namespace leeway
