#include "geometry/areas/shifted_overlap.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <random>

#include "geometry/growth/growth.h"
#include "geometry/overlay/overlay.h"
#include "geometry/plane/polygons.h"

namespace leeway {
namespace {

double area_of(const MultiPolygon& region) {
  double sum = 0;
  for (const Polygon& polygon : region) sum += area(polygon);
  return sum;
}

MultiPolygon square(double x0, double x1, double y0, double y1) {
  return {to_polygon({x0, x1, y0, y1})};
}

std::vector<double> row(const MultiPolygon& fixed, const MultiPolygon& moved, const Steps& xs,
                        double y) {
  std::vector<double> areas(static_cast<std::size_t>(xs.count));
  ShiftedOverlap(fixed, moved).row(xs, y, areas);
  return areas;
}

TEST(ShiftedOverlap, OfTwoRectangles) {
  const MultiPolygon fixed = square(0, 10, 0, 10);
  const MultiPolygon moved = square(0, 4, 0, 4);
  EXPECT_EQ(row(fixed, moved, {-5, 11, 9}, 0),
            (std::vector<double>{0, 4, 12, 16, 16, 16, 12, 4, 0}));
  EXPECT_EQ(row(fixed, moved, {-1, 1, 3}, 8), (std::vector<double>{6, 8, 8}));
  EXPECT_EQ(row(fixed, moved, {3, 3, 1}, 8), (std::vector<double>{8}));
  EXPECT_EQ(row(fixed, moved, {0, 9, 4}, 10), (std::vector<double>{0, 0, 0, 0}));
  EXPECT_EQ(row(fixed, {}, {0, 1, 2}, 0), (std::vector<double>{0, 0}));
}

// A right triangle slides out over an upright edge: half the square of what is left.
TEST(ShiftedOverlap, OfATriangleLeavingOverAnEdge) {
  const MultiPolygon fixed = square(0, 100, -50, 50);
  const MultiPolygon triangle = {{{{0, 0}, {0, 8}, {8, 0}}, {}}};  // clockwise
  const std::vector<double> areas = row(fixed, triangle, {92, 100, 5}, 0);
  for (int i = 0; i < 5; ++i) {
    const double beyond = 2.0 * i;
    EXPECT_NEAR(areas[static_cast<std::size_t>(i)], 32 - beyond * beyond / 2, 1e-9);
  }
}

TEST(ShiftedOverlap, HolesAreLeftOut) {
  const MultiPolygon fixed = {
      {to_polygon({0, 100, 0, 100}).outer, {to_polygon({40, 60, 40, 60}).outer}}};
  EXPECT_NEAR(row(fixed, square(0, 50, 0, 50), {0, 0, 1}, 0)[0], 2500 - 100, 1e-9);
  EXPECT_NEAR(row(fixed, square(0, 50, 0, 50), {30, 30, 1}, 30)[0], 2500 - 400, 1e-9);
  EXPECT_NEAR(row(square(0, 50, 0, 50), fixed, {-30, -30, 1}, -30)[0], 2500 - 400, 1e-9);
}

// Polygons with vertices anywhere, against the checked overlay of this program.
TEST(ShiftedOverlap, AgreesWithOverlayOnRandomPolygons) {
  std::mt19937_64 engine(5);
  std::uniform_int_distribution<int> um(-40'000, 40'000);
  const auto star = [&](double reach) {
    Ring ring;
    const int n = 3 + static_cast<int>(engine() % 9);
    for (int i = 0; i < n; ++i) {
      const double angle = 2 * std::numbers::pi * i / n;
      const double radius = reach * (0.3 + 0.7 * (static_cast<double>(engine() % 1000) / 1000));
      ring.push_back({std::round(1000 * radius * std::cos(angle)) / 1000,
                      std::round(1000 * radius * std::sin(angle)) / 1000});
    }
    return MultiPolygon{{ring, {}}};
  };
  for (int i = 0; i < 300; ++i) {
    const MultiPolygon fixed = star(60);
    const MultiPolygon moved = star(30);
    const Point by{um(engine) / 1000.0, um(engine) / 1000.0};
    const double truth = area_of(intersect(fixed, translated(moved, by)));
    // Crossings are rounded to whole micrometres by the overlay.
    EXPECT_NEAR(row(fixed, moved, {by.x, by.x + 1, 2}, by.y)[0], truth, 0.02);
    EXPECT_NEAR(row(fixed, moved, {by.x - 100, by.x, 41}, by.y)[40], truth, 0.02);
  }
}

MultiPolygon round_bed(double radius) { return {{circumscribed({{0, 0}, radius}, 1e-5), {}}}; }

// Areas of lenses and cut discs: project's table of published values (MathWorld's formula of the
// circle-circle intersection; "1.22837" for unit discs at distance 1).
TEST(DiscOverlap, Lenses) {
  EXPECT_NEAR(DiscOverlap(round_bed(1), 1).area({1, 0}), 1.22836969860875685, 1e-4);
  EXPECT_NEAR(DiscOverlap(round_bed(3), 4).area({3, 4}), 6.64167470270706028, 2e-4);
  EXPECT_NEAR(DiscOverlap(round_bed(100), 100).area({0, -50}), 21521.0922502970882, 5e-3);
  EXPECT_NEAR(DiscOverlap(round_bed(150), 150).area({30, 40}), 55755.5714120098079, 1e-2);
  EXPECT_EQ(DiscOverlap(round_bed(1), 1).area({3, 0}), 0);
}

TEST(DiscOverlap, DiscsCutByStraightEdges) {
  EXPECT_NEAR(DiscOverlap(square(-1000, 6, -1000, 1000), 10).area({0, 0}), 269.429743558818101,
              1e-9);
  EXPECT_NEAR(DiscOverlap(square(-80, 80, -90, 90), 100).area({0, 0}), 26971.3862224802084, 1e-9);
  EXPECT_NEAR(DiscOverlap(square(-100, 100, -100, 100), 110).area({0, 0}), 35546.1100465309116,
              1e-8);
  // Unit disc, segment of height 1/2: pi/3 - sqrt(3)/4.
  EXPECT_NEAR(DiscOverlap(square(0.5, 5, -5, 5), 1).area({0, 0}), 0.614184849304378423, 1e-12);
  // Edges through the centre, and a corner at it.
  EXPECT_NEAR(DiscOverlap(square(0, 5, -5, 5), 1).area({0, 0}), std::numbers::pi / 2, 1e-12);
  EXPECT_NEAR(DiscOverlap(square(0, 5, 0, 5), 1).area({0, 0}), std::numbers::pi / 4, 1e-12);
  // Tangent from outside and from inside.
  EXPECT_NEAR(DiscOverlap(square(1, 5, -5, 5), 1).area({0, 0}), 0, 1e-12);
  EXPECT_NEAR(DiscOverlap(square(-1, 5, -5, 5), 1).area({0, 0}), std::numbers::pi, 1e-12);
}

TEST(DiscOverlap, HolesAndWindings) {
  const MultiPolygon bed = {
      {{{-50, -50}, {-50, 50}, {50, 50}, {50, -50}}, {{{-2, -2}, {2, -2}, {2, 2}, {-2, 2}}}}};
  EXPECT_NEAR(DiscOverlap(bed, 10).area({0, 0}), 100 * std::numbers::pi - 16, 1e-9);
  EXPECT_NEAR(DiscOverlap(bed, 10).area({30, 0}), 100 * std::numbers::pi, 1e-9);
  EXPECT_NEAR(DiscOverlap(bed, 200).area({0, 0}), 10000 - 16, 1e-9);
}

}  // namespace
}  // namespace leeway
