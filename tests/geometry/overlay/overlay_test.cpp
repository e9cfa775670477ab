#include "geometry/overlay/overlay.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "geometry/overlay_cases.h"

namespace leeway {
namespace {

using testing::area_of;
using testing::fault_of_form;
using testing::gon;
using testing::rectangle;

// What is in one but not in both.
MultiPolygon exclusive(const MultiPolygon& a, const MultiPolygon& b) {
  MultiPolygon parts = subtract(a, b);
  for (Polygon& part : subtract(b, a)) parts.push_back(std::move(part));
  return unite(parts);
}

// OGC 99-049, Simple Features for SQL, Annex C, the "Blue Lake vicinity" map. T48 to T50 are its
// tests; the areas without a number were computed from the published vertices.
struct BlueLake {
  Ring shell{{52, 18}, {66, 23}, {73, 9}, {48, 6}};
  Ring island{{59, 18}, {67, 18}, {67, 13}, {59, 13}};
  MultiPolygon lake{{shell, {island}}};
  MultiPolygon goose_island{{island, {}}};
  MultiPolygon ashton{{{{62, 48}, {84, 48}, {84, 30}, {56, 30}, {56, 34}}, {}}};
  MultiPolygon forest{{{{28, 26}, {28, 0}, {84, 0}, {84, 42}}, {shell}}, {island, {}}};
  MultiPolygon neatline{rectangle(0, 84, 0, 48)};
};

TEST(OverlayBlueLake, T48AshtonWithoutGreenForest) {
  const BlueLake map;
  const MultiPolygon result = subtract(map.ashton, map.forest);
  const MultiPolygon published{{{{56, 34}, {84, 42}, {84, 48}, {62, 48}}, {}}};
  EXPECT_EQ(result, published);
  EXPECT_DOUBLE_EQ(area_of(result), 238);
  EXPECT_DOUBLE_EQ(area_of(intersect(map.ashton, map.forest)), 224);
}

TEST(OverlayBlueLake, T49AnIslandFillsItsHoleExactly) {
  const BlueLake map;
  const MultiPolygon published{{{{48, 6}, {73, 9}, {66, 23}, {52, 18}}, {}}};
  EXPECT_EQ(unite({map.lake[0], map.goose_island[0]}), published);
}

TEST(OverlayBlueLake, T50WhatSharesOnlyARimHasNothingInCommon) {
  const BlueLake map;
  EXPECT_TRUE(intersect(map.lake, map.goose_island).empty());
  EXPECT_EQ(subtract(map.lake, map.goose_island).size(), 1u);
  EXPECT_DOUBLE_EQ(area_of(exclusive(map.lake, map.goose_island)), 259.5);
}

TEST(OverlayBlueLake, OtherAreasOfTheMap) {
  const BlueLake map;
  EXPECT_DOUBLE_EQ(area_of(subtract(map.neatline, map.forest)), 2347.5);
  EXPECT_DOUBLE_EQ(area_of(unite({map.ashton[0], map.forest[0], map.forest[1]})), 1922.5);
}

// JTS test suite, modules/tests/src/test/resources/testxml/general/TestOverlayAA.xml, under the
// Eclipse Distribution License 1.0: the cases whose record has all the numbers below, in its units
// as mm. A negative area is not in the record.
struct JtsCase {
  int number;
  MultiPolygon a, b;
  double common, united, difference, exclusive;
};

std::vector<JtsCase> jts_cases() {
  const Polygon corner{{{40, 20}, {0, 0}, {20, 40}, {60, 60}}, {}};
  return {
      {0, {rectangle(10, 100, 10, 100)}, {rectangle(50, 200, 50, 200)}, 2500, 28100, 5600, 25600},
      {1,
       {{{{20, 20}, {20, 160}, {160, 160}, {160, 20}}, {rectangle(40, 140, 40, 140).outer}}},
       {rectangle(80, 220, 100, 240)},
       2400,
       26800,
       7200,
       24400},
      {2,
       {{{{20, 340}, {330, 380}, {50, 40}}, {}}},
       {{{{210, 320}, {140, 270}, {0, 270}, {140, 220}}, {}}},
       5115,
       47235,
       41985,
       42120},
      {3,
       {{{{0, 0}, {110, 0}, {110, 60}, {40, 60}, {180, 140}, {40, 220}, {110, 260}, {0, 260}}, {}}},
       {{{{220, 0}, {110, 0}, {110, 60}, {180, 60}, {40, 140}, {180, 220}, {110, 260}, {220, 260}},
         {}}},
       -1,
       48800,
       21600,
       43200},
      {4,
       {{{{0, 0},
          {120, 0},
          {120, 50},
          {50, 50},
          {120, 100},
          {50, 150},
          {120, 150},
          {120, 190},
          {0, 190}},
         {}}},
       {{{{230, 0},
          {120, 0},
          {120, 50},
          {190, 50},
          {120, 100},
          {190, 150},
          {120, 150},
          {120, 190},
          {230, 190}},
         {}}},
       -1,
       -1,
       -1,
       36700},
      {5,
       {rectangle(0, 210, 0, 230)},
       {corner,
        rectangle(60, 90, 60, 90),
        {{{70, 120}, {90, 90}, {100, 120}}, {}},
        {{{120, 70}, {90, 90}, {120, 100}}, {}}},
       -1,
       -1,
       -1,
       45300},
      {6, {rectangle(0, 340, 0, 300)}, {corner, rectangle(60, 100, 60, 100)}, 2800, -1, -1, 99200},
      {7,
       {rectangle(0, 120, 0, 120)},
       {{{{60, 20}, {0, 20}, {60, 60}}, {}}, rectangle(60, 100, 60, 100)},
       2800,
       14400,
       11600,
       11600},
      {8,
       {rectangle(20, 200, 0, 160)},
       {{{{220, 80}, {0, 80}, {0, 240}, {220, 240}}, {{{100, 80}, {120, 120}, {80, 120}}}}},
       13600,
       49600,
       15200,
       36000},
      {9,
       {{{{120, 340},
          {120, 200},
          {140, 200},
          {140, 280},
          {160, 280},
          {160, 200},
          {180, 200},
          {180, 280},
          {200, 280},
          {200, 200},
          {220, 200},
          {220, 340}},
         {}},
        {{{360, 200},
          {220, 200},
          {220, 180},
          {300, 180},
          {300, 160},
          {220, 160},
          {220, 140},
          {300, 140},
          {300, 120},
          {220, 120},
          {220, 100},
          {360, 100}},
         {}}},
       {rectangle(100, 300, 200, 220),
        rectangle(280, 300, 160, 180),
        rectangle(220, 240, 120, 140),
        {{{180, 220}, {160, 240}, {200, 240}}, {}}},
       -1,
       25400,
       20200,
       24000},
      {10,
       {rectangle(100, 120, 180, 200),
        {{{60, 240},
          {60, 140},
          {220, 140},
          {220, 160},
          {160, 160},
          {160, 180},
          {200, 180},
          {200, 200},
          {160, 200},
          {160, 220},
          {220, 220},
          {220, 240}},
         {rectangle(80, 140, 160, 220).outer}},
        {{{280, 220}, {240, 180}, {260, 160}, {300, 200}}, {}}},
       {{rectangle(80, 140, 160, 220).outer, {rectangle(100, 120, 180, 200).outer}},
        {{{220, 240},
          {220, 220},
          {160, 220},
          {160, 200},
          {220, 200},
          {220, 180},
          {160, 180},
          {160, 160},
          {220, 160},
          {220, 140},
          {320, 140},
          {320, 240}},
         {rectangle(240, 300, 160, 220).outer}}},
       -1,
       23600,
       11600,
       23600},
      {11,
       {rectangle(60, 140, 60, 160)},
       {{rectangle(100, 160, 100, 160).outer, {rectangle(120, 140, 120, 140).outer}}},
       -1,
       9200,
       6000,
       7200},
      {12,
       {{rectangle(0, 4, 0, 4).outer,
         {{{1, 1}, {1, 2}, {2, 1}}, {{1, 2}, {1, 3}, {2, 3}}, {{2, 3}, {3, 3}, {3, 2}}}}},
       {{{{2, 1}, {3, 1}, {3, 2}}, {}}},
       0.5,
       14.5,
       14,
       14},
  };
}

TEST(Overlay, GivesTheAreasOfTheJtsSuite) {
  for (const JtsCase& c : jts_cases()) {
    SCOPED_TRACE(c.number);
    std::vector<Polygon> all = c.a;
    all.insert(all.end(), c.b.begin(), c.b.end());
    const MultiPolygon common = intersect(c.a, c.b);
    const MultiPolygon united = unite(all);
    const MultiPolygon difference = subtract(c.a, c.b);
    const auto expect_area = [](const MultiPolygon& result, double wanted) {
      if (wanted >= 0) {
        EXPECT_DOUBLE_EQ(area_of(result), wanted);
      }
    };
    expect_area(common, c.common);
    expect_area(united, c.united);
    expect_area(difference, c.difference);
    EXPECT_DOUBLE_EQ(area_of(exclusive(c.a, c.b)), c.exclusive);
    for (const MultiPolygon& result : {common, united, difference}) {
      EXPECT_EQ(fault_of_form(result), "");
    }
  }
}

TEST(Overlay, OfNothingIsNothing) {
  const MultiPolygon some{rectangle(20, 30, 20, 30)};
  EXPECT_TRUE(unite({}).empty());
  EXPECT_TRUE(subtract({}, {}).empty());
  EXPECT_TRUE(subtract({}, some).empty());
  EXPECT_EQ(subtract(some, {}), some);
  EXPECT_TRUE(subtract(some, some).empty());
  EXPECT_TRUE(intersect({}, some).empty());
  EXPECT_TRUE(intersect(some, {}).empty());
  EXPECT_EQ(intersect(some, some), some);
  EXPECT_TRUE(unite({Polygon{}, {{{1, 1}, {2, 2}, {3, 3}}, {}}}).empty());
}

TEST(Overlay, NormalisesASinglePart) {
  // Clockwise, closed, with a repeated vertex and a straight corner; the hole the wrong way.
  const Polygon given{{{0, 0}, {0, 10}, {10, 10}, {10, 10}, {10, 5}, {10, 0}, {0, 0}},
                      {{{2, 2}, {4, 2}, {4, 4}, {2, 4}}}};
  const MultiPolygon wanted{
      {{{0, 0}, {10, 0}, {10, 10}, {0, 10}}, {{{2, 2}, {2, 4}, {4, 4}, {4, 2}}}}};
  EXPECT_EQ(unite({given}), wanted);
  EXPECT_EQ(subtract({given}, {}), wanted);
}

TEST(Overlay, OfBoxesIsABox) {
  const MultiPolygon a{rectangle(0, 10, 0, 8)};
  const MultiPolygon b{rectangle(4.25, 20, -3, 3.125)};
  EXPECT_EQ(intersect(a, b), MultiPolygon{rectangle(4.25, 10, 0, 3.125)});
  EXPECT_EQ(unite({rectangle(0, 10, 0, 8), rectangle(10, 12, 0, 8)}),
            MultiPolygon{rectangle(0, 12, 0, 8)});
  EXPECT_EQ(unite({rectangle(0, 10, 0, 8), rectangle(2, 3, 2, 8)}), a);
  EXPECT_TRUE(intersect(a, {rectangle(10, 12, 0, 8)}).empty());
  EXPECT_TRUE(subtract(a, {rectangle(-1, 10, 0, 9)}).empty());
}

TEST(Overlay, KeepsPartsThatOnlyTouchAtACorner) {
  const MultiPolygon result = unite({rectangle(0, 1, 0, 1), rectangle(1, 2, 1, 2)});
  EXPECT_DOUBLE_EQ(area_of(result), 2);
  EXPECT_EQ(result.size(), 2u);
  EXPECT_EQ(fault_of_form(result), "");
}

TEST(Overlay, ClosesARingOfPartsAroundAHole) {
  const MultiPolygon frame = unite(
      {rectangle(0, 9, 0, 1), rectangle(8, 9, 0, 9), rectangle(0, 9, 8, 9), rectangle(0, 1, 0, 9)});
  const MultiPolygon wanted{{{{0, 0}, {9, 0}, {9, 9}, {0, 9}}, {{{1, 1}, {1, 8}, {8, 8}, {8, 1}}}}};
  EXPECT_EQ(frame, wanted);
  EXPECT_EQ(unite({frame[0], rectangle(1, 8, 1, 8)}), MultiPolygon{rectangle(0, 9, 0, 9)});
  const MultiPolygon full{rectangle(0, 9, 0, 9)};
  EXPECT_EQ(subtract(full, frame), MultiPolygon{rectangle(1, 8, 1, 8)});
}

TEST(Overlay, AcceptsHolesThatTouchTheOuterRingAndEachOther) {
  // Two diamonds that touch each other at (5, 5), the left one the rim at (1, 5).
  const Polygon bed{rectangle(1, 12, 0, 10).outer,
                    {{{1, 5}, {3, 3}, {5, 5}, {3, 7}}, {{5, 5}, {7, 3}, {9, 5}, {7, 7}}}};
  EXPECT_DOUBLE_EQ(area_of(unite({bed, rectangle(12, 13, 0, 10)})), 110 - 16 + 10);
  EXPECT_DOUBLE_EQ(area_of(subtract({bed}, {rectangle(3, 7, 4, 6)})), 94 - (8 - 2 * 3));
  EXPECT_DOUBLE_EQ(area_of(intersect({bed}, {rectangle(1, 5, 5, 10)})), 20 - 4);
  EXPECT_EQ(unite({bed, {bed.holes[0], {}}, {bed.holes[1], {}}}),
            MultiPolygon{rectangle(1, 12, 0, 10)});
}

TEST(Overlay, AcceptsARingThatTouchesItself) {
  // Two squares in one ring, joined at (2, 2); and a hole joined to the rim at (0, 3).
  const Polygon eight{{{0, 0}, {2, 0}, {2, 2}, {4, 2}, {4, 4}, {2, 4}, {2, 2}, {0, 2}}, {}};
  const Polygon keyhole{{{0, 0}, {6, 0}, {6, 6}, {0, 6}, {0, 3}, {2, 4}, {4, 3}, {2, 2}, {0, 3}},
                        {}};
  EXPECT_DOUBLE_EQ(area_of(unite({eight, rectangle(1, 3, 1, 3)})), 8 + 4 - 2);
  EXPECT_DOUBLE_EQ(area_of(subtract({keyhole}, {rectangle(1, 5, 1, 5)})), 36 - 4 - (16 - 3.5));
}

TEST(Overlay, RoundsCrossingsToTheLattice) {
  // The edges cross at (1/3, 1/3).
  const MultiPolygon result =
      subtract({{{{0, 0}, {1, 0}, {0, 0.5}}, {}}}, {{{{0, 0}, {1, 1}, {0, 1}}, {}}});
  const MultiPolygon wanted{{{{0, 0}, {1, 0}, {0.333, 0.333}}, {}}};
  EXPECT_EQ(result, wanted);
}

TEST(Overlay, DoesNotDependOnTheOrderOfOperands) {
  std::vector<Polygon> parts{rectangle(0, 5, 0, 5),
                             gon({5, 5}, 3, 32),
                             gon({8, 3}, 2.5, 7, 0.3),
                             {{{2, 2}, {9, 4}, {3, 8}}, {}},
                             rectangle(20, 21, 0, 1)};
  const MultiPolygon wanted = unite(parts);
  const auto by_start = [](const Polygon& a, const Polygon& b) {
    return a.outer[0].x < b.outer[0].x;
  };
  std::sort(parts.begin(), parts.end(), by_start);
  for (int i = 0; i < 120; ++i) {
    std::next_permutation(parts.begin(), parts.end(), by_start);
    EXPECT_EQ(unite(parts), wanted);
  }
}

Polygon mapped(Polygon polygon, Point (*map)(Point)) {
  for (Point& p : polygon.outer) p = map(p);
  for (Ring& hole : polygon.holes) {
    for (Point& p : hole) p = map(p);
  }
  return polygon;
}

TEST(Overlay, ObeysTheLawsOfAreaWhereverItIsAndHoweverItIsTurned) {
  const Polygon a{{{0, 0}, {40, 0}, {50, 10}, {50, 30}, {0, 30}},
                  {rectangle(10, 20, 10, 20).outer}};
  const Polygon b{{{45, 5}, {60, 20}, {30, 50}, {15, 15}}, {}};
  const double common = area_of(intersect({a}, {b}));
  EXPECT_NEAR(area_of(intersect({b}, {a})), common, 1e-9);
  for (Point (*map)(Point) : {+[](Point p) { return p; },
                              +[](Point p) {
                                return to_lattice(p + Point{17.123, -104.511});
                              },
                              +[](Point p) {
                                return Point{-p.y, p.x};
                              },
                              +[](Point p) {
                                return Point{-p.x, p.y};
                              }}) {
    const Polygon a1 = mapped(a, map);
    const Polygon b1 = mapped(b, map);
    const double allowance = 0.05;  // the crossings are not on the lattice
    EXPECT_NEAR(area_of(intersect({a1}, {b1})), common, allowance);
    EXPECT_NEAR(area_of(subtract({a1}, {b1})) + common, area(a), allowance);
    EXPECT_NEAR(area_of(unite({a1, b1})) + common, area(a) + area(b), allowance);
  }
}

}  // namespace
}  // namespace leeway
