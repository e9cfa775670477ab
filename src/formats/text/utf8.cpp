#include "formats/text/utf8.h"

#include <algorithm>
#include <cstdint>
#include <cstring>

namespace leeway {
namespace {

constexpr std::size_t kWord = sizeof(std::uint64_t);

// Whether the eight bytes at `at` are ASCII and none is zero: the usual case, told in one step.
bool plain_word(std::string_view text, std::size_t at) {
  std::uint64_t word = 0;
  std::memcpy(&word, text.data() + at, kWord);
  constexpr std::uint64_t kHighs = 0x8080808080808080u;
  constexpr std::uint64_t kOnes = 0x0101010101010101u;
  return ((word | (word - kOnes)) & kHighs) == 0;
}

}  // namespace

std::size_t utf8_length(std::string_view text, std::size_t at) {
  const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[at + i]); };
  const unsigned char lead = byte(0);
  if (lead < 0x80) return lead == 0 ? 0 : 1;
  if (lead < 0xC2 || lead > 0xF4) return 0;
  const std::size_t length = lead < 0xE0 ? 2 : lead < 0xF0 ? 3 : 4;
  if (at + length > text.size()) return 0;
  for (std::size_t i = 1; i < length; ++i) {
    if ((byte(i) & 0xC0) != 0x80) return 0;
  }
  // RFC 3629: no longer form than needed, no surrogates, nothing above U+10FFFF.
  if ((lead == 0xE0 && byte(1) < 0xA0) || (lead == 0xED && byte(1) > 0x9F)) return 0;
  if ((lead == 0xF0 && byte(1) < 0x90) || (lead == 0xF4 && byte(1) > 0x8F)) return 0;
  return length;
}

std::size_t first_not_utf8(std::string_view text, std::size_t from) {
  for (std::size_t at = from; at < text.size();) {
    if (at + kWord <= text.size() && plain_word(text, at)) {
      at += kWord;
      continue;
    }
    const std::size_t length = utf8_length(text, at);
    if (length == 0) return at;
    at += length;
  }
  return std::string_view::npos;
}

LineCounter::LineCounter(std::string_view text) : text_(text) {
  if (text.substr(0, kByteOrderMark.size()) == kByteOrderMark) reached_ = kByteOrderMark.size();
}

LineColumn LineCounter::at(std::size_t offset) {
  while (reached_ < std::min(offset, text_.size())) {
    const char c = text_[reached_];
    const bool within_pair = c == '\r' && text_.substr(reached_ + 1, 1) == "\n";
    if (c == '\n' || (c == '\r' && !within_pair)) {
      ++place_.line;
      place_.column = 1;
    } else if (!within_pair) {
      ++place_.column;
    }
    reached_ += std::max<std::size_t>(utf8_length(text_, reached_), 1);
  }
  return place_;
}

}  // namespace leeway
