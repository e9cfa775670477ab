#include <gtest/gtest.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <numbers>

#include "geometry/convex/decomposition.h"
#include "geometry/convex/minkowski.h"
#include "geometry/plane/polygons.h"
#include "geometry/random_polygons.h"

namespace leeway {
namespace {

using decomposition::adds_up;

// By the first way alone; the trapezoids must not be what saves a test.
std::vector<Ring> by_triangles(const Polygon& polygon) {
  const auto triangulation = decomposition::triangulate(polygon);
  return triangulation ? decomposition::merge_triangles(*triangulation) : std::vector<Ring>{};
}

bool has_only_vertices_of(const Polygon& polygon, const std::vector<Ring>& pieces) {
  Ring all = polygon.outer;
  for (const Ring& hole : polygon.holes) all.insert(all.end(), hole.begin(), hole.end());
  for (const Ring& piece : pieces) {
    for (const Point p : piece) {
      if (std::find(all.begin(), all.end(), p) == all.end()) return false;
    }
  }
  return true;
}

void expect_decomposed(const Polygon& polygon) {
  const std::vector<Ring> pieces = by_triangles(polygon);
  EXPECT_TRUE(adds_up(pieces, polygon));
  EXPECT_TRUE(has_only_vertices_of(polygon, pieces));
  EXPECT_TRUE(adds_up(decomposition::trapezoids(polygon), polygon));
  EXPECT_EQ(convex_pieces({polygon}).size(), pieces.size());
}

const Ring kSquare{{0, 0}, {10, 0}, {10, 10}, {0, 10}};

TEST(ConvexPieces, KeepsAConvexRingInOnePiece) {
  EXPECT_EQ(convex_pieces({{kSquare, {}}}), std::vector<Ring>{kSquare});
  EXPECT_EQ(convex_pieces({{{{0, 10}, {10, 10}, {10, 5}, {10, 0}, {10, 0}, {0, 0}}, {}}}).size(),
            1u);
}

TEST(ConvexPieces, HasNoneOfNothing) {
  EXPECT_TRUE(convex_pieces({}).empty());
  EXPECT_TRUE(convex_pieces({Polygon{}}).empty());
}

TEST(ConvexPieces, CutsAnLInTwo) {
  const Polygon l{{{0, 0}, {2, 0}, {2, 1}, {1, 1}, {1, 2}, {0, 2}}, {}};
  expect_decomposed(l);
  EXPECT_EQ(convex_pieces({l}).size(), 2u);
}

TEST(ConvexPieces, CutsAFrameInFour) {
  const Polygon frame{kSquare, {{{3, 3}, {3, 7}, {7, 7}, {7, 3}}}};
  expect_decomposed(frame);
  EXPECT_LE(convex_pieces({frame}).size(), 5u);
}

TEST(ConvexPieces, TakesEitherWindingOfOuterRingAndHoles) {
  const Ring hole{{3, 3}, {3, 7}, {7, 7}};
  const Ring back(kSquare.rbegin(), kSquare.rend());
  const Ring hole_back(hole.rbegin(), hole.rend());
  for (const Ring& outer : {kSquare, back}) {
    for (const Ring& inner : {hole, hole_back}) expect_decomposed({outer, {inner}});
  }
}

TEST(ConvexPieces, CopesWithAHoleThatTouchesTheOuterRingAtAVertex) {
  expect_decomposed({kSquare, {{{0, 0}, {3, 6}, {6, 3}}}});
}

TEST(ConvexPieces, CopesWithAHoleWhoseVertexLiesWithinAnEdge) {
  expect_decomposed({kSquare, {{{5, 0}, {7, 4}, {3, 4}}}});
  // On a slanted edge of decimals that has no such point in binary.
  expect_decomposed({{{0, 0}, {0.9, 0.3}, {0.5, 0.9}}, {{{0.3, 0.1}, {0.5, 0.3}, {0.4, 0.4}}}});
}

TEST(ConvexPieces, CopesWithHolesThatTouchOneAnother) {
  const Ring left{{2, 2}, {5, 5}, {2, 8}};
  const Ring right{{8, 2}, {5, 5}, {8, 8}};
  expect_decomposed({kSquare, {left, right}});
  expect_decomposed({kSquare, {left, right, {{4, 9}, {5, 5}, {6, 9}}, {{4, 1}, {6, 1}, {5, 5}}}});
}

TEST(ConvexPieces, CopesWithAChainOfHolesThatCutsThePolygonInTwo) {
  expect_decomposed(
      {kSquare, {{{0, 5}, {3, 3}, {5, 5}, {3, 7}}, {{5, 5}, {7, 3}, {10, 5}, {7, 7}}}});
}

TEST(ConvexPieces, CopesWithHolesOnOneVertical) {
  Polygon polygon{kSquare, {}};
  for (const double y : {1.0, 4.0, 7.0}) {
    polygon.holes.push_back({{4, y}, {4, y + 2}, {6, y + 2}, {6, y}});
  }
  expect_decomposed(polygon);
}

TEST(ConvexPieces, CopesWithAHoleAlongAnEdge) {
  expect_decomposed({kSquare, {{{3, 0}, {7, 0}, {7, 4}, {3, 4}}}});
  expect_decomposed(
      {kSquare, {{{2, 2}, {4, 2}, {4, 4}, {2, 4}}, {{4, 3}, {6, 3}, {6, 6}, {4, 6}}}});
}

TEST(ConvexPieces, FindsNothingWhereAHoleFillsTheRing) {
  const Polygon filled{kSquare, {kSquare}};
  EXPECT_TRUE(convex_pieces({filled}).empty());
}

TEST(ConvexPieces, CopesWithRepeatedVerticesSpikesAndStraightCorners) {
  const Polygon polygon{{{0, 0},
                         {0, 0},
                         {5, 0},
                         {10, 0},
                         {10, 10},
                         {5, 5},
                         {5, 5},
                         {0, 10},
                         {0, 20},
                         {0, 10},
                         {0, 5}},
                        {}};
  expect_decomposed(polygon);
}

TEST(ConvexPieces, CopesWithARingThatTouchesItself) {
  expect_decomposed({{{0, 0}, {4, 0}, {4, 4}, {8, 4}, {8, 8}, {4, 8}, {4, 4}, {0, 4}}, {}});
}

TEST(ConvexPieces, FaultsLoudlyWhenARingCrossesItself) {
  EXPECT_THROW(convex_pieces({{{{0, 0}, {4, 4}, {4, 0}, {0, 3}}, {}}}), OverlayFault);
}

TEST(ConvexPieces, RefusesPiecesThatOverlapOrLeaveSomethingOut) {
  const Ring half{{0, 0}, {10, 0}, {10, 5}, {0, 5}};
  EXPECT_FALSE(adds_up({half}, {kSquare, {}}));
  EXPECT_FALSE(adds_up({kSquare, half}, {kSquare, {}}));
  EXPECT_FALSE(adds_up({{kSquare.rbegin(), kSquare.rend()}}, {kSquare, {}}));
  EXPECT_TRUE(adds_up({kSquare}, {kSquare, {}}));
}

TEST(ConvexPieces, MeetsEveryMosaicOfCellsAndItsArea) {
  const std::uint32_t seed = testing::seed_or(4101);
  SCOPED_TRACE("LEEWAY_SEED=" + std::to_string(seed));
  testing::Random random(seed);
  int polygons = 0;
  for (int i = 0; i < 3000; ++i) {
    testing::MosaicMaker maker(random, random.whole(1, 12), random.whole(1, 12),
                               random.whole(30, 90), random.chance(30));
    const testing::Mosaic mosaic = maker.make(testing::random_placing(random));
    double sum = 0;
    for (const Polygon& polygon : mosaic.polygons) {
      ++polygons;
      const std::vector<Ring> pieces = by_triangles(polygon);
      ASSERT_TRUE(adds_up(pieces, polygon)) << "mosaic " << i;
      ASSERT_TRUE(has_only_vertices_of(polygon, pieces)) << "mosaic " << i;
      for (const Ring& piece : pieces) sum += signed_area(piece);
    }
    ASSERT_NEAR(sum, mosaic.area, 1e-9 * mosaic.area) << "mosaic " << i;
  }
  EXPECT_GT(polygons, 3000);
}

TEST(ConvexPieces, MeetsEveryRandomRingInBothWays) {
  const std::uint32_t seed = testing::seed_or(4102);
  SCOPED_TRACE("LEEWAY_SEED=" + std::to_string(seed));
  testing::Random random(seed);
  for (int i = 0; i < 3000; ++i) {
    const int vertices = random.whole(3, 14);
    const Polygon polygon{
        testing::random_ring(random, vertices, random.whole(6, 40), random_placing(random)), {}};
    const std::vector<Ring> pieces = by_triangles(polygon);
    ASSERT_TRUE(adds_up(pieces, polygon)) << "ring " << i;
    ASSERT_LT(pieces.size(), polygon.outer.size()) << "ring " << i;
    ASSERT_TRUE(adds_up(decomposition::trapezoids(polygon), polygon)) << "ring " << i;
  }
}

// Turned by an angle, no coordinate is a decimal any more.
TEST(ConvexPieces, MeetsPolygonsOffAnyLattice) {
  const std::uint32_t seed = testing::seed_or(4103);
  SCOPED_TRACE("LEEWAY_SEED=" + std::to_string(seed));
  testing::Random random(seed);
  for (int i = 0; i < 500; ++i) {
    testing::MosaicMaker maker(random, 8, 8, 60, false);
    const double angle = random.whole(1, 1000) / 500.0;
    const auto turn = [&](Ring& ring) {
      for (Point& p : ring) {
        p = {p.x * std::cos(angle) - p.y * std::sin(angle),
             p.x * std::sin(angle) + p.y * std::cos(angle)};
      }
    };
    for (Polygon polygon : maker.make({}).polygons) {
      turn(polygon.outer);
      for (Ring& hole : polygon.holes) turn(hole);
      ASSERT_TRUE(adds_up(convex_pieces({polygon}), polygon)) << "mosaic " << i;
    }
  }
}

Ring star(int vertices) {
  Ring ring;
  for (int i = 0; i < vertices; ++i) {
    const double angle = 2 * std::numbers::pi * i / vertices;
    const double radius = i % 2 == 0 ? 100 : 60 + i * 7919 % 37;
    ring.push_back({std::round(1000 * radius * std::cos(angle)) / 1000,
                    std::round(1000 * radius * std::sin(angle)) / 1000});
  }
  return ring;
}

// As many vertices as a file may hold (kMostVertices). It takes 0.02 s; the limit is for a slow
// machine and still tells n log n from n squared times something.
TEST(ConvexPieces, CutsTenThousandVerticesInASecond) {
  const auto start = std::chrono::steady_clock::now();
  const Polygon polygon{star(10000), {}};
  const std::vector<Ring> pieces = by_triangles(polygon);
  const std::chrono::duration<double> took = std::chrono::steady_clock::now() - start;
  EXPECT_TRUE(adds_up(pieces, polygon));
  EXPECT_LT(took.count(), 1);
}

}  // namespace
}  // namespace leeway
