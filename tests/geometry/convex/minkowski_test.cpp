#include "geometry/convex/minkowski.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "geometry/plane/micrometres.h"
#include "geometry/plane/polygons.h"
#include "geometry/random_polygons.h"

namespace leeway {
namespace {

const Ring kTriangle{{0, 0}, {4, 0}, {0, 3}};
const Ring kUnitSquare{{0, 0}, {1, 0}, {1, 1}, {0, 1}};

double perimeter(const Ring& ring) {
  double sum = 0;
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const Point d = ring[(i + 1) % ring.size()] - ring[i];
    sum += std::hypot(d.x, d.y);
  }
  return sum;
}

double total_area(const MultiPolygon& polygons) {
  double sum = 0;
  for (const Polygon& polygon : polygons) sum += area(polygon);
  return sum;
}

// Worked by hand: A + a (height) + b (width) + a b = 6 + 3 + 4 + 1.
TEST(ConvexSum, OfTriangleAndUnitSquareIsThePentagonOfArea14) {
  const Ring sum = convex_sum(kTriangle, kUnitSquare);
  EXPECT_EQ(sum, (Ring{{0, 0}, {5, 0}, {5, 1}, {1, 4}, {0, 4}}));
  EXPECT_EQ(signed_area(sum), 14);
  EXPECT_EQ(perimeter(sum), 12 + 4);
}

TEST(ConvexSum, WithAPointIsATranslation) {
  EXPECT_EQ(convex_sum(kTriangle, {{2, 1}}), (Ring{{2, 1}, {6, 1}, {2, 4}}));
  EXPECT_EQ(convex_sum({{2, 1}}, kTriangle), (Ring{{2, 1}, {6, 1}, {2, 4}}));
  EXPECT_EQ(convex_sum({{2, 1}}, {{3, 5}}), (Ring{{5, 6}}));
}

TEST(ConvexSum, WithASegmentSweepsAlongIt) {
  EXPECT_EQ(signed_area(convex_sum(kUnitSquare, {{0, 0}, {3, 0}})), 4);
  EXPECT_EQ(convex_sum(kUnitSquare, {{0, 0}, {3, 0}}).size(), 4u);
  EXPECT_EQ(convex_sum(kUnitSquare, {{1, 1}, {0, 0}}).size(), 6u);
}

TEST(ConvexSum, OfSegmentsIsAParallelogramOrALongerSegment) {
  EXPECT_EQ(signed_area(convex_sum({{0, 0}, {2, 1}}, {{0, 0}, {0, 3}})), 6);
  EXPECT_EQ(convex_sum({{0, 0}, {2, 1}}, {{4, 2}, {0, 0}}), (Ring{{0, 0}, {6, 3}}));
}

TEST(ConvexSum, WithNothingIsNothing) {
  EXPECT_TRUE(convex_sum(kTriangle, {}).empty());
  EXPECT_TRUE(convex_sum({}, kTriangle).empty());
}

// In binary 0.1 + 0.2 is not 0.3, and the slopes 0.3/0.1 and 0.6/0.2 differ.
TEST(ConvexSum, AddsDecimalsExactlyAndMergesTheirParallelEdges) {
  const Ring a{{0.1, 0.1}, {0.2, 0.4}, {0.1, 0.4}};
  const Ring b{{0.2, 0.2}, {0.4, 0.8}, {0.2, 0.8}};
  EXPECT_EQ(convex_sum(a, b), (Ring{{0.3, 0.3}, {0.6, 1.2}, {0.3, 1.2}}));
}

TEST(ConvexSum, TakesStraightCornersAndRepeatedVertices) {
  const Ring square{{0, 0}, {1, 0}, {2, 0}, {2, 0}, {2, 2}, {0, 2}, {0, 1}};
  EXPECT_EQ(convex_sum(square, kUnitSquare), (Ring{{0, 0}, {3, 0}, {3, 3}, {0, 3}}));
}

// Minkowski and Steiner: A(P + disc r) = A + P r + pi r^2, here of a disc as a polygon of 3600
// corners: the numbers are 192.566 for a square of 10 and r = 2, 21.1416 for 3-4-5 and r = 1.
TEST(ConvexSum, ApproachesSteinersFormula) {
  const auto disc = [](double radius) {
    Ring ring;
    for (int i = 0; i < 3600; ++i) {
      const double angle = std::numbers::pi * i / 1800;
      ring.push_back({radius * std::cos(angle), radius * std::sin(angle)});
    }
    return ring;
  };
  const Ring ten{{0, 0}, {10, 0}, {10, 10}, {0, 10}};
  const Ring square = convex_sum(ten, disc(2));
  EXPECT_NEAR(signed_area(square), 192.566370614359173, 1e-4);
  EXPECT_NEAR(perimeter(square), 40 + 4 * std::numbers::pi, 1e-4);
  EXPECT_NEAR(signed_area(convex_sum(kTriangle, disc(1))), 21.1415926535897932, 1e-4);
}

Ring random_convex(testing::Random& random) {
  for (;;) {
    const testing::Placing placing = testing::random_placing(random);
    Ring points;
    for (int k = random.whole(3, 20); k > 0; --k) {
      points.push_back(placing({random.whole(0, 12), random.whole(0, 12)}));
    }
    const Ring hull = convex_hull(points);
    if (hull.size() > 2) return hull;
  }
}

// de Berg et al., Computational Geometry, 3rd ed., ch. 13: no more edges than both together;
// perimeters add up (Cauchy); Brunn and Minkowski: sqrt A(P + Q) >= sqrt A(P) + sqrt A(Q), equal
// for homothetic sets alone.
TEST(ConvexSum, KeepsTheLawsOfConvexSums) {
  const std::uint32_t seed = testing::seed_or(4301);
  SCOPED_TRACE("LEEWAY_SEED=" + std::to_string(seed));
  testing::Random random(seed);
  for (int i = 0; i < 3000; ++i) {
    const Ring p = random_convex(random);
    const Ring q = random_convex(random);
    const Ring sum = convex_sum(p, q);
    ASSERT_TRUE(is_convex(sum));
    ASSERT_EQ(sum, normalized(sum));
    ASSERT_LE(sum.size(), p.size() + q.size());
    ASSERT_NEAR(perimeter(sum), perimeter(p) + perimeter(q), 1e-9);
    const double roots = std::sqrt(signed_area(p)) + std::sqrt(signed_area(q));
    ASSERT_GE(std::sqrt(signed_area(sum)), roots * (1 - 1e-12));
    const Ring twice = convex_sum(p, p);
    ASSERT_EQ(twice.size(), p.size());
    ASSERT_NEAR(signed_area(twice), 4 * signed_area(p), 1e-9 * signed_area(twice));
    for (const Point v : sum) ASSERT_EQ(v, to_lattice(v));
  }
}

TEST(SumPieces, AddsEveryPieceToEveryOther) {
  EXPECT_EQ(sum_pieces({kTriangle, kUnitSquare}, {kUnitSquare, kTriangle, {{0, 0}}}).size(), 6u);
  EXPECT_TRUE(sum_pieces({}, {kUnitSquare}).empty());
}

TEST(MinkowskiSum, OfConvexPolygonsIsOneRing) {
  const MultiPolygon sum = minkowski_sum({{kTriangle, {}}}, {{kUnitSquare, {}}});
  ASSERT_EQ(sum.size(), 1u);
  EXPECT_TRUE(sum[0].holes.empty());
  EXPECT_EQ(total_area(sum), 14);
}

TEST(MinkowskiSum, OfAnLAndASquareGrowsTheNotchSmaller) {
  const Ring l{{0, 0}, {10, 0}, {10, 2}, {2, 2}, {2, 10}, {0, 10}};
  const MultiPolygon sum = minkowski_sum({{l, {}}}, {{kUnitSquare, {}}});
  ASSERT_EQ(sum.size(), 1u);
  EXPECT_EQ(total_area(sum), 11 * 3 + 8 * 3);
}

TEST(MinkowskiSum, NarrowsAHoleAndCloses) {
  const Polygon frame{{{0, 0}, {10, 0}, {10, 10}, {0, 10}}, {{{4, 4}, {6, 4}, {6, 6}, {4, 6}}}};
  const MultiPolygon narrowed = minkowski_sum({frame}, {{kUnitSquare, {}}});
  ASSERT_EQ(narrowed.size(), 1u);
  ASSERT_EQ(narrowed[0].holes.size(), 1u);
  EXPECT_EQ(total_area(narrowed), 121 - 1);
  // A square of the hole's own size fills it but for one point, which has no area.
  const MultiPolygon closed = minkowski_sum({frame}, {{{{0, 0}, {2, 0}, {2, 2}, {0, 2}}, {}}});
  ASSERT_EQ(closed.size(), 1u);
  EXPECT_TRUE(closed[0].holes.empty());
  EXPECT_EQ(total_area(closed), 144);
}

TEST(MinkowskiSum, EnclosesAHoleWhereAGapCloses) {
  // A wall of thickness 1 round a room of 4 x 4, with a gap of 1 in it.
  const Ring room{{0, 0}, {6, 0}, {6, 6}, {3.5, 6}, {3.5, 5}, {5, 5},
                  {5, 1}, {1, 1}, {1, 5}, {2.5, 5}, {2.5, 6}, {0, 6}};
  const MultiPolygon sum = minkowski_sum({{room, {}}}, {{{{0, 0}, {2, 0}, {2, 2}, {0, 2}}, {}}});
  ASSERT_EQ(sum.size(), 1u);
  ASSERT_EQ(sum[0].holes.size(), 1u);
  EXPECT_EQ(total_area(sum), 64 - 4);
}

TEST(MinkowskiSum, KeepsApartWhatIsFarApart) {
  const MultiPolygon dots = mirrored({{kUnitSquare, {}}, {{{5, 5}, {6, 5}, {5, 6}}, {}}});
  const MultiPolygon sum = minkowski_sum(dots, {{kUnitSquare, {}}});
  EXPECT_EQ(sum.size(), 2u);
  EXPECT_EQ(total_area(sum), 4 + (0.5 + 1 + 1 + 1));
}

TEST(MinkowskiSum, WithNothingIsNothing) {
  EXPECT_TRUE(minkowski_sum({}, {{kUnitSquare, {}}}).empty());
  EXPECT_TRUE(minkowski_sum({{kUnitSquare, {}}}, {}).empty());
}

// Brunn and Minkowski's inequality holds for all sets, not convex ones alone.
TEST(MinkowskiSum, DoesNotDependOnTheOrderAndKeepsBrunnAndMinkowskisLaw) {
  const std::uint32_t seed = testing::seed_or(4302);
  SCOPED_TRACE("LEEWAY_SEED=" + std::to_string(seed));
  testing::Random random(seed);
  for (int i = 0; i < 300; ++i) {
    testing::MosaicMaker first(random, 4, 4, 60, false);
    testing::MosaicMaker second(random, 3, 3, 60, false);
    const MultiPolygon a = first.make({}).polygons;
    const MultiPolygon b = second.make({}).polygons;
    const MultiPolygon sum = minkowski_sum(a, b);
    const MultiPolygon other = minkowski_sum(b, a);
    ASSERT_NEAR(total_area(sum), total_area(other), 1e-9) << "pair " << i;
    if (!a.empty() && !b.empty()) {
      const double roots = std::sqrt(total_area(a)) + std::sqrt(total_area(b));
      ASSERT_GE(std::sqrt(total_area(sum)), roots * (1 - 1e-12)) << "pair " << i;
    }
  }
}

}  // namespace
}  // namespace leeway
