#include "geometry/plane/polygons.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

#include "geometry/random_polygons.h"

namespace leeway {
namespace {

// The lake, island, ponds, town and forest of the OGC conformance set "Blue Lake vicinity"
// (OGC 99-049 and 06-104r4, Annex C).
const Ring kLakeShore{{52, 18}, {66, 23}, {73, 9}, {48, 6}};
const Ring kIsland{{67, 13}, {67, 18}, {59, 18}, {59, 13}};
const Polygon kLake{kLakeShore, {kIsland}};
const Ring kTown{{62, 48}, {84, 48}, {84, 30}, {56, 30}, {56, 34}};

double distance_to(const Ring& ring, Point p) {
  double best = std::numeric_limits<double>::infinity();
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const Point q = closest_on_segment(ring[i], ring[(i + 1) % ring.size()], p);
    best = std::min(best, std::hypot(p.x - q.x, p.y - q.y));
  }
  return best;
}

Ring regular(int corners, double radius) {
  Ring ring;
  for (int i = 0; i < corners; ++i) {
    const double angle = 2 * std::numbers::pi * i / corners;
    ring.push_back({radius * std::cos(angle), radius * std::sin(angle)});
  }
  return ring;
}

TEST(Measure, GivesThePublishedAreasOfTheOgcSet) {
  EXPECT_EQ(signed_area(kIsland), 40);  // test T26; the ring is counter-clockwise
  const Ring ponds[] = {{{24, 44}, {22, 42}, {24, 40}}, {{26, 44}, {26, 40}, {28, 42}}};
  EXPECT_EQ(signed_area(ponds[0]) + signed_area(ponds[1]), 8);  // T36
  // Not published; jsts 2.12 agrees.
  EXPECT_EQ(area(kLake), 219.5);
  EXPECT_EQ(area({kTown, {}}), 462);
  const Polygon forest[] = {{{{28, 26}, {28, 0}, {84, 0}, {84, 42}}, {kLakeShore}}, {kIsland, {}}};
  EXPECT_EQ(area(forest[0]) + area(forest[1]), 1684.5);
}

TEST(Measure, CountsTheLakesShoreNegativeBecauseItRunsClockwise) {
  EXPECT_EQ(signed_area(kLakeShore), -259.5);
}

// A lattice polygon: strictly inside, and on its boundary.
struct LatticeCount {
  long inside = 0;
  long boundary = 0;
};

LatticeCount count_lattice(const Ring& ring) {
  LatticeCount count;
  const Box box = bounding_box(ring);
  for (double x = box.x0; x <= box.x1; ++x) {
    for (double y = box.y0; y <= box.y1; ++y) {
      bool inside = false;
      bool boundary = false;
      for (std::size_t i = 0; i < ring.size(); ++i) {
        const Point a = ring[i];
        const Point b = ring[(i + 1) % ring.size()];
        const double turn = (b.x - a.x) * (y - a.y) - (b.y - a.y) * (x - a.x);
        boundary |= turn == 0 && std::min(a.x, b.x) <= x && x <= std::max(a.x, b.x) &&
                    std::min(a.y, b.y) <= y && y <= std::max(a.y, b.y);
        if ((a.y > y) != (b.y > y)) inside ^= (turn > 0) == (b.y > a.y);
      }
      count.boundary += boundary;
      count.inside += inside && !boundary;
    }
  }
  return count;
}

// G. Pick, Geometrisches zur Zahlenlehre (1899): A = I + B/2 - 1.
TEST(Measure, AgreesWithPicksTheorem) {
  struct Case {
    Ring ring;
    double area;
    long inside, boundary;
  };
  const Case cases[] = {{{{0, 0}, {4, 0}, {4, 3}, {0, 3}}, 12, 6, 14},
                        {{{0, 0}, {10, 0}, {0, 10}}, 50, 36, 30},
                        {kLakeShore, 259.5, 254, 13},
                        {kTown, 462, 426, 74}};
  for (const Case& c : cases) {
    const LatticeCount count = count_lattice(c.ring);
    EXPECT_EQ(count.inside, c.inside);
    EXPECT_EQ(count.boundary, c.boundary);
    EXPECT_EQ(std::abs(signed_area(c.ring)), c.area);
  }
}

TEST(Measure, AgreesWithPicksTheoremOnRandomRings) {
  const std::uint32_t seed = testing::seed_or(20240611);
  SCOPED_TRACE("LEEWAY_SEED=" + std::to_string(seed));
  testing::Random random(seed);
  for (int i = 0; i < 500; ++i) {
    const Ring ring = testing::random_ring(random, random.whole(3, 12), random.whole(5, 30), {});
    const LatticeCount count = count_lattice(ring);
    const double wanted = static_cast<double>(2 * count.inside + count.boundary - 2) / 2;
    ASSERT_EQ(std::abs(signed_area(ring)), wanted);
  }
}

// Area n/2 r^2 sin(2 pi / n) of a regular polygon in a circle (elementary).
TEST(Measure, GivesTheAreasOfRegularPolygons) {
  EXPECT_DOUBLE_EQ(signed_area(regular(4, 1)), 2);
  EXPECT_DOUBLE_EQ(signed_area(regular(6, 1)), 2.59807621135331594);
  EXPECT_NEAR(signed_area(regular(12, 10)), 300, 1e-12);
  EXPECT_NEAR(signed_area(regular(360, 1)), 3.14143315871103231, 1e-14);
}

TEST(Measure, KeepsTheDigitsOfASmallRingFarFromTheOrigin) {
  const Ring ring{{1e6, 1e6}, {1e6 + 0.5, 1e6}, {1e6 + 0.5, 1e6 + 0.5}, {1e6, 1e6 + 0.5}};
  EXPECT_EQ(signed_area(ring), 0.25);
}

TEST(Measure, GivesNoAreaToLessThanATriangle) {
  EXPECT_EQ(signed_area({}), 0);
  EXPECT_EQ(signed_area({{1, 2}}), 0);
  EXPECT_EQ(signed_area({{1, 2}, {3, 4}}), 0);
}

TEST(Measure, BoundsARing) {
  EXPECT_EQ(bounding_box(kLakeShore), (Box{48, 73, 6, 23}));
  EXPECT_EQ(bounding_box(Ring{{1, 2}}), (Box{1, 1, 2, 2}));
  EXPECT_TRUE(bounding_box(Ring{}).empty());
}

// OGC test T46 asks for 12 from the bridge to the town; the others are not published, jsts agrees.
TEST(Measure, FindsTheDistancesOfTheOgcSet) {
  const Point bridge{44, 31};
  EXPECT_EQ(distance_to(kTown, bridge), 12);
  EXPECT_NEAR(distance_to(kLakeShore, bridge), 15.2643375224737, 1e-13);
  EXPECT_NEAR(distance_to(kIsland, bridge), 19.8494332412792, 1e-13);
}

TEST(Measure, EndsASegmentExactlyAtItsEnds) {
  const Point a{0.1, 0.2};
  const Point b{0.4, 0.7};
  EXPECT_EQ(closest_on_segment(a, b, {-5, 0}), a);
  EXPECT_EQ(closest_on_segment(a, b, {5, 5}), b);
  EXPECT_EQ(closest_on_segment(a, a, {5, 5}), a);
  EXPECT_EQ(closest_on_segment({2, 1}, {2, 9}, {7, 4}), (Point{2, 4}));
}

TEST(Measure, TellsConvexFromNot) {
  EXPECT_TRUE(is_convex({{0, 0}, {1, 0}, {2, 0}, {2, 2}, {0, 2}}));
  EXPECT_TRUE(is_convex({{0, 2}, {2, 2}, {2, 0}, {0, 0}}));  // clockwise
  EXPECT_TRUE(is_convex({{0, 0}, {0, 0}, {2, 0}, {2, 2}, {2, 2}}));
  EXPECT_FALSE(is_convex({{0, 0}, {2, 0}, {2, 1}, {1, 1}, {1, 2}, {0, 2}}));
  EXPECT_FALSE(is_convex({{0, 0}, {2, 0}, {1, 0.000001}, {0, 2}}));
  EXPECT_TRUE(is_convex({{0, 0}, {3, 4}}));
}

TEST(Measure, CallsAStarThatGoesRoundTwiceNotConvex) {
  const Ring five = regular(5, 10);
  EXPECT_FALSE(is_convex({five[0], five[2], five[4], five[1], five[3]}));
}

// 0.3, 0.6 and 0.9 turn in binary: 3 x 0.3 is not 0.9 there.
TEST(Measure, TakesDecimalsOnALineAsStraight) {
  const Ring ring{{0.1, 0.3}, {0.2, 0.6}, {0.3, 0.9}, {0, 1}};
  EXPECT_TRUE(is_convex(ring));
  EXPECT_TRUE(is_convex({ring.rbegin(), ring.rend()}));
  EXPECT_EQ(normalized(ring).size(), 3u);
}

TEST(Measure, NormalizesWindingRepeatsAndStraightCorners) {
  const Ring square{{0, 0}, {2, 0}, {2, 2}, {0, 2}};
  EXPECT_EQ(normalized({{0, 0}, {1, 0}, {2, 0}, {2, 0}, {2, 2}, {0, 2}, {0, 1}, {0, 0}}), square);
  // The same clockwise, started within an edge.
  const Ring turned = normalized({{1, 2}, {2, 2}, {2, 0}, {0, 0}, {0, 2}});
  EXPECT_EQ(turned.size(), 4u);
  EXPECT_EQ(signed_area(turned), 4);
}

TEST(Measure, NormalizesAwayASpike) {
  EXPECT_EQ(normalized({{0, 0}, {2, 0}, {5, 0}, {2, 0}, {2, 2}, {0, 2}}).size(), 4u);
  EXPECT_EQ(normalized({{-3, -3}, {0, 0}, {2, 0}, {2, 2}, {0, 2}, {0, 0}}).size(), 4u);
}

TEST(Measure, NormalizesWhatHasNoAreaToItsEnds) {
  EXPECT_EQ(normalized({{1, 1}, {3, 3}, {2, 2}}), (Ring{{1, 1}, {3, 3}}));
  EXPECT_EQ(normalized({{1, 1}, {1, 1}}), (Ring{{1, 1}}));
  EXPECT_EQ(normalized({}), Ring{});
}

TEST(Measure, OutlinesPolygons) {
  const Ring both = outline_points(MultiPolygon{kLake, {kTown, {}}});
  EXPECT_EQ(both.size(), kLakeShore.size() + kTown.size());
  EXPECT_TRUE(outline_points(MultiPolygon{}).empty());
}

// OGC test T52, counter-clockwise and from the left.
TEST(Measure, FindsTheConvexHullOfTheOgcLake) {
  Ring points = kLakeShore;
  points.insert(points.end(), kIsland.begin(), kIsland.end());
  EXPECT_EQ(convex_hull(points), (Ring{{48, 6}, {73, 9}, {66, 23}, {52, 18}}));
}

TEST(Measure, HullsWhatIsLessThanATriangle) {
  EXPECT_EQ(convex_hull({}), Ring{});
  EXPECT_EQ(convex_hull({{1, 1}, {1, 1}}), (Ring{{1, 1}}));
  EXPECT_EQ(convex_hull({{0.3, 0.9}, {0.1, 0.3}, {0.2, 0.6}}), (Ring{{0.1, 0.3}, {0.3, 0.9}}));
}

TEST(Measure, HullsRandomPointsConvexlyAroundAllOfThem) {
  const std::uint32_t seed = testing::seed_or(7);
  SCOPED_TRACE("LEEWAY_SEED=" + std::to_string(seed));
  testing::Random random(seed);
  for (int i = 0; i < 500; ++i) {
    const testing::Placing placing = testing::random_placing(random);
    Ring points;
    for (int k = random.whole(3, 40); k > 0; --k) {
      points.push_back(placing({random.whole(0, 9), random.whole(0, 9)}));
    }
    const Ring hull = convex_hull(points);
    ASSERT_TRUE(is_convex(hull));
    for (std::size_t k = 0; hull.size() > 2 && k < hull.size(); ++k) {
      const Point a = in_picometres(hull[k]);
      const Point b = in_picometres(hull[(k + 1) % hull.size()]);
      for (const Point p : points) ASSERT_GE(orientation(a, b, in_picometres(p)), 0);
    }
  }
}

TEST(Measure, MirrorsWithoutNegativeZeros) {
  const MultiPolygon mirror = mirrored({kLake, {{{0, 0}, {1, 0}, {0, 1}}, {}}});
  EXPECT_EQ(area(mirror[0]), 219.5);
  EXPECT_EQ(mirror[0].holes[0][0], (Point{-67, -13}));
  EXPECT_EQ(mirror[1].outer[1], (Point{-1, 0}));
  EXPECT_FALSE(std::signbit(mirror[1].outer[0].x));
  EXPECT_FALSE(std::signbit(mirror[1].outer[1].y));
}

TEST(Measure, Translates) {
  const MultiPolygon moved = translated({kLake}, {-52, -18});
  EXPECT_EQ(moved[0].outer[0], (Point{0, 0}));
  EXPECT_EQ(moved[0].holes[0][2], (Point{7, 0}));
}

TEST(Orientation, IsExactWhereBothProductsRoundAlike) {
  // (2^27+1)^2 - 2^27 (2^27+2) = 1, of products too long for a double.
  const double big = 134217728;
  EXPECT_EQ(cross_sign({big + 1, big}, {big + 2, big + 1}), 1);
  EXPECT_EQ(cross_sign({big + 2, big + 1}, {big + 1, big}), -1);
  EXPECT_EQ(cross_sign({big + 1, big + 1}, {3 * (big + 1), 3 * (big + 1)}), 0);
}

}  // namespace
}  // namespace leeway
