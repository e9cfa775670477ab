#include "formats/text/wkt.h"

#include <gtest/gtest.h>

#include <cmath>

#include "geometry/plane/polygons.h"

namespace leeway {
namespace {

MultiPolygon parsed(const std::string& text) {
  MultiPolygon polygons;
  const auto fault = parse_wkt(text, polygons);
  EXPECT_FALSE(fault) << text << ": " << fault->found << " at " << fault->character;
  return polygons;
}

// OGC 06-103r4, Table 6, as commonly reproduced; the area is computed.
TEST(Wkt, ReadsTheExamplesOfTheStandard) {
  const MultiPolygon one = parsed("POLYGON((10 10, 10 20, 20 20, 20 15, 10 10))");
  ASSERT_EQ(one.size(), 1u);
  EXPECT_EQ(one[0].outer, (Ring{{10, 10}, {10, 20}, {20, 20}, {20, 15}}));
  EXPECT_DOUBLE_EQ(area(one[0]), 75);
  const MultiPolygon two =
      parsed("MULTIPOLYGON(((10 10,10 20,20 20,20 15,10 10)),((60 60,70 70,80 60,60 60)))");
  ASSERT_EQ(two.size(), 2u);
  EXPECT_EQ(two[1].outer, (Ring{{60, 60}, {70, 70}, {80, 60}}));
}

// OGC 06-104r4, Annex C: areas of Blue Lake and of Green Forest are 219.5 and 1684.5 (computed).
TEST(Wkt, ReadsHoles) {
  const MultiPolygon lake =
      parsed("POLYGON ((52 18, 66 23, 73 9, 48 6, 52 18), (59 18, 67 18, 67 13, 59 13, 59 18))");
  ASSERT_EQ(lake[0].holes.size(), 1u);
  EXPECT_DOUBLE_EQ(area(lake[0]), 219.5);
  const MultiPolygon forest = parsed(
      "MULTIPOLYGON(((28 26,28 0,84 0,84 42,28 26),(52 18,66 23,73 9,48 6,52 18)),"
      "((59 18,67 18,67 13,59 13,59 18)))");
  EXPECT_DOUBLE_EQ(area(forest[0]) + area(forest[1]), 1684.5);
}

TEST(Wkt, TakesNumbersInEveryForm) {
  const MultiPolygon one = parsed("POLYGON((-1.5e1 +.5,2. 1E+2,0.25 -0,-15 .5))");
  EXPECT_EQ(one[0].outer, (Ring{{-15, 0.5}, {2, 100}, {0.25, 0}}));
  EXPECT_FALSE(std::signbit(one[0].outer[2].y));
}

TEST(Wkt, TakesCapitalsAndBlanksAsTheyCome) {
  EXPECT_EQ(parsed(" \tpolygon\n(  (0 0 ,\r\n1 0,1 1 , 0 0 ) ) ")[0].outer.size(), 3u);
  EXPECT_EQ(parsed("MultiPolygon(((0 0,1 0,1 1,0 0)))").size(), 1u);
}

struct Refused {
  const char* text;
  std::size_t character;
  const char* found;
};

class RefusedWkt : public testing::TestWithParam<Refused> {};

TEST_P(RefusedWkt, IsToldWithItsPlace) {
  MultiPolygon polygons;
  const auto fault = parse_wkt(GetParam().text, polygons);
  ASSERT_TRUE(fault) << GetParam().text;
  EXPECT_EQ(fault->character, GetParam().character) << GetParam().text;
  EXPECT_EQ(fault->found, GetParam().found) << GetParam().text;
  EXPECT_NE(fault->allowed, "");
}

INSTANTIATE_TEST_SUITE_P(
    Texts, RefusedWkt,
    testing::Values(Refused{"", 1, "the end of the text"}, Refused{"POINT (1 2)", 1, "\"POINT\""},
                    Refused{"POLYGONE ((0 0))", 1, "\"POLYGONE\""},
                    Refused{"SRID=0;POLYGON ((0 0, 1 0, 1 1, 0 0))", 1, "\"SRID\""},
                    Refused{"POLYGON", 8, "the end of the text"},
                    Refused{"POLYGON EMPTY", 9, "EMPTY (no area)"},
                    Refused{"MULTIPOLYGON empty", 14, "EMPTY (no area)"},
                    Refused{"MULTIPOLYGON (EMPTY)", 15, "EMPTY (no area)"},
                    Refused{"POLYGON (EMPTY)", 10, "EMPTY (no area)"},
                    Refused{"POLYGON Z ((0 0 0))", 9, "the coordinates Z"},
                    Refused{"POLYGON m ((0 0 0))", 9, "the coordinates M"},
                    Refused{"POLYGON ZM ((0 0 0 0))", 9, "the coordinates ZM"},
                    Refused{"POLYGON ()", 10, "\")\""}, Refused{"POLYGON (())", 11, "\")\""},
                    Refused{"POLYGON (0 0, 1 0, 1 1, 0 0)", 10, "\"0\""},
                    Refused{"POLYGON ((0 0, 1 0, 1 1, 0 1))", 10,
                            "a ring that does not end where it begins"},
                    Refused{"POLYGON ((0 0 5, 1 0 5, 0 0 5))", 15, "a third number"},
                    Refused{"POLYGON ((0, 1))", 12, "\",\""},
                    Refused{"POLYGON ((0 nan, 1 1))", 13, "\"nan\""},
                    Refused{"POLYGON ((0 inf, 1 1))", 13, "\"inf\""},
                    Refused{"POLYGON ((0 1e, 1 1))", 13, "\"1e\""},
                    Refused{"POLYGON ((0 1-1, 1 1))", 13, "\"1-1\""},
                    Refused{"POLYGON ((0 +-1, 1 1))", 13, "\"+-1\""},
                    Refused{"POLYGON ((0 ., 1 1))", 13, "\".\""},
                    Refused{"POLYGON ((0 1e999, 1 1))", 13, "the number 1e999"},
                    Refused{"POLYGON ((0 1000001, 1 1))", 13, "the number 1000001"},
                    Refused{"POLYGON ((0 0, 1 0, 1 1, 0 0)", 30, "the end of the text"},
                    Refused{"POLYGON ((0 0; 1 0))", 14, "\";\""},
                    Refused{"POLYGON ((0 0, 1 0, 1 1, 0 0)) x", 32, "\"x\""},
                    Refused{"POLYGON ((0 0, 1 0, 1 1, 0 0)))", 31, "\")\""},
                    Refused{"POLYGON ((0 0, \xC3\xA4 0))", 16, "\"\xC3\xA4\""},
                    Refused{"\xC3\xA4 POLYGON", 1, "\"\xC3\xA4\""}));

}  // namespace
}  // namespace leeway
