#include "formats/text/utf8.h"

#include <utf8proc.h>

#include <algorithm>
#include <cstring>

#include "geometry/plane/assert.h"

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

Utf8Character utf8_character(std::string_view text, std::size_t at) {
  LEEWAY_ASSERT(at < text.size());
  const auto byte = static_cast<unsigned char>(text[at]);
  if (byte < 0x80) return {byte, 1};
  Utf8Character character;
  const utf8proc_ssize_t length =
      utf8proc_iterate(reinterpret_cast<const utf8proc_uint8_t*>(text.data() + at),
                       static_cast<utf8proc_ssize_t>(text.size() - at), &character.code);
  if (length <= 0) return {};
  character.length = static_cast<std::size_t>(length);
  return character;
}

std::size_t utf8_length(std::string_view text, std::size_t at) {
  const Utf8Character character = utf8_character(text, at);
  return character.code <= 0 ? 0 : character.length;
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
  LEEWAY_ASSERT(offset >= asked_);
  asked_ = offset;
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
