#include "formats/text/names.h"

#include <gtest/gtest.h>

#include "formats/check_cases.h"

namespace leeway {
namespace {

TEST(Names, KeepLettersOfAnyScript) {
  EXPECT_EQ(one_line("Brachvogel, h\xC3\xB6her \xE5\x8A\x9B"),
            "Brachvogel, h\xC3\xB6her \xE5\x8A\x9B");
}

TEST(Names, CannotMoveATerminalsCursor) {
  EXPECT_EQ(one_line("a\x1b[2Jb\x7f"), "a?[2Jb?");
  EXPECT_EQ(one_line("a\r\nb\tc"), "a  b c");
  EXPECT_EQ(one_line("\xC2\x9B"
                     "31m"),
            "?31m");  // a control character of one byte in Latin-1
  EXPECT_EQ(one_line(std::string_view("a\0b", 3)), "a?b");
}

TEST(Names, CannotTurnTheDirectionOfReadingNorHide) {
  EXPECT_EQ(one_line("a\xE2\x80\xAE"
                     "b"),
            "a?b");  // U+202E
  EXPECT_EQ(one_line("a\xE2\x81\xA7"
                     "b"),
            "a?b");  // U+2067
  EXPECT_EQ(one_line("a\xE2\x80\x8B"
                     "b"),
            "a?b");  // U+200B
  EXPECT_EQ(one_line("a\xF3\xA0\x81\x81"
                     "b"),
            "a?b");  // U+E0041
  EXPECT_EQ(one_line("a\xE2\x80\xA8"
                     "b"),
            "a b");  // U+2028
}

TEST(Names, ReplaceBytesThatAreNotUtf8) {
  EXPECT_EQ(one_line("\xFF"
                     "a\xC3"),
            "?a?");
  EXPECT_EQ(one_line("\xC0\xAF"), "??");       // an overlong '/'
  EXPECT_EQ(one_line("\xED\xA0\x80"), "???");  // half of a surrogate pair
}

TEST(Names, CountWideLettersTwiceAndAccentsNot) {
  EXPECT_EQ(columns_of("abc"), 3u);
  EXPECT_EQ(columns_of("\xE5\x8A\x9B"), 2u);
  EXPECT_EQ(columns_of("e\xCC\x81"), 1u);
}

TEST(Names, AreCutBetweenCharacters) {
  EXPECT_EQ(cut("abcdef", 6), "abcdef");
  EXPECT_EQ(cut("abcdefg", 6), "abc...");
  EXPECT_EQ(cut("\xE5\x8A\x9B\xE5\x8A\x9B\xE5\x8A\x9B", 5), "\xE5\x8A\x9B...");
  EXPECT_EQ(columns_of(text_name(std::string(1000, 'x'))), 40u);
}

TEST(Names, AreNoMarkupInMarkdown) {
  EXPECT_EQ(markdown_name("front left, 1.5"), "front left, 1.5");
  EXPECT_EQ(markdown_name("a|b"), "a\\|b");
  EXPECT_EQ(markdown_name("<img src=x>&amp;"), "&lt;img src=x&gt;&amp;amp;");
  EXPECT_EQ(markdown_name("*a* _b_ `c` [d](e)"), "\\*a\\* \\_b\\_ \\`c\\` \\[d\\](e)");
  EXPECT_EQ(markdown_name("http://a www.b @c"), "http\\://a www\\.b \\@c");
  EXPECT_EQ(markdown_name("a\\"), "a\\\\");
}

// RFC 4180 section 2, rules 5 to 7.
TEST(Names, AreQuotedInCsvWhereTheFormatAsksForIt) {
  EXPECT_EQ(csv_text("grid 1"), "grid 1");
  EXPECT_EQ(csv_text("a,b"), "\"a,b\"");
  EXPECT_EQ(csv_text("a\"b"), "\"a\"\"b\"");
  EXPECT_EQ(csv_text("a\r\nb"), "a  b");
}

TEST(Names, AreNoFormulasInASpreadsheet) {
  EXPECT_EQ(csv_text("=1+1"), "\"'=1+1\"");
  EXPECT_EQ(csv_text("+a"), "\"'+a\"");
  EXPECT_EQ(csv_text("-a"), "\"'-a\"");
  EXPECT_EQ(csv_text("@a"), "\"'@a\"");
  EXPECT_EQ(csv_text("\t=a"), "\"' =a\"");
  EXPECT_EQ(csv_text("a=b"), "a=b");
}

}  // namespace
}  // namespace leeway
