#include "formats/text/names.h"

#include <utf8proc.h>

#include <cstdint>

#include "formats/text/utf8.h"

namespace leeway {
namespace {

constexpr std::size_t kWidestName = 40;
constexpr std::size_t kQuotedColumns = 60;

bool is_blank(std::int32_t c) {
  const utf8proc_category_t category = utf8proc_category(c);
  return (c >= '\t' && c <= '\r') || c == 0x85 || category == UTF8PROC_CATEGORY_ZS ||
         category == UTF8PROC_CATEGORY_ZL || category == UTF8PROC_CATEGORY_ZP;
}

// Control and format characters (they turn the direction of reading), what is made to be ignored
// (Unicode's Default_Ignorable_Code_Point: fillers, variation selectors), and noncharacters.
bool is_unseen(std::int32_t c) {
  const utf8proc_property_t& property = *utf8proc_get_property(c);
  return property.category == UTF8PROC_CATEGORY_CC || property.category == UTF8PROC_CATEGORY_CF ||
         property.ignorable || (c & 0xFFFE) == 0xFFFE || (c >= 0xFDD0 && c <= 0xFDEF);
}

// Unicode Standard Annex 9: letters that are read from right to left, and Arabic digits.
bool turns(std::int32_t c) {
  const auto direction = utf8proc_get_property(c)->bidi_class;
  return direction == UTF8PROC_BIDI_CLASS_R || direction == UTF8PROC_BIDI_CLASS_AL ||
         direction == UTF8PROC_BIDI_CLASS_AN;
}

constexpr std::string_view kIsolate = "\xE2\x81\xA8";
constexpr std::string_view kEndIsolate = "\xE2\x81\xA9";

// Unicode Standard Annex 11; what is no character shows as one sign.
std::size_t character_columns(const Utf8Character& character) {
  return character.code < 0 ? 1 : static_cast<std::size_t>(utf8proc_charwidth(character.code));
}

bool begins_formula(std::string_view text) {
  const std::size_t first = text.find_first_not_of(' ');
  return first != std::string_view::npos &&
         std::string_view("=+-@").find(text[first]) != std::string_view::npos;
}

// What renderers make a link of, in the middle: "://" and "www.".
bool within_link(std::string_view text, std::size_t at) {
  if (text[at] == ':') return text.substr(at + 1, 1) == "/";
  return text[at] == '.' && at > 0 && (text[at - 1] == 'w' || text[at - 1] == 'W');
}

void escape_markdown(std::string_view text, std::size_t at, std::string& out) {
  constexpr std::string_view kActive = "\\`*_[]|~$@#";
  const char c = text[at];
  if (c == '&') {
    out += "&amp;";
  } else if (c == '<') {
    out += "&lt;";
  } else if (c == '>') {
    out += "&gt;";
  } else {
    if (within_link(text, at) || kActive.find(c) != std::string_view::npos) out += '\\';
    out += c;
  }
}

}  // namespace

std::string one_line(std::string_view name) {
  std::string out;
  out.reserve(name.size());
  for (std::size_t at = 0; at < name.size();) {
    const Utf8Character character = utf8_character(name, at);
    if (character.code >= 0 && is_blank(character.code)) {
      out += ' ';
    } else if (character.code < 0 || is_unseen(character.code)) {
      out += '?';
    } else {
      out.append(name.substr(at, character.length));
    }
    at += character.length;
  }
  return out;
}

std::string shell_word(std::string_view word) {
  constexpr std::string_view kPlain =
      "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789_./+-";
  if (word.find_first_not_of(kPlain) == std::string_view::npos) return std::string(word);
  std::string out = "'";
  for (const char c : one_line(word)) out += c == '\'' ? std::string("'\\''") : std::string(1, c);
  return out + "'";
}

std::size_t columns_of(std::string_view text) {
  std::size_t columns = 0;
  for (std::size_t at = 0; at < text.size();) {
    const Utf8Character character = utf8_character(text, at);
    columns += character_columns(character);
    at += character.length;
  }
  return columns;
}

std::string cut(std::string_view text, std::size_t columns) {
  if (columns_of(text) <= columns) return std::string(text);
  constexpr std::string_view kMore = "...";
  const std::size_t room = columns > kMore.size() ? columns - kMore.size() : 0;
  std::size_t taken = 0;
  std::size_t end = 0;
  while (end < text.size()) {
    const Utf8Character character = utf8_character(text, end);
    taken += character_columns(character);
    if (taken > room) break;
    end += character.length;
  }
  return std::string(text.substr(0, end)).append(kMore.substr(0, columns));
}

std::string cut_middle(std::string_view text, std::size_t columns) {
  const std::size_t all = columns_of(text);
  if (all <= columns) return std::string(text);
  constexpr std::string_view kMore = "...";
  const std::size_t left = columns > kMore.size() ? columns - kMore.size() : 0;
  std::size_t head = 0;
  std::size_t tail = text.size();
  std::size_t seen = 0;
  for (std::size_t at = 0; at < text.size();) {
    const Utf8Character character = utf8_character(text, at);
    seen += character_columns(character);
    const std::size_t end = at + character.length;
    if (seen <= (left + 1) / 2) head = end;
    // What follows is the longest end that still has its place.
    if (tail == text.size() && all - seen <= left / 2) tail = end;
    at = end;
  }
  return std::string(text.substr(0, head))
      .append(kMore.substr(0, columns))
      .append(text.substr(tail));
}

std::string in_quotes(std::string_view text) {
  return '"' + cut(one_line(text), kQuotedColumns) + '"';
}

std::string isolated(std::string text) {
  for (std::size_t at = 0; at < text.size();) {
    const Utf8Character character = utf8_character(text, at);
    if (character.code >= 0 && turns(character.code)) {
      return std::string(kIsolate).append(text).append(kEndIsolate);
    }
    at += character.length;
  }
  return text;
}

std::string without_isolates(std::string_view text) {
  std::string out;
  out.reserve(text.size());
  for (std::size_t at = 0; at < text.size();) {
    const std::string_view here = text.substr(at, kIsolate.size());
    if (here == kIsolate || here == kEndIsolate) {
      at += here.size();
    } else {
      out += text[at++];
    }
  }
  return out;
}

std::string text_name(std::string_view name) { return isolated(one_line(name)); }

std::string picture_name(std::string_view name) {
  return isolated(cut_middle(one_line(name), kWidestName));
}

std::string markdown_name(std::string_view name) {
  const std::string plain = one_line(name);
  std::string out;
  for (std::size_t i = 0; i < plain.size(); ++i) escape_markdown(plain, i, out);
  return out;
}

std::string csv_text(std::string_view text) {
  std::string plain = one_line(text);
  const bool formula = begins_formula(plain);
  if (!formula && plain.find_first_of(",\"") == std::string::npos) return plain;
  std::string out = formula ? "\"'" : "\"";
  for (const char c : plain) out.append(c == '"' ? 2 : 1, c);
  return out += '"';
}

}  // namespace leeway
