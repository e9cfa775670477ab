#include "geometry/distance/field.h"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "geometry/growth/disc_fits.h"
#include "geometry/plane/polygons.h"
#include "geometry/plane/vector.h"

namespace leeway {
namespace {

const Spread kRound{2, 0.3, 0.3, 0.1};
const Spread kMostlyAcross{2, 1.0, 0.05, 0.1};

// Where pieces meet, their union's edge may be off by as much as makes a seam tight.
constexpr double kSeam = 1e-8;

Ring square(double x0, double x1, double y0, double y1) {
  return to_polygon(Box{x0, x1, y0, y1}).outer;
}

// Random positions around the origin, half of them on a lattice so that many lie on edges.
std::vector<Point> positions(int count, double reach, unsigned seed) {
  std::mt19937 random(seed);
  std::uniform_real_distribution<double> anywhere(-reach, reach);
  std::vector<Point> points;
  for (int i = 0; i < count; ++i) {
    Point p{anywhere(random), anywhere(random)};
    if (i % 2 == 0) p = {std::round(p.x * 2) / 2, std::round(p.y * 2) / 2};
    points.push_back(p);
  }
  return points;
}

void expect_same(const Field& a, const Field& b, const std::vector<Point>& points,
                 double tolerance = 1e-9) {
  for (Point p : points) {
    EXPECT_NEAR(a.distance(p), b.distance(p), tolerance) << p.x << ", " << p.y;
  }
}

TEST(Field, ASideIsMeasuredAlongItsAxis) {
  EXPECT_EQ(beyond_side(Axis::x, 3, 1)->distance({5, 100}), 2);
  EXPECT_EQ(beyond_side(Axis::x, 3, -1)->distance({5, 100}), -2);
  EXPECT_EQ(beyond_side(Axis::y, 3, -1)->distance({5, 1}), 2);
  EXPECT_EQ(beyond_side(Axis::y, 3, -1)->guarded_distance({5, 1}, {2, 0.5, 0.25, 0}).guard, 0.5);
}

TEST(Field, FourWaysToSayTheSameSquareAgree) {
  const FieldPtr box = outside_box({-4, 6, -3, 5});
  const FieldPtr convex = outside_convex(square(-4, 6, -3, 5));
  const FieldPtr polygons = outside_polygons({{square(-4, 6, -3, 5), {}}});
  const FieldPtr pieces = outside_pieces({square(-4, 1, -3, 5), square(1, 6, -3, 5)});
  const std::vector<Point> points = positions(4000, 12, 1);
  expect_same(*box, *convex, points);
  expect_same(*box, *polygons, points);
  expect_same(*box, *pieces, points, kSeam);
}

TEST(Field, GuardsOfTheSameSquareAgreeOutside) {
  const FieldPtr box = outside_box({-4, 6, -3, 5});
  const FieldPtr convex = outside_convex(square(-4, 6, -3, 5));
  const FieldPtr polygons = outside_polygons({{square(-4, 6, -3, 5), {}}});
  for (Point p : positions(4000, 12, 2)) {
    const GuardedDistance guarded = box->guarded_distance(p, kMostlyAcross);
    if (guarded.distance < 0) continue;
    EXPECT_NEAR(guarded.guard, convex->guarded_distance(p, kMostlyAcross).guard, 1e-9)
        << p.x << ", " << p.y;
    EXPECT_NEAR(guarded.guard, polygons->guarded_distance(p, kMostlyAcross).guard, 1e-9)
        << p.x << ", " << p.y;
  }
}

TEST(Field, DistancesOfManyAreTheDistancesOfEach) {
  const FieldPtr fields[] = {beyond_side(Axis::y, 1, 1), outside_box({-4, 6, -3, 5}),
                             inside_disc({{1, 2}, 7}), outside_convex(square(-4, 6, -3, 5))};
  const std::vector<Point> points = positions(100, 12, 3);
  std::vector<double> xs, ys, out(points.size());
  for (Point p : points) {
    xs.push_back(p.x);
    ys.push_back(p.y);
  }
  for (const FieldPtr& field : fields) {
    field->distances(xs.data(), ys.data(), out.data(), points.size());
    for (std::size_t i = 0; i < points.size(); ++i) {
      EXPECT_EQ(out[i], field->distance(points[i]));
    }
  }
}

// L: a box with its upper right quarter missing, and a hole.
const MultiPolygon kL{{{{-5, -5}, {5, -5}, {5, 0}, {0, 0}, {0, 5}, {-5, 5}},
                       {{{-4, -4}, {-4, -2}, {-2, -2}, {-2, -4}}}}};
const std::vector<Ring> kLPieces{square(-5, -4, -5, 5), square(-4, 0, -2, 5), square(-4, 5, -5, -4),
                                 square(-2, 5, -4, -2), square(0, 5, -2, 0)};

TEST(Field, PiecesOfANonConvexPolygonAgreeWithThePolygon) {
  expect_same(*outside_polygons(kL), *outside_pieces(kLPieces), positions(6000, 9, 4), kSeam);
}

TEST(Field, InsideIsMinusOutside) {
  const FieldPtr inside = inside_polygons(kL);
  const FieldPtr outside = outside_polygons(kL);
  for (Point p : positions(1000, 9, 5)) {
    EXPECT_NEAR(inside->distance(p), -outside->distance(p), 1e-12);
  }
}

TEST(Field, ASeamBetweenPiecesIsNoWayThrough) {
  const FieldPtr field = outside_pieces({square(0, 5, 0, 10), square(5, 10, 0, 10)});
  EXPECT_NEAR(field->distance({5, 5}), -5, kSeam);
  EXPECT_NEAR(field->least_along({5, -3}, {5, 13}), -5, kSeam);
  // Nor where rounding has opened it by a hair.
  const FieldPtr hair = outside_pieces({square(0, 5, 0, 10), square(5 + 1e-12, 10, 0, 10)});
  EXPECT_NEAR(hair->distance({5 + 5e-13, 5}), -5, 1e-6);
}

TEST(Field, ASlitThatCountsAsCoveredHasNoEdges) {
  for (const double width : {5e-10, 1.5e-9, 1.9e-9}) {
    const FieldPtr field = outside_pieces({square(0, 5, 0, 10), square(5 + width, 10, 0, 10)});
    for (const double x : {5.0, 5 + width / 2, 5 + width}) {
      EXPECT_NEAR(field->distance({x, 5}), -5, 1e-6) << width;
    }
  }
}

TEST(Field, OfTwoEdgesOnNearlyOneLineOneStays) {
  // They cross halfway, a few rounding errors apart at their ends.
  for (const double apart : {5e-10, 2e-9, 1e-8, 1e-6}) {
    const Ring copy{{5, 0}, {10 + apart, 0}, {10 - apart, 10}, {5, 10}};
    for (const std::vector<Ring>& pieces :
         {std::vector<Ring>{square(0, 10, 0, 10), copy}, {copy, square(0, 10, 0, 10)}}) {
      const FieldPtr field = outside_pieces(pieces);
      for (const double y : {2.0, 4.0, 5.0, 6.0, 8.0}) {
        EXPECT_NEAR(field->distance({9.9, y}), -0.1, 2e-6) << apart << ", at " << y;
      }
    }
  }
}

TEST(Field, AGapBetweenPiecesIsAWayThrough) {
  const FieldPtr field = outside_pieces({square(0, 5, 0, 10), square(5.002, 10, 0, 10)});
  EXPECT_NEAR(field->distance({5.001, 5}), 0.001, 1e-9);
  EXPECT_NEAR(field->least_along({5.001, -3}, {5.001, 13}), 0.001, 1e-9);
}

TEST(Field, SurroundingsWithAFrameAreTheBedFromInside) {
  const Box frame{-5, 5, -5, 5};
  std::vector<Ring> around{square(-20, -5, -20, 20), square(5, 20, -20, 20),
                           square(-5, 5, -20, -5),   square(-5, 5, 5, 20),
                           square(0, 5, 0, 5),       square(-4, -2, -4, -2)};
  expect_same(*inside_polygons(kL), *outside_pieces(around, &frame), positions(6000, 30, 6), kSeam);
}

TEST(Field, DistancesOfABlockAreTheDistancesOfEachNearAndFar) {
  const Box frame{-5, 5, -5, 5};
  const FieldPtr fields[] = {
      outside_convex({{-3, -3}, {4, -2}, {1, 5}}), inside_polygons(kL), outside_polygons(kL),
      outside_pieces(kLPieces),
      outside_pieces({square(-20, -5, -20, 20), square(5, 20, -20, 20), square(-5, 5, -20, -5),
                      square(-5, 5, 5, 20), square(0, 5, 0, 5), square(-4, -2, -4, -2)},
                     &frame)};
  std::mt19937 random(7);
  std::uniform_real_distribution<double> part(-1, 1);
  std::uniform_real_distribution<double> size(0, 4);
  double xs[100], ys[100], out[100];
  for (const FieldPtr& field : fields) {
    for (const Point middle : positions(400, 9, 8)) {
      const double reach = size(random);
      for (int i = 0; i < 100; ++i) {
        xs[i] = middle.x + reach * part(random);
        ys[i] = middle.y + reach * part(random);
      }
      field->distances(xs, ys, out, 100);
      for (int i = 0; i < 100; ++i) {
        ASSERT_EQ(out[i], field->distance({xs[i], ys[i]})) << xs[i] << ", " << ys[i];
      }
    }
  }
}

TEST(Field, SurroundingsThatCoverAllOfTheFrameLeaveNothing) {
  const Box frame{0, 10, 0, 10};
  EXPECT_EQ(outside_pieces({square(-5, 5, -5, 15), square(5, 15, -5, 15)}, &frame), nullptr);
}

TEST(Field, ChangesNoFasterThanThePosition) {
  const FieldPtr fields[] = {outside_polygons(kL), outside_pieces(kLPieces),
                             outside_box({-4, 6, -3, 5}), inside_disc({{1, 2}, 7}),
                             inside_discs({{0, 0}, {3, 1}, {1, 4}}, 6)};
  std::mt19937 random(7);
  std::uniform_real_distribution<double> step(-1, 1);
  for (const FieldPtr& field : fields) {
    for (Point p : positions(2000, 9, 8)) {
      const Point q = p + Point{step(random), step(random)};
      EXPECT_LE(std::abs(field->distance(p) - field->distance(q)), distance(p, q) + 1e-9);
    }
  }
}

// Published values.

TEST(Field, RadiusOfTheLargestInscribedCircle) {
  // Boyd and Vandenberghe, Convex Optimization, Chebyshev centre: a = (2,1), (2,-1), (-1,2),
  // (-1,-2), b = 1; optimum 1/sqrt(5) at the origin.
  // Corners: the lines meet pairwise in (1/2, 0), (1/5, 3/5), (-1, 0), (1/5, -3/5).
  const Ring corners{{0.5, 0}, {0.2, 0.6}, {-1, 0}, {0.2, -0.6}};
  EXPECT_NEAR(inside_polygons({{corners, {}}})->distance({0, 0}), 0.447213595499957939, 1e-15);
  // r = 2A / P: 3-4-5 gives 1 (centre (1, 1)), 5-12-13 gives 2.
  EXPECT_NEAR(inside_polygons({{{{0, 0}, {4, 0}, {0, 3}}, {}}})->distance({1, 1}), 1, 1e-15);
  EXPECT_NEAR(inside_polygons({{{{0, 0}, {12, 0}, {0, 5}}, {}}})->distance({2, 2}), 2, 1e-15);
  // Lens of unit discs at distance 1: 0.5 in the middle, corners at (1/2, +-sqrt(3)/2).
  const FieldPtr lens = inside_discs({{0, 0}, {1, 0}}, 1);
  EXPECT_NEAR(lens->distance({0.5, 0}), 0.5, 1e-15);
  EXPECT_NEAR(lens->distance({0.5, std::sqrt(3) / 2}), 0, 1e-15);
  EXPECT_NEAR(lens->distance({0.5, 2}), -(2 - std::sqrt(3) / 2), 1e-15);
  EXPECT_NEAR(lens->distance({3, 0}), -2, 1e-15);
}

TEST(Field, CountsLatticePointsAsPickDoes) {
  // OGC Blue Lake vicinity (99-049, 06-104r4 Annex C): Ashton has area 462; Pick's theorem
  // A = I + B/2 - 1 with B = 74 gives I = 426. Blue Lake's shell: B = 13, I = 254.
  const auto count = [](const Ring& ring) {
    const FieldPtr field = inside_polygons({{ring, {}}});
    std::pair<int, int> inside_and_on{0, 0};
    for (int x = 0; x <= 100; ++x) {
      for (int y = 0; y <= 60; ++y) {
        const double d = field->distance({static_cast<double>(x), static_cast<double>(y)});
        if (std::abs(d) < 1e-9) {
          ++inside_and_on.second;
        } else if (d > 0) {
          ++inside_and_on.first;
        }
      }
    }
    return inside_and_on;
  };
  EXPECT_EQ(count({{62, 48}, {84, 48}, {84, 30}, {56, 30}, {56, 34}}), std::make_pair(426, 74));
  EXPECT_EQ(count({{52, 18}, {66, 23}, {73, 9}, {48, 6}}), std::make_pair(254, 13));
}

TEST(Field, DistanceFromCamBridgeToAshton) {
  // OGC Blue Lake vicinity (99-049, 06-104r4 Annex C), test T46: 12.0. To Blue Lake it is
  // sqrt(8^2 + 13^2), to its corner (52,18).
  const FieldPtr ashton =
      outside_polygons({{{{62, 48}, {84, 48}, {84, 30}, {56, 30}, {56, 34}}, {}}});
  EXPECT_DOUBLE_EQ(ashton->distance({44, 31}), 12.0);
  const FieldPtr lake = outside_polygons(
      {{{{52, 18}, {66, 23}, {73, 9}, {48, 6}}, {{{59, 18}, {67, 18}, {67, 13}, {59, 13}}}}});
  EXPECT_NEAR(lake->distance({44, 31}), 15.2643375224737, 1e-12);
  EXPECT_NEAR(lake->distance({63, 15.5}), 2.5, 1e-12) << "in the hole the lake is not";
}

TEST(Field, OnACornerTheGuardIsTheLargest) {
  const double most = kMostlyAcross.most();
  EXPECT_EQ(outside_box({-4, 6, -3, 5})->guarded_distance({6, 5}, kMostlyAcross).guard, most);
  EXPECT_EQ(outside_convex(square(-4, 6, -3, 5))->guarded_distance({6, 5}, kMostlyAcross).guard,
            most);
  EXPECT_EQ(
      outside_polygons({{square(-4, 6, -3, 5), {}}})->guarded_distance({6, 5}, kMostlyAcross).guard,
      most);
}

TEST(Field, ACornerGuardsAlongTheLineToThePosition) {
  const GuardedDistance guarded =
      outside_box({-4, 6, -3, 5})->guarded_distance({9, 9}, kMostlyAcross);
  EXPECT_DOUBLE_EQ(guarded.distance, 5);
  // n = (0.6, 0.8): u^2 = (0.6 * 1)^2 + (0.8 * 0.05)^2 + 0.1^2.
  EXPECT_DOUBLE_EQ(guarded.guard, 2 * std::sqrt(0.36 + 0.0016 + 0.01));
}

TEST(Field, ABedAsPolygonIsGuardedLikeItsFourSides) {
  // The nearest edge is the front one, where the offset is known well; the left one decides.
  const FieldPtr bed = inside_polygons({{square(0, 100, 0, 100), {}}});
  const GuardedDistance guarded = bed->guarded_distance({0.6, 0.5}, kMostlyAcross);
  EXPECT_DOUBLE_EQ(guarded.distance, 0.5);
  const double left = 0.6 - kMostlyAcross.along({1, 0});
  const double front = 0.5 - kMostlyAcross.along({0, 1});
  ASSERT_LT(left, front);
  EXPECT_NEAR(guarded.distance - guarded.guard, left, 1e-12);
  for (Point p : positions(2000, 100, 9)) {
    const GuardedDistance here = bed->guarded_distance(p, kMostlyAcross);
    if (here.distance <= 1e-6) continue;
    double least = 1e9;
    for (const FieldPtr& side : {beyond_side(Axis::x, 0, 1), beyond_side(Axis::x, 100, -1)}) {
      least = std::min(least, side->distance(p) - kMostlyAcross.along({1, 0}));
    }
    for (const FieldPtr& side : {beyond_side(Axis::y, 0, 1), beyond_side(Axis::y, 100, -1)}) {
      least = std::min(least, side->distance(p) - kMostlyAcross.along({0, 1}));
    }
    EXPECT_NEAR(here.distance - here.guard, least, 1e-9) << p.x << ", " << p.y;
  }
}

TEST(Field, OnAnEdgeTheOtherEdgesStillGuard) {
  // Offset known exactly in y: on the front edge that edge asks for nothing, the left one does.
  const Spread across{2, 1, 0, 0};
  const FieldPtr bed = inside_polygons({{square(0, 100, 0, 100), {}}});
  EXPECT_DOUBLE_EQ(bed->guarded_distance({1, 0}, across).guard, 1);  // 0 - 1 = 1 - 2
  EXPECT_DOUBLE_EQ(bed->guarded_distance({50, 0}, across).guard, 0);
  EXPECT_DOUBLE_EQ(bed->guarded_distance({0, 0}, across).guard, 2);
  // The floor of a U, as obstacle: its walls are 5 away and ask for 6.
  const Ring u{{0, 0}, {30, 0}, {30, 40}, {20, 40}, {20, 10}, {10, 10}, {10, 40}, {0, 40}};
  const Spread wide{2, 3, 0, 0};
  EXPECT_DOUBLE_EQ(outside_polygons({{u, {}}})->guarded_distance({15, 10}, wide).guard, 1);
  const FieldPtr pieces =
      outside_pieces({square(0, 30, 0, 10), square(0, 10, 10, 40), square(20, 30, 10, 40)});
  EXPECT_NEAR(pieces->guarded_distance({15, 10}, wide).guard, 1, 1e-9);
}

TEST(Field, ACornerIsGuardedByBothItsLines) {
  // A chamfer, and a position beside the vertical edge just above it: an error down along the edge
  // leaves the bed across the chamfer (found by the GEOS judge).
  const FieldPtr bed =
      inside_polygons({{{{269.5, 1.5}, {268, 0}, {0, 0}, {0, 129}, {269.5, 129}}, {}}});
  const Spread down{3, 0, 0.1, 0};
  const GuardedDistance guarded = bed->guarded_distance({269.499994, 1.500012}, down);
  EXPECT_GT(guarded.guard, guarded.distance);
  EXPECT_LT(bed->guarded_distance({269.499994, 20}, down).guard, 1e-9);
}

TEST(Field, ARoundRimIsGuardedLikeItsTangents) {
  // An error of 2 in x carries a position at the top of the rim off it, though along y nothing may
  // move: (R - leeway)^2 + 2^2 <= R^2.
  const Spread across{2, 1, 0, 0};
  const FieldPtr disc = inside_disc({{0, 0}, 100});
  const double most = std::sqrt(100 * 100 - 2 * 2);
  EXPECT_NEAR(disc->guarded_distance({0, most}, across).guard, 100 - most, 1e-9);
  EXPECT_NEAR(disc->guarded_distance({50, 0}, across).guard, 2, 1e-9);
  for (int i = 0; i < 360; ++i) {
    const Spread spread{2, 0.6, 0.1, 0.2};
    const Point p{70 * std::cos(i * 0.0174533), 70 * std::sin(i * 0.0174533)};
    EXPECT_GE(disc->guarded_distance(p, spread).guard, spread.along(p, 70) - 1e-12);
    EXPECT_LE(disc->guarded_distance(p, spread).guard, spread.most() + 1e-12);
  }
}

TEST(Field, TheSameSpreadAllRoundNeedsNoDirection) {
  for (const FieldPtr& field : {outside_polygons(kL), outside_pieces(kLPieces),
                                outside_box({-4, 6, -3, 5}), inside_disc({{1, 2}, 7})}) {
    for (Point p : positions(200, 9, 10)) {
      EXPECT_NEAR(field->guarded_distance(p, kRound).guard, 2 * std::sqrt(0.09 + 0.01), 1e-12);
    }
  }
}

TEST(Field, TheLeastOnTheWayIsTheLeastOfManyLooks) {
  const FieldPtr fields[] = {outside_box({-4, 6, -3, 5}),
                             outside_disc({{1, 2}, 3}),
                             outside_convex({{-3, -3}, {4, -2}, {1, 5}}),
                             outside_pieces(kLPieces),
                             inside_polygons(kL),
                             outside_polygons(kL)};
  const std::vector<Point> points = positions(400, 12, 11);
  for (const FieldPtr& field : fields) {
    for (std::size_t i = 0; i + 1 < points.size(); ++i) {
      const Point a = points[i];
      const Point b = points[i + 1];
      double least = 1e9;
      for (int k = 0; k <= 400; ++k) {
        least = std::min(least, field->distance(a + (k / 400.0) * (b - a)));
      }
      const double claimed = field->least_along(a, b);
      // Never more than what is there; below 0 the union may be deeper than its pieces.
      EXPECT_LE(claimed, std::max(least, 0.0) + 1e-6);
      EXPECT_EQ(claimed < -0.05, least < -0.05) << claimed << " " << least;
      if (least > 0) {
        EXPECT_NEAR(claimed, least, distance(a, b) / 400);
      }
    }
  }
}

TEST(Field, AWayAcrossANotchOfTheTravelIsSeen) {
  const FieldPtr inside = inside_polygons(kL);
  EXPECT_LT(inside->least_along({4, -1}, {-1, 4}), 0);
  EXPECT_GE(inside->least_along({4, -1}, {0, 0}), 0);
  EXPECT_EQ(inside->least_along({5, 0}, {0, 0}), 0) << "along the edge is inside";
  EXPECT_LT(inside->least_along({-4.5, -3}, {1, -3}), 0) << "across the hole";
}

TEST(Field, AWayPastACornerOfTheTravelHasTheLeewayOfTheCorner) {
  const MultiPolygon notched = {
      {{{-50, -50}, {50, -50}, {50, 50}, {-50, 50}}, {{{-11, -20}, {-22, 2}, {-11, 25}, {0, 2}}}}};
  const FieldPtr inside = inside_polygons(notched);
  EXPECT_EQ(inside->least_along({0, -2}, {0, 9}), 0) << "touches the corner";
  EXPECT_NEAR(inside->least_along({0.25, -20}, {0.25, 40}), 0.25, 1e-12);
  EXPECT_NEAR(outside_polygons({{notched[0].holes[0], {}}})->least_along({0.25, -20}, {0.25, 40}),
              0.25, 1e-12);
}

TEST(Field, NowhereIsMinusInfinity) {
  EXPECT_EQ(nowhere()->distance({0, 0}), -std::numeric_limits<double>::infinity());
}

TEST(DiscFits, UpToTheInscribedCircle) {
  const FieldPtr triangle = inside_polygons({{{{0, 0}, {4, 0}, {0, 3}}, {}}});
  const Box box{0, 4, 0, 3};
  EXPECT_TRUE(disc_fits(*triangle, box, 0.999));
  EXPECT_TRUE(disc_fits(*triangle, box, 1));
  EXPECT_FALSE(disc_fits(*triangle, box, 1.001));
  const FieldPtr slot = inside_polygons({{square(0, 300, 0, 8), {}}});
  EXPECT_TRUE(disc_fits(*slot, {0, 300, 0, 8}, 4));
  EXPECT_FALSE(disc_fits(*slot, {0, 300, 0, 8}, 4.1));
}

}  // namespace
}  // namespace leeway
