#include "geometry/validity/validity.h"

#include <gtest/gtest.h>

#include <cmath>
#include <cstdint>
#include <ctime>
#include <numbers>
#include <random>

namespace leeway {
namespace {

using Kind = RingFault::Kind;

Ring square(double x, double y, double side) {
  return {{x, y}, {x + side, y}, {x + side, y + side}, {x, y + side}};
}

Ring circle(std::size_t n, Point center, double radius) {
  Ring ring;
  for (std::size_t i = 0; i < n; ++i) {
    const double t = 2 * std::numbers::pi * static_cast<double>(i) / static_cast<double>(n);
    ring.push_back(center + Point{radius * std::cos(t), radius * std::sin(t)});
  }
  return ring;
}

void expect_fault(const Ring& ring, Kind kind) {
  const auto fault = ring_fault(ring);
  ASSERT_TRUE(fault.has_value());
  EXPECT_EQ(fault->kind, kind);
}

TEST(RingFault, TakesASimpleRingEitherWayRoundAndWithOrWithoutItsClosingPoint) {
  const Ring ring = {{0, 0}, {10, 0}, {10, 10}, {5, 2}, {0, 10}};
  EXPECT_FALSE(ring_fault(ring));
  EXPECT_FALSE(ring_fault(Ring(ring.rbegin(), ring.rend())));
  Ring closed = ring;
  closed.push_back(ring.front());
  EXPECT_FALSE(ring_fault(closed));
}

TEST(RingFault, TakesRepeatedNeighboursAndStraightCorners) {
  EXPECT_FALSE(ring_fault({{0, 0}, {0, 0}, {5, 0}, {10, 0}, {10, 0}, {0, 10}, {0, 0}, {0, 0}}));
}

TEST(RingFault, TakesAClosingPointOffByRounding) {
  Ring ring = circle(100, {115, 105}, 94.5);
  ring.push_back({209.5, 105 - 2.2e-14});
  EXPECT_FALSE(ring_fault(ring));
}

TEST(RingFault, CountsDifferentPointsOnly) {
  expect_fault({}, Kind::too_few_vertices);
  expect_fault({{1, 1}}, Kind::too_few_vertices);
  expect_fault({{1, 1}, {2, 2}, {1, 1}}, Kind::too_few_vertices);
  expect_fault({{1, 1}, {2, 2}, {1, 1}, {2, 2}}, Kind::too_few_vertices);
}

TEST(RingFault, FindsARingWithoutArea) {
  expect_fault({{0, 0}, {1, 3}, {0.1, 0.3}}, Kind::no_area);
  expect_fault({{0, 0}, {10, 0}, {5, 0}, {2, 0}}, Kind::no_area);
}

TEST(RingFault, FindsWhereABowTieCrosses) {
  const auto fault = ring_fault({{0, 0}, {10, 10}, {10, 0}, {0, 10}});
  ASSERT_TRUE(fault.has_value());
  EXPECT_EQ(fault->kind, Kind::self_crossing);
  EXPECT_EQ(fault->place, (Point{5, 5}));
  EXPECT_EQ(fault->edge_a, 0u);
  EXPECT_EQ(fault->edge_b, 2u);
}

TEST(RingFault, FindsARingThatTouchesItself) {
  expect_fault({{0, 0}, {10, 0}, {10, 10}, {5, 0}, {0, 10}}, Kind::self_crossing);
  // Two squares that share a vertex.
  expect_fault({{0, 0}, {5, 0}, {5, 5}, {10, 5}, {10, 10}, {5, 10}, {5, 5}, {0, 5}},
               Kind::self_crossing);
  // The tip lies on a slanted edge, as far as decimals can say: 3 * 0.1 is not 0.3 in binary.
  expect_fault({{0, 0}, {1, 3}, {1, 6}, {0.1, 0.3}, {-1, 6}}, Kind::self_crossing);
}

TEST(RingFault, FindsARingThatRunsBackAlongItself) {
  expect_fault({{0, 0}, {20, 0}, {10, 0}, {10, 10}}, Kind::self_crossing);
  expect_fault({{0, 0}, {10, 0}, {10, 10}, {12, 12}, {10, 10}, {0, 10}}, Kind::self_crossing);
  expect_fault({{5, 0}, {10, 0}, {0, 0}, {0, 10}}, Kind::self_crossing);
}

TEST(RingFault, CountsEdgesInTheRingAsGiven) {
  const auto fault = ring_fault({{0, 0}, {0, 0}, {10, 10}, {10, 0}, {10, 0}, {0, 10}});
  ASSERT_TRUE(fault.has_value());
  EXPECT_EQ(fault->edge_a, 0u);
  EXPECT_EQ(fault->edge_b, 3u);
}

// Whether a ring of whole coordinates meets itself, by exact integers and every pair of edges.
std::int64_t turn(Point a, Point b, Point c) {
  const auto whole = [](double v) { return static_cast<std::int64_t>(v); };
  const std::int64_t s = whole(b.x - a.x) * whole(c.y - a.y) - whole(b.y - a.y) * whole(c.x - a.x);
  return (s > 0) - (s < 0);
}
bool between(Point a, Point b, Point p) {
  return std::min(a.x, b.x) <= p.x && p.x <= std::max(a.x, b.x) && std::min(a.y, b.y) <= p.y &&
         p.y <= std::max(a.y, b.y);
}
bool on(Point a, Point b, Point p) { return turn(a, b, p) == 0 && between(a, b, p); }
bool meet(Point a, Point b, Point c, Point d) {
  if (on(a, b, c) || on(a, b, d) || on(c, d, a) || on(c, d, b)) return true;
  return turn(a, b, c) * turn(a, b, d) < 0 && turn(c, d, a) * turn(c, d, b) < 0;
}
bool meets_itself(const Ring& r) {
  const std::size_t n = r.size();
  for (std::size_t i = 0; i < n; ++i) {
    const Point a = r[i];
    const Point b = r[(i + 1) % n];
    if (on(a, b, r[(i + 2) % n]) || on(b, r[(i + 2) % n], a)) return true;
    for (std::size_t j = i + 2; j < n; ++j) {
      if ((j + 1) % n != i && meet(a, b, r[j], r[(j + 1) % n])) return true;
    }
  }
  return false;
}

TEST(RingFault, AgreesWithExactIntegersOnRandomRings) {
  std::mt19937 random(20240917);
  int simple = 0;
  for (int round = 0; round < 20000; ++round) {
    const std::size_t n = 3 + random() % 5;
    Ring ring;
    while (ring.size() < n) {
      const Point p{static_cast<double>(random() % 9), static_cast<double>(random() % 9)};
      if (ring.empty() || (!(p == ring.back()) && !(p == ring.front()))) ring.push_back(p);
    }
    const bool crossing = meets_itself(ring);
    simple += crossing ? 0 : 1;
    ASSERT_EQ(ring_fault(ring).has_value(), crossing) << "round " << round;
  }
  EXPECT_GT(simple, 3000);
}

// Processor time. A second is the aim; sanitizers take several times as long.
constexpr double kMostSeconds = 4;

double seconds_since(std::clock_t start) {
  return static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC;
}

double seconds_for(const Ring& ring, bool faulty) {
  const std::clock_t start = std::clock();
  EXPECT_EQ(ring_fault(ring).has_value(), faulty);
  return seconds_since(start);
}

TEST(RingFault, IsQuickForTenThousandVertices) {
  EXPECT_LT(seconds_for(circle(10000, {0, 0}, 150), false), kMostSeconds);
  // Combs, across, along and slanted: every edge overlaps every other along some axis.
  for (const double slant : {0.0, 1.0, 1e9}) {
    Ring comb;
    for (int i = 0; i < 4999; ++i) {
      const double y = i * 0.1;
      const double reach = i % 2 == 0 ? 0.0 : 300.0;
      const Point along = slant > 1e6 ? Point{0, reach} : Point{reach, slant * reach};
      const Point step = slant > 1e6 ? Point{y, 0} : Point{0, y};
      comb.push_back(along + step);
      comb.push_back(along + step + 0.5 * (slant > 1e6 ? Point{0.1, 0} : Point{0, 0.1}));
    }
    comb.push_back(slant > 1e6 ? Point{600, -10} : Point{-10, 600});
    comb.push_back(slant > 1e6 ? Point{-1, -10} : Point{-10, -1});
    EXPECT_LT(seconds_for(comb, false), kMostSeconds) << slant;
  }
}

TEST(PolygonFaults, TakeHolesThatTouchAtPoints) {
  const Polygon polygon{square(0, 0, 100),
                        {{{0, 50}, {20, 40}, {20, 60}},
                         {{20, 40}, {40, 30}, {40, 40}},
                         {{50, 0}, {60, 10}, {40, 10}}}};
  EXPECT_TRUE(polygon_faults(polygon).empty());
}

TEST(PolygonFaults, TakeAHoleThatTouchesASlantedEdgeAsFarAsDecimalsCanSay) {
  const Polygon polygon{{{0, 0}, {1, 3}, {-3, 3}}, {{{0.1, 0.3}, {0, 1}, {-0.5, 1}}}};
  EXPECT_TRUE(polygon_faults(polygon).empty());
}

TEST(PolygonFaults, TakeAHoleWhoseEveryVertexTouches) {
  const Polygon polygon{square(0, 0, 100), {{{50, 0}, {100, 50}, {50, 100}, {0, 50}}}};
  EXPECT_TRUE(polygon_faults(polygon).empty());
}

std::vector<PolygonFault::Kind> kinds(const std::vector<PolygonFault>& faults) {
  std::vector<PolygonFault::Kind> result;
  for (const PolygonFault& fault : faults) result.push_back(fault.kind);
  return result;
}

TEST(PolygonFaults, FindHolesOutsideAcrossAlongAndAround) {
  const auto outside = std::vector{PolygonFault::Kind::hole_outside};
  const Ring outer = square(0, 0, 100);
  EXPECT_EQ(kinds(polygon_faults({outer, {square(200, 0, 10)}})), outside);
  EXPECT_EQ(kinds(polygon_faults({outer, {square(95, 50, 10)}})), outside);
  EXPECT_EQ(kinds(polygon_faults({outer, {square(0, 50, 10)}})), outside);
  EXPECT_EQ(kinds(polygon_faults({outer, {square(-10, -10, 120)}})), outside);
  EXPECT_EQ(kinds(polygon_faults({outer, {outer}})), outside);
  // Through a vertex of the outer ring, so that no two edges cross inside their lengths.
  EXPECT_EQ(kinds(polygon_faults({outer, {{{90, 90}, {100, 100}, {110, 90}}}})), outside);
}

TEST(PolygonFaults, FindAHoleAcrossTheNotchOfAnOuterRing) {
  const Ring outer = {{0, 0}, {100, 0}, {100, 100}, {50, 20}, {0, 100}};
  const auto faults = polygon_faults({outer, {{{10, 10}, {90, 10}, {90, 70}, {10, 70}}}});
  EXPECT_EQ(kinds(faults), std::vector{PolygonFault::Kind::hole_outside});
}

TEST(PolygonFaults, FindHolesThatOverlapOrShareAnEdgeOrLieInEachOther) {
  const auto overlap = std::vector{PolygonFault::Kind::holes_overlap};
  const Ring outer = square(0, 0, 100);
  const Ring hole = square(20, 20, 20);
  for (const Ring& other :
       {square(30, 30, 20), square(40, 20, 20), square(25, 25, 5), square(10, 10, 50), hole}) {
    const auto faults = polygon_faults({outer, {hole, other}});
    EXPECT_EQ(kinds(faults), overlap);
    EXPECT_EQ(faults.at(0).a, 1u);
    EXPECT_EQ(faults.at(0).b, 0u);
  }
}

TEST(PolygonFaults, TellEveryHoleAtFault) {
  const auto faults = polygon_faults(
      {square(0, 0, 100), {square(20, 20, 20), square(200, 0, 5), square(30, 30, 20)}});
  ASSERT_EQ(faults.size(), 2u);
  EXPECT_EQ(faults[0].a, 1u);
  EXPECT_EQ(faults[1].a, 2u);
}

// OGC 06-104r4, Annex C, conformance set "Blue Lake vicinity" (seen in a copy of its test data).
const Ring kBlueLake = {{52, 18}, {66, 23}, {73, 9}, {48, 6}};
const Ring kGooseIsland = {{67, 13}, {67, 18}, {59, 18}, {59, 13}};

TEST(PolygonFaults, TakeBlueLakeWithGooseIslandAndGreenForest) {
  EXPECT_TRUE(polygon_faults({kBlueLake, {kGooseIsland}}).empty());
  const Ring forest = {{28, 26}, {28, 0}, {84, 0}, {84, 42}};
  EXPECT_TRUE(polygons_faults({{forest, {kBlueLake}}, {kGooseIsland, {}}}).empty());
}

TEST(PolygonsFaults, FindAHoleFilledExactly) {
  const auto faults = polygons_faults({{kBlueLake, {kGooseIsland}}, {kGooseIsland, {}}});
  EXPECT_EQ(kinds(faults), std::vector{PolygonFault::Kind::polygons_overlap});
}

TEST(PolygonsFaults, FindOverlapInclusionAndSharedEdges) {
  const Polygon one{square(0, 0, 100), {}};
  for (const Ring& other : {square(50, 50, 100), square(10, 10, 10), square(-10, -10, 200),
                            square(100, 0, 50), square(0, 0, 100)}) {
    EXPECT_EQ(polygons_faults({one, {other, {}}}).size(), 1u);
  }
}

TEST(PolygonsFaults, TakeNeighboursThatTouchAtAPoint) {
  EXPECT_TRUE(polygons_faults({{square(0, 0, 10), {}}, {square(10, 10, 10), {}}}).empty());
  EXPECT_TRUE(polygons_faults({{square(0, 0, 10), {}}, {square(20, 0, 10), {}}}).empty());
}

TEST(PolygonFaults, AreQuickForManyOrLargeHoles) {
  const std::clock_t start = std::clock();
  Polygon sieve{circle(1000, {0, 0}, 150), {}};
  for (int i = 0; i < 2250; ++i) {
    sieve.holes.push_back(square(-90 + 4.0 * (i % 45), -90 + 3.5 * (i / 45), 2));
  }
  EXPECT_TRUE(polygon_faults(sieve).empty());
  EXPECT_TRUE(polygon_faults({circle(5000, {0, 0}, 150), {circle(5000, {0, 0}, 149.9)}}).empty());
  EXPECT_EQ(polygon_faults({circle(5000, {0, 0}, 150), {circle(5000, {0, 0}, 150)}}).size(), 1u);
  EXPECT_LT(seconds_since(start), kMostSeconds);
}

TEST(WithoutRepeats, DropsRepeatsAndTheClosingPointAndNothingElse) {
  const Ring ring = {{0, 0}, {0, 0}, {5, 0}, {10, 0}, {10, 5}, {10, 5}, {0, 0}};
  EXPECT_EQ(without_repeats(ring), (Ring{{0, 0}, {5, 0}, {10, 0}, {10, 5}}));
}

}  // namespace
}  // namespace leeway
