#pragma once
// UTF-8 (RFC 3629), as far as reading a file needs it.

#include <cstddef>
#include <cstdint>
#include <string_view>

namespace leeway {

struct Utf8Character {
  std::int32_t code = -1;  // below 0: the byte begins none
  std::size_t length = 1;  // in bytes
};

// The character that begins at `at`, which may be U+0000. REQUIRES: `at` is within the text.
Utf8Character utf8_character(std::string_view text, std::size_t at);

// The length of the character that begins at `at`, in bytes; 0 where none does.
std::size_t utf8_length(std::string_view text, std::size_t at);

// The first byte that belongs to no character; npos when there is none. The character U+0000
// counts as none: no text holds it.
std::size_t first_not_utf8(std::string_view text, std::size_t from = 0);

// Where a byte stands, as a person counts. Lines end in LF, CR LF or CR.
struct LineColumn {
  int line = 1;
  int column = 1;  // in characters
};

// Counts on from one place of a text to later ones.
class LineCounter {
 public:
  explicit LineCounter(std::string_view text);

  // REQUIRES: offsets come in rising order.
  LineColumn at(std::size_t offset);

 private:
  std::string_view text_;
  std::size_t asked_ = 0;
  std::size_t reached_ = 0;
  LineColumn place_;
};

// A byte order mark at the front, which is not a part of the text.
inline constexpr std::string_view kByteOrderMark = "\xEF\xBB\xBF";

}  // namespace leeway
