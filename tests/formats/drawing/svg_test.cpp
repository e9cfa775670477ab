#include "formats/drawing/svg.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

#include "formats/svg_parser.h"

namespace leeway {
namespace {

TEST(SvgNumber, HasAtMostTwoDecimalsAndNoExponent) {
  EXPECT_EQ(svg_number(0), "0");
  EXPECT_EQ(svg_number(-0.0), "0");
  EXPECT_EQ(svg_number(-0.004), "0");
  EXPECT_EQ(svg_number(1.5), "1.5");
  EXPECT_EQ(svg_number(-1.25), "-1.25");
  EXPECT_EQ(svg_number(0.05), "0.05");
  EXPECT_EQ(svg_number(12.999), "13");
  EXPECT_EQ(svg_number(1234567.891), "1234567.89");
  EXPECT_EQ(svg_number(1e300), "1000000000");
  EXPECT_EQ(svg_number(std::numeric_limits<double>::quiet_NaN()), "0");
}

TEST(SvgText, EscapesMarkup) {
  EXPECT_EQ(xml_text("a<b> & \"c\" 'd'"), "a&lt;b&gt; &amp; &quot;c&quot; &#39;d&#39;");
  EXPECT_EQ(xml_text("]]>"), "]]&gt;");
}

// XML 1.0 (5th edition), 2.2: Char ::= #x9 | #xA | #xD | [#x20-#xD7FF] | [#xE000-#xFFFD] |
// [#x10000-#x10FFFF]. Every character is tried, and comes back from the parser as it was or as
// U+FFFD or a blank.
TEST(SvgText, LetsNoCharacterBreakTheDocument) {
  std::string all;
  for (unsigned c = 1; c < 0x30000; ++c) {
    if (c < 0x80) {
      all += static_cast<char>(c);
    } else if (c < 0x800) {
      all += static_cast<char>(0xC0 | (c >> 6));
      all += static_cast<char>(0x80 | (c & 63));
    } else if (c < 0x10000) {
      all += static_cast<char>(0xE0 | (c >> 12));
      all += static_cast<char>(0x80 | ((c >> 6) & 63));
      all += static_cast<char>(0x80 | (c & 63));
    } else {
      all += static_cast<char>(0xF0 | (c >> 18));
      all += static_cast<char>(0x80 | ((c >> 12) & 63));
      all += static_cast<char>(0x80 | ((c >> 6) & 63));
      all += static_cast<char>(0x80 | (c & 63));
    }
  }
  const std::string safe = xml_text(all);
  const auto elements = parse_svg("<a b=\"" + safe + "\">" + safe + "</a>");
  EXPECT_EQ(elements[0].text, elements[0].get("b"));
  EXPECT_NE(elements[0].text.find("~"), std::string::npos);
  EXPECT_NE(elements[0].text.find("\xC3\xA9"), std::string::npos);      // e with acute
  EXPECT_EQ(elements[0].text.find("\xE2\x80\xAE"), std::string::npos);  // U+202E
  EXPECT_EQ(elements[0].text.find("\xE2\x81\xA6"), std::string::npos);  // U+2066
  EXPECT_EQ(elements[0].text.find('\x1B'), std::string::npos);
}

TEST(SvgText, ReplacesBytesThatAreNotUtf8) {
  EXPECT_EQ(xml_text(std::string("a\0b", 3)),
            "a\xEF\xBF\xBD"
            "b");
  EXPECT_EQ(xml_text("a\xFFz"), "a\xEF\xBF\xBDz");
  EXPECT_EQ(xml_text("\xED\xA0\x80").find("\xED"), std::string::npos);  // half a surrogate pair
}

TEST(SvgPath, TurnsYOverAndKeepsHoles) {
  const View view{2, {10, 100}};
  const MultiPolygon bed{{{{0, 0}, {10, 0}, {10, 10}}, {{{1, 1}, {2, 1}, {2, 2}}}}};
  EXPECT_EQ(path_data(bed, view), "M10 100L30 100L30 80ZM12 98L14 98L14 96Z");
  EXPECT_EQ(path_data(Shape(Box{0, 10, 0, 5}), view), "M10 90L30 90L30 100L10 100Z");
  EXPECT_EQ(path_data(Shape(Disc{{5, 5}, 5}), view), "M10 90a10 10 0 1 0 20 0a10 10 0 1 0 -20 0Z");
  EXPECT_EQ(path_data(Shape(Point{}), view), "");
}

TEST(SvgPath, WritesWhatThePictureCannotTellApartOnce) {
  EXPECT_EQ(path_data(Ring{{0, 0}, {0.001, 0}, {5, 0}, {5, 5}}, View{}), "M0 0L5 0L5 -5Z");
}

TEST(SvgWriter, ClosesWhatItOpens) {
  std::string text;
  const TextSink sink = [&](std::string_view piece) { text += piece; };
  SvgWriter svg(sink);
  svg.open("svg", {{"id", "a\"b"}});
  svg.group("x");
  svg.text("label", {1, 2}, Anchor::end, "1 < 2");
  svg.close();
  svg.close();
  const auto elements = parse_svg(text);
  ASSERT_EQ(elements.size(), 3u);
  EXPECT_EQ(elements[0].get("id"), "a\"b");
  EXPECT_EQ(elements[2].text, "1 < 2");
  EXPECT_EQ(elements[2].get("text-anchor"), "end");
  EXPECT_EQ(elements[2].above, (std::vector<std::string>{"svg", "g"}));
}

}  // namespace
}  // namespace leeway
