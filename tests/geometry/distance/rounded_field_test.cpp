// Inside boxes with rounded corners. Expected values are those of right triangles with whole sides
// (3-4-5, 5-12-13), and of plain sampling.

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "geometry/distance/field.h"
#include "geometry/plane/core.h"
#include "geometry/plane/vector.h"

namespace leeway {
namespace {

// 0..100 by 0..60 with corners of radius 10.
constexpr Box kCore{10, 90, 10, 50};
constexpr double kRadius = 10;

TEST(InsideRounded, MeasuresToSidesAndCorners) {
  const FieldPtr field = inside_rounded(kCore, kRadius, {{0, 0}});
  EXPECT_DOUBLE_EQ(field->distance({50, 20}), 20);
  EXPECT_DOUBLE_EQ(field->distance({50, -3}), -3);
  EXPECT_DOUBLE_EQ(field->distance({7, 6}), 5);     // 3-4-5 from the corner's centre
  EXPECT_DOUBLE_EQ(field->distance({4, 2}), 0);     // 6-8-10: on the rim
  EXPECT_DOUBLE_EQ(field->distance({95, 62}), -3);  // 5-12-13
}

TEST(InsideRounded, ASpotWithCornersMovesTheCornersInward) {
  // A spot of 8 by 6 about its reference point: what is left is rounded as before.
  const FieldPtr field = inside_rounded(kCore, kRadius, {{-4, -3}, {4, -3}, {4, 3}, {-4, 3}});
  const FieldPtr same = inside_rounded({14, 86, 13, 47}, kRadius, {{0, 0}});
  for (double x = -10; x <= 110; x += 3.7) {
    for (double y = -10; y <= 70; y += 3.3) {
      EXPECT_NEAR(field->distance({x, y}), same->distance({x, y}), 1e-9) << x << ", " << y;
    }
  }
}

// The distance from outside to what all copies hold, by sampling: the nearest of very many points.
double sampled(const std::vector<Point>& shifts, Point p) {
  const FieldPtr one = inside_rounded(kCore, kRadius, {{0, 0}});
  double nearest = 1e9;
  for (double x = 0; x <= 100; x += 0.25) {
    for (double y = 0; y <= 60; y += 0.25) {
      const bool held = std::all_of(shifts.begin(), shifts.end(), [&](Point by) {
        return one->distance(Point{x, y} + by) >= 0;
      });
      if (held) nearest = std::min(nearest, norm(Point{x, y} - p));
    }
  }
  return nearest;
}

TEST(InsideRounded, MeasuresFromOutsideToWhereArcsMeet) {
  // Wider than the straight part of the box: arcs of opposite corners meet.
  const std::vector<Point> wide{{-42, -5}, {42, 0}, {-10, 22}, {0, -21}};
  const FieldPtr field = inside_rounded(kCore, kRadius, wide);
  ASSERT_TRUE(field);
  int outside = 0;
  for (double x = 20; x <= 80; x += 6.3) {
    for (double y = 0; y <= 60; y += 5.1) {
      const double distance = field->distance({x, y});
      if (distance >= 0) continue;
      ++outside;
      // The true set has points nearer than those of the grid, by its diagonal at most.
      EXPECT_LE(-distance, sampled(wide, {x, y}) + 1e-9) << x << ", " << y;
      EXPECT_GE(-distance, sampled(wide, {x, y}) - 0.36) << x << ", " << y;
    }
  }
  EXPECT_GT(outside, 20);
  EXPECT_FALSE(inside_rounded(kCore, kRadius, {{-51, 0}, {51, 0}}));
}

TEST(InsideRounded, GuardsEveryNormalOfACorner) {
  const FieldPtr field = inside_rounded(kCore, kRadius, {{0, 0}});
  const Spread spread{2, 0.1, 1.2, 0.3};
  // leeway less guard is the least of radius - (v . m + along(m)) over all outward normals m, with
  // v seen from the corner to which m belongs.
  for (const Point p : {Point{5, 4}, Point{9, 9.5}, Point{10.4, 9}, Point{50, 30}, Point{2, 30}}) {
    double least = 1e9;
    for (int i = 0; i < 36000; ++i) {
      const double angle = i * 3.14159265358979323846 / 18000;
      const Point m{std::cos(angle), std::sin(angle)};
      const Point corner{m.x < 0 ? kCore.x0 : kCore.x1, m.y < 0 ? kCore.y0 : kCore.y1};
      least = std::min(least, kRadius - dot(p - corner, m) - spread.along(m));
    }
    const GuardedDistance guarded = field->guarded_distance(p, spread);
    EXPECT_NEAR(guarded.distance - guarded.guard, least, 1e-6) << p.x << ", " << p.y;
  }
}

TEST(Core, OfARoundedBoxIsABoxASegmentOrAPoint) {
  const auto rounded = [](double radius, Box box) { return core_of(RoundedBox{box, radius}); };
  EXPECT_EQ(std::get<Box>(rounded(10, {0, 100, 0, 60}).of), kCore);
  EXPECT_EQ(std::get<Box>(rounded(30, {0, 100, 0, 60}).of), (Box{30, 70, 30, 30}));
  EXPECT_EQ(std::get<Point>(rounded(30, {0, 60, 0, 60}).of), (Point{30, 30}));
  // 0.3 - 0.15 is not 0.15 to the bit.
  EXPECT_TRUE(point_of(rounded(0.15, {1.1, 1.4, 0, 0.3})));
  EXPECT_EQ(hull_of(rounded(30, {0, 100, 0, 60})).size(), 2U);
}

}  // namespace
}  // namespace leeway
