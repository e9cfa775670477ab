#include "formats/json/json_token.h"

#include <fast_float/fast_float.h>
#include <fmt/format.h>

#include <cmath>

#include "formats/text/letters.h"
#include "formats/text/names.h"
#include "formats/text/spelling.h"
#include "formats/text/utf8.h"

namespace leeway {
namespace {

std::size_t after_digits(std::string_view word, std::size_t at) {
  while (at < word.size() && is_digit(word[at])) ++at;
  return at;
}

// The four hexadecimal digits of an escape as a number; -1 where there are not four.
int hex4(std::string_view text, std::size_t at) {
  if (at + 4 > text.size()) return -1;
  int value = 0;
  for (std::size_t i = at; i < at + 4; ++i) {
    const char c = text[i];
    const int digit = is_digit(c)              ? c - '0'
                      : (c >= 'a' && c <= 'f') ? c - 'a' + 10
                      : (c >= 'A' && c <= 'F') ? c - 'A' + 10
                                               : -1;
    if (digit < 0) return -1;
    value = value * 16 + digit;
  }
  return value;
}

// Steps over an escape that begins at its backslash; false where JSON knows no such escape.
bool skip_escape(std::string_view text, std::size_t& at) {
  const char kind = at + 1 < text.size() ? text[at + 1] : ' ';
  if (kind != 'u') {
    at += 2;
    return std::string_view("\"\\/bfnrt").find(kind) != std::string_view::npos;
  }
  const int first = hex4(text, at + 2);
  at += 6;
  if (first < 0xD800 || first > 0xDFFF) return first >= 0;
  // Half a pair of surrogates is no character: the other half has to follow.
  const bool paired = first < 0xDC00 && text.substr(at, 2) == "\\u";
  const int second = paired ? hex4(text, at + 2) : -1;
  at += 6;
  return second >= 0xDC00 && second <= 0xDFFF;
}

SyntaxFault string_fault(std::size_t at, std::string found, std::string allowed) {
  return {at, "not-json", std::move(found), std::move(allowed), {}};
}

}  // namespace

std::size_t skip_blank(std::string_view text, std::size_t at) {
  while (at < text.size()) {
    const std::size_t start = at;
    if (std::string_view(" \t\r\n").find(text[at]) != std::string_view::npos) {
      ++at;
    } else if (text.substr(at, 2) == "//") {
      at = std::min(text.find_first_of("\r\n", at), text.size());
    } else if (text.substr(at, 2) == "/*") {
      const std::size_t end = text.find("*/", at + 2);
      if (end == std::string_view::npos) return start;
      at = end + 2;
    } else {
      break;
    }
  }
  return at;
}

bool scan_string(std::string_view text, std::size_t& at, SyntaxFault& fault) {
  const std::size_t start = at++;
  while (at < text.size() && text[at] != '"') {
    const char c = text[at];
    if (c == '\n' || c == '\r') break;
    const std::size_t here = at;
    if (c == '\\') {
      if (skip_escape(text, at)) continue;
      fault = string_fault(here, fmt::format("the escape \"{}\"", text.substr(here, 2)),
                           "\\\" \\\\ \\/ \\b \\f \\n \\r \\t, or \\u and four hexadecimal digits "
                           "that make a character");
      return false;
    }
    if (static_cast<unsigned char>(c) < 0x20) {
      fault = string_fault(
          here, fmt::format("the control character U+{:04X} in a text", static_cast<int>(c)),
          "an escape such as \\t");
      return false;
    }
    ++at;
  }
  if (at >= text.size() || text[at] != '"') {
    fault =
        string_fault(start, "a text without its closing quote", "a closing \" on the same line");
    return false;
  }
  ++at;
  return true;
}

std::string_view word_at(std::string_view text, std::size_t at) {
  std::size_t end = at;
  while (end < text.size() && (is_digit(text[end]) || is_letter(text[end]) ||
                               std::string_view("+-.").find(text[end]) != std::string_view::npos)) {
    ++end;
  }
  return text.substr(at, end - at);
}

bool is_json_number(std::string_view word) {
  std::size_t at = word.substr(0, 1) == "-" ? 1 : 0;
  const std::size_t whole = at;
  at = after_digits(word, at);
  if (at == whole || (word[whole] == '0' && at > whole + 1)) return false;
  if (at < word.size() && word[at] == '.') {
    const std::size_t fraction = ++at;
    at = after_digits(word, at);
    if (at == fraction) return false;
  }
  if (at < word.size() && (word[at] == 'e' || word[at] == 'E')) {
    ++at;
    if (at < word.size() && (word[at] == '+' || word[at] == '-')) ++at;
    const std::size_t exponent = at;
    at = after_digits(word, at);
    if (at == exponent) return false;
  }
  return at == word.size();
}

bool is_not_finite(std::string_view word) {
  if (is_json_number(word)) {
    double value = 0;
    fast_float::from_chars(word.data(), word.data() + word.size(), value);
    return !std::isfinite(value);
  }
  if (word.substr(0, 1) == "-" || word.substr(0, 1) == "+") word.remove_prefix(1);
  std::string small(word);
  for (char& c : small) c = (c >= 'A' && c <= 'Z') ? static_cast<char>(c - 'A' + 'a') : c;
  return small == "nan" || small == "inf" || small == "infinity";
}

std::string describe_at(std::string_view text, std::size_t at) {
  if (at >= text.size()) return "the end of the file";
  if (text.substr(at, 2) == "/*") return "a comment without its closing */";
  const std::string_view word = word_at(text, at);
  if (is_json_number(word)) return fmt::format("the number {}", cut(word, kShownColumns));
  if (!word.empty()) return fmt::format("the word \"{}\"", cut(word, kShownColumns));
  if (text[at] == '"') return "a text in quotes";
  if (text[at] == '\'') return "a single quote";
  const auto c = static_cast<unsigned char>(text[at]);
  if (c < 0x20 || c == 0x7F) return fmt::format("the control character U+{:04X}", c);
  const std::string_view character = text.substr(at, utf8_length(text, at));
  const std::string hint = character_hint(character);
  return hint.empty() ? fmt::format("the character \"{}\"", character) : hint;
}

}  // namespace leeway
