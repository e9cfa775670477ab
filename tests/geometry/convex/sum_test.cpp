// Sums by their convolution, against hand-worked cases and against the union of sums of pieces.

#include "geometry/convex/sum.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "geometry/convex/minkowski.h"
#include "geometry/distance/field.h"
#include "geometry/plane/polygons.h"
#include "geometry/random_polygons.h"

namespace leeway {
namespace {

// Leeways are rounded to 1e-6 mm.
constexpr double kNearlySame = 1e-7;

const Ring kSquare{{0, 0}, {2, 0}, {2, 2}, {0, 2}};
// An L of two arms, 1 wide: area 7.
const Ring kAngle{{0, 0}, {4, 0}, {4, 1}, {1, 1}, {1, 4}, {0, 4}};

double area_of(const MultiPolygon& polygons) {
  double sum = 0;
  for (const Polygon& polygon : polygons) sum += area(polygon);
  return sum;
}

Windings windings_of(const std::vector<Ring>& rings) {
  Windings windings;
  for (const Ring& ring : rings) {
    for (std::size_t i = 0; i < ring.size(); ++i) {
      windings.add(ring[i], ring[(i + 1) % ring.size()]);
    }
  }
  windings.prepare();
  return windings;
}

TEST(Windings, CountHowOftenAWayGoesRound) {
  Ring moved = kSquare;
  for (Point& p : moved) p = p + Point{1, 1};
  const Windings two = windings_of({kSquare, moved});
  EXPECT_EQ(two.at({0.5, 0.5}), 1);
  EXPECT_EQ(two.at({1.5, 1.5}), 2);
  EXPECT_EQ(two.at({2.5, 2.5}), 1);
  EXPECT_EQ(two.at({0.5, 2.5}), 0);
  EXPECT_EQ(two.at({9, 1}), 0);
  Ring clockwise = kSquare;
  std::reverse(clockwise.begin(), clockwise.end());
  EXPECT_EQ(windings_of({clockwise}).at({1, 1}), -1);
  EXPECT_EQ(windings_of({kSquare, clockwise}).at({1, 1}), 0);
}

// The sum of two convex outlines has the edges of both.
TEST(Convolution, OfTwoSquaresIsTheirSum) {
  const std::vector<ConvolutionEdge> edges = convolution({{kSquare, {}}}, {{kSquare, {}}});
  double length = 0;
  for (const ConvolutionEdge& edge : edges) {
    EXPECT_TRUE(edge.of_left_turn);
    length += std::hypot(edge.b.x - edge.a.x, edge.b.y - edge.a.y);
  }
  EXPECT_EQ(length, 16);
}

// By hand: the L grown by a square of 2 to the right and to the back: 6 x 3 and 3 x 3 more.
TEST(Sum, OfAnAngleAndASquare) {
  const SharedSum sum = sum_of({{kAngle, {}}}, {{kSquare, {}}});
  ASSERT_TRUE(sum);
  EXPECT_DOUBLE_EQ(area_of(sum->outline), 6 * 3 + 3 * 3);
  EXPECT_GT(sum->windings.at({5.5, 2.5}), 0);
  EXPECT_EQ(sum->windings.at({3.5, 3.5}), 0);
  const FieldPtr field = outside_sum(sum);
  EXPECT_EQ(field->distance({4, 4}), 1);
  EXPECT_EQ(field->distance({3, 4}), 0);
  EXPECT_EQ(field->distance({1, 1}), -1);
  EXPECT_EQ(field->distance({2, 5}), -1);
  EXPECT_LT(field->least_along({9, 4}, {-9, 4}), 0) << "the way crosses the arm";
}

// A frame 6 x 6 with an opening of 2 x 2: a square of 2 has one place in it, and that is closed.
TEST(Sum, AnExactFitIsNoOpening) {
  const MultiPolygon frame{{{{0, 0}, {6, 0}, {6, 6}, {0, 6}}, {{{2, 2}, {4, 2}, {4, 4}, {2, 4}}}}};
  const Ring small{{0, 0}, {1, 0}, {1, 1}, {0, 1}};
  EXPECT_DOUBLE_EQ(area_of(sum_of(frame, {{small, {}}})->outline), 7 * 7 - 1);
  EXPECT_DOUBLE_EQ(area_of(sum_of(frame, {{kSquare, {}}})->outline), 8 * 8);
  EXPECT_LT(outside_sum(sum_of(frame, {{kSquare, {}}}))->distance({4, 4}), 0);
}

TEST(Sum, RefusesOutlinesThatAreTooDetailedTogether) {
  Ring comb;
  for (int i = 0; i < 4000; ++i) {
    comb.push_back({i * 2.0, 5});
    comb.push_back({i * 2.0 + 1, 1});
  }
  comb.insert(comb.end(), {{8000, 5}, {8000, 0}, {0, 0}});
  std::reverse(comb.begin(), comb.end());
  EXPECT_FALSE(sum_of({{comb, {}}}, {{comb, {}}}));
}

// Sign and distance against the union of the pieces, which is another way altogether.
TEST(Sum, AgreesWithTheUnionOfPieces) {
  const std::uint32_t seed = testing::seed_or(77);
  testing::Random random(seed);
  for (int pair = 0; pair < 300; ++pair) {
    SCOPED_TRACE("LEEWAY_SEED=" + std::to_string(seed) + ", pair " + std::to_string(pair));
    const testing::Placing placing = testing::random_placing(random);
    const auto ring = [&] {
      return testing::random_ring(random, random.whole(4, 9), random.whole(5, 14), placing);
    };
    const MultiPolygon a{{ring(), {}}};
    const MultiPolygon b{{ring(), {}}};
    const SharedSum sum = sum_of(a, b);
    ASSERT_TRUE(sum);
    const FieldPtr by_convolution = outside_sum(sum);
    const FieldPtr by_pieces = outside_pieces(sum_pieces(convex_pieces(a), convex_pieces(b)));
    const Box box = bounding_box(minkowski_sum(a, b)[0].outer);
    for (int i = 0; i < 60; ++i) {
      const Point p{box.x0 + box.width() * random.whole(-100, 1100) / 1000.0,
                    box.y0 + box.depth() * random.whole(-100, 1100) / 1000.0};
      ASSERT_NEAR(by_convolution->distance(p), by_pieces->distance(p), kNearlySame)
          << p.x << ", " << p.y;
    }
  }
}

}  // namespace
}  // namespace leeway
