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

// UnicodeData.txt 15.0, general category Cf, beyond the better known ones.
TEST(Names, CannotHideInAnyScript) {
  for (const char* unseen : {"\xE0\xA2\x90", "\xE0\xA2\x91", "\xE0\xA3\xA2",  // U+0890, 0891, 08E2
                             "\xD8\x80", "\xD8\x9C", "\xDB\x9D", "\xDC\x8F",  // 0600 61C 6DD 70F
                             "\xF0\x91\x83\x8D", "\xF0\x91\x82\xBD",          // 110CD, 110BD
                             "\xF0\x93\x90\xB0", "\xF0\x93\x90\xB8",          // 13430, 13438
                             "\xF0\x9B\xB2\xA0", "\xF0\x9D\x85\xB3",          // 1BCA0, 1D173
                             "\xC2\xAD", "\xE2\x81\xA0", "\xEF\xBB\xBF"}) {   // AD, 2060, FEFF
    EXPECT_EQ(one_line(std::string("a").append(unseen).append("b")), "a?b") << unseen;
  }
}

// DerivedCoreProperties.txt 15.0, Default_Ignorable_Code_Point; and the noncharacters.
TEST(Names, CannotHoldWhatIsMadeToBeIgnored) {
  for (const char* unseen :
       {"\xCD\x8F", "\xE1\x85\x9F", "\xE1\x9E\xB4", "\xE1\xA0\x8B", "\xE3\x85\xA4", "\xEF\xB8\x8F",
        "\xEF\xBE\xA0", "\xF3\xA0\x84\x80", "\xEF\xBF\xBE", "\xEF\xBF\xBF", "\xF4\x8F\xBF\xBF"}) {
    EXPECT_EQ(one_line(std::string("a").append(unseen).append("b")), "a?b") << unseen;
  }
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
  // Marks of Devanagari and of Thai.
  EXPECT_EQ(columns_of("\xE0\xA4\x95\xE0\xA5\x8D"), 1u);
  EXPECT_EQ(columns_of("\xE0\xB8\x81\xE0\xB8\xB4"), 1u);
  EXPECT_EQ(columns_of("\xF0\x9F\x90\xA6"), 2u);  // U+1F426, a bird
  EXPECT_EQ(columns_of("\xFF"), 1u);
}

TEST(Names, AreCutBetweenCharacters) {
  EXPECT_EQ(cut("abcdef", 6), "abcdef");
  EXPECT_EQ(cut("abcdefg", 6), "abc...");
  EXPECT_EQ(cut("\xE5\x8A\x9B\xE5\x8A\x9B\xE5\x8A\x9B", 5), "\xE5\x8A\x9B...");
  EXPECT_EQ(columns_of(picture_name(std::string(1000, 'x'))), 40u);
  EXPECT_EQ(columns_of(text_name(std::string(1000, 'x'))), 1000u);  // never in sentences
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

TEST(Names, AreCutInTheMiddle) {
  EXPECT_EQ(cut_middle("front left screw", 16), "front left screw");
  EXPECT_EQ(cut_middle("front left screw", 11), "fron...crew");
  EXPECT_EQ(cut_middle("front left screw", 10), "fron...rew");
  EXPECT_EQ(cut_middle("front left screw", 2), "..");
  // Wide characters (UAX 11) count two columns and are not halved.
  EXPECT_EQ(cut_middle("\xE5\x8B\x9B\xE5\x8B\x9B\xE5\x8B\x9B\xE5\x8B\x9B", 7),
            "\xE5\x8B\x9B...\xE5\x8B\x9B");
}

TEST(Names, AreIsolatedWhereTheyNeedIt) {
  const std::string name = "\xD7\xA9 clip";
  EXPECT_EQ(text_name("clip"), "clip");
  EXPECT_EQ(text_name(name), "\xE2\x81\xA8" + name + "\xE2\x81\xA9");
  EXPECT_EQ(without_isolates("a " + text_name(name) + " b"), "a " + name + " b");
  // No name can begin or end an isolate itself.
  EXPECT_EQ(text_name("\xE2\x81\xA9 clip"), "? clip");
  EXPECT_EQ(columns_of(text_name(name)), columns_of(name));
}

}  // namespace
}  // namespace leeway
