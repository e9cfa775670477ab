#include "formats/text/utf8.h"

#include <gtest/gtest.h>

#include <string>

namespace leeway {
namespace {

constexpr std::size_t kNone = std::string_view::npos;

// RFC 3629, section 4 (the syntax) and section 10 (forms that must not be taken), from memory.
TEST(Utf8, TakesTheFirstAndLastCharacterOfEachLength) {
  for (const char* text :
       {"\x01", "\x7F", "\xC2\x80", "\xDF\xBF", "\xE0\xA0\x80", "\xED\x9F\xBF", "\xEE\x80\x80",
        "\xEF\xBF\xBF", "\xF0\x90\x80\x80", "\xF4\x8F\xBF\xBF"}) {
    EXPECT_EQ(first_not_utf8(text), kNone) << text;
    EXPECT_EQ(utf8_length(text, 0), std::string_view(text).size());
  }
}

TEST(Utf8, RefusesWhatIsNoCharacter) {
  for (const char* text :
       {"\x80", "\xBF", "\xC0\x80", "\xC1\xBF", "\xE0\x9F\xBF", "\xED\xA0\x80", "\xED\xBF\xBF",
        "\xF0\x8F\xBF\xBF", "\xF4\x90\x80\x80", "\xF5\x80\x80\x80", "\xFE", "\xFF", "\xC3",
        "\xE2\x82", "\xF0\x9F\x98", "\xC3(", "\xE2(\xA1"}) {
    EXPECT_EQ(first_not_utf8(text), 0u) << text;
  }
}

TEST(Utf8, FindsABadByteAnywhereInALongText) {
  for (std::size_t at = 0; at < 40; ++at) {
    std::string text(40, 'a');
    text[at] = '\xE9';
    EXPECT_EQ(first_not_utf8(text), at);
    text[at] = '\0';
    EXPECT_EQ(first_not_utf8(text), at);
  }
}

TEST(LineCounter, CountsLinesOfEveryKindAndColumnsInCharacters) {
  const std::string text = "a\nb\r\nc\r\xC3\xA4\xF0\x9F\x98\x80z";
  LineCounter lines(text);
  const auto expect = [&](std::size_t offset, int line, int column) {
    const LineColumn place = lines.at(offset);
    EXPECT_EQ(place.line, line) << offset;
    EXPECT_EQ(place.column, column) << offset;
  };
  expect(0, 1, 1);
  expect(1, 1, 2);
  expect(2, 2, 1);
  expect(5, 3, 1);
  expect(7, 4, 1);
  expect(9, 4, 2);
  expect(13, 4, 3);
  expect(14, 4, 4);
  expect(1000, 4, 4);
}

TEST(LineCounter, LeavesAByteOrderMarkOut) {
  LineCounter lines("\xEF\xBB\xBF{}");
  EXPECT_EQ(lines.at(3).column, 1);
  EXPECT_EQ(lines.at(4).column, 2);
}

}  // namespace
}  // namespace leeway
