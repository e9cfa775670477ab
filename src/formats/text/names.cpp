#include "formats/text/names.h"

#include "formats/text/utf8.h"

namespace leeway {
namespace {

constexpr char32_t kBroken = 0xFFFFFFFF;
constexpr std::size_t kWidestName = 40;

struct Range {
  char32_t first;
  char32_t last;
};

template <std::size_t N>
bool within(const Range (&ranges)[N], char32_t c) {
  for (const Range& range : ranges) {
    if (c >= range.first && c <= range.last) return true;
  }
  return false;
}

// Unicode 15: control and format characters (general category Cc, Cf, Zl, Zp), fillers that show
// nothing, and the variation selectors.
constexpr Range kUnseen[] = {
    {0x00, 0x1F},       {0x7F, 0x9F},       {0xAD, 0xAD},       {0x34F, 0x34F},
    {0x600, 0x605},     {0x61C, 0x61C},     {0x6DD, 0x6DD},     {0x70F, 0x70F},
    {0x115F, 0x1160},   {0x17B4, 0x17B5},   {0x180B, 0x180F},   {0x200B, 0x200F},
    {0x2028, 0x202E},   {0x2060, 0x206F},   {0x3164, 0x3164},   {0xFE00, 0xFE0F},
    {0xFEFF, 0xFEFF},   {0xFFA0, 0xFFA0},   {0xFFF0, 0xFFFB},   {0xFFFE, 0xFFFF},
    {0x110BD, 0x110BD}, {0x1BCA0, 0x1BCA3}, {0x1D173, 0x1D17A}, {0xE0000, 0xE0FFF},
};

// White space other than the blank itself.
constexpr Range kBlank[] = {{0x09, 0x0D},     {0x85, 0x85},     {0xA0, 0xA0},
                            {0x1680, 0x1680}, {0x2000, 0x200A}, {0x2028, 0x2029},
                            {0x202F, 0x202F}, {0x205F, 0x205F}, {0x3000, 0x3000}};

// Unicode Standard Annex 11, wide and fullwidth, in rough blocks.
constexpr Range kWide[] = {
    {0x1100, 0x115F},   {0x2E80, 0x303E},   {0x3041, 0xA4CF},  {0xA960, 0xA97C}, {0xAC00, 0xD7A3},
    {0xF900, 0xFAFF},   {0xFE30, 0xFE6F},   {0xFF00, 0xFF60},  {0xFFE0, 0xFFE6}, {0x1F300, 0x1F64F},
    {0x1F680, 0x1F6FF}, {0x1F900, 0x1FAFF}, {0x20000, 0x3FFFD}};

constexpr Range kCombining[] = {{0x300, 0x36F},   {0x483, 0x489},   {0x591, 0x5BD},
                                {0x610, 0x61A},   {0x64B, 0x65F},   {0x1AB0, 0x1AFF},
                                {0x1DC0, 0x1DFF}, {0x20D0, 0x20FF}, {0xFE20, 0xFE2F}};

// Steps over one character; a byte that begins none is kBroken and one byte long.
char32_t next(std::string_view text, std::size_t& at) {
  const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
  const std::size_t length = utf8_length(text, at);
  if (length == 0) return byte(at++) == 0 ? 0 : kBroken;
  char32_t c = length == 1 ? byte(at) : byte(at) & (0x7Fu >> length);
  for (std::size_t i = 1; i < length; ++i) c = (c << 6) | (byte(at + i) & 0x3Fu);
  at += length;
  return c;
}

std::size_t character_columns(char32_t c) {
  if (within(kCombining, c)) return 0;
  return within(kWide, c) ? 2 : 1;
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
    const std::size_t from = at;
    const char32_t c = next(name, at);
    if (within(kBlank, c)) {
      out += ' ';
    } else if (c == kBroken || within(kUnseen, c)) {
      out += '?';
    } else {
      out.append(name.substr(from, at - from));
    }
  }
  return out;
}

std::size_t columns_of(std::string_view text) {
  std::size_t columns = 0;
  for (std::size_t at = 0; at < text.size();) columns += character_columns(next(text, at));
  return columns;
}

std::string cut(std::string_view text, std::size_t columns) {
  if (columns_of(text) <= columns) return std::string(text);
  constexpr std::string_view kMore = "...";
  const std::size_t room = columns > kMore.size() ? columns - kMore.size() : 0;
  std::size_t taken = 0;
  std::size_t end = 0;
  for (std::size_t at = 0; at < text.size(); end = at) {
    taken += character_columns(next(text, at));
    if (taken > room) break;
  }
  return std::string(text.substr(0, end)).append(kMore.substr(0, columns));
}

std::string text_name(std::string_view name) { return cut(one_line(name), kWidestName); }

std::string markdown_name(std::string_view name) {
  const std::string plain = text_name(name);
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
