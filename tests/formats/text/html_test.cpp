#include "formats/text/html.h"

#include <gtest/gtest.h>

#include "formats/check_cases.h"

namespace leeway {
namespace {

TEST(Html, EscapesMarkupAndBothQuotes) {
  // The five that XML 1.0 (4.6) predefines; &#39; because HTML 4 knew no &apos;.
  EXPECT_EQ(html_text("<b a=\"x\">'&amp;"), "&lt;b a=&quot;x&quot;&gt;&#39;&amp;amp;");
  EXPECT_EQ(html_attribute("\" onload='x' <"), "&quot; onload=&#39;x&#39; &lt;");
}

TEST(Html, LeavesNoControlNorTurningCharacter) {
  EXPECT_EQ(html_text("a\x1b[31m\xE2\x80\xAE"
                      "b\x7f\xC2\x9B\xFF"),
            "a?[31m?b???");
  EXPECT_EQ(html_text(std::string_view("a\0b\r\nc", 6)), "a?b  c");
}

TEST(Html, KeepsLettersOfAnyScript) {
  EXPECT_EQ(html_text("h\xC3\xB6her \xE5\x8A\x9B"), "h\xC3\xB6her \xE5\x8A\x9B");
}

TEST(Html, SetsNamesApartFromTheSentence) {
  EXPECT_EQ(html_text("see " + html_name("a<b") + ", then " + html_name("c") + "."),
            "see <bdi>a&lt;b</bdi>, then <bdi>c</bdi>.");
  EXPECT_EQ(html_attribute("see " + html_name("a\"b")), "see a&quot;b");
}

TEST(Html, ClosesWhatItOpensWhateverTheMarks) {
  EXPECT_EQ(html_text("\x03"
                      "a\x02"
                      "b"),
            "?a<bdi>b</bdi>");
  EXPECT_EQ(html_text("\x02"
                      "a\x02"
                      "b\x03"
                      "c\x03"),
            "<bdi>a?b</bdi>c?");
  // A name cannot bring marks of its own.
  EXPECT_EQ(html_text(html_name("a\x03<i>\x02"
                                "b")),
            "<bdi>a?&lt;i&gt;?b</bdi>");
}

TEST(Html, WritesNoElementForNothing) {
  EXPECT_EQ(html_element("p", ""), "");
  EXPECT_EQ(html_element("p", "a & b", "class=\"note\""), "<p class=\"note\">a &amp; b</p>\n");
}

}  // namespace
}  // namespace leeway
