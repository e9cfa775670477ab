#include "geometry/growth/growth.h"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "geometry/distance/convex_distance.h"
#include "geometry/distance/field.h"
#include "geometry/overlay/overlay.h"
#include "geometry/plane/micrometres.h"
#include "geometry/plane/polygons.h"
#include "geometry/plane/vector.h"

namespace leeway {
namespace {

constexpr double kPi = 3.14159265358979323846;
const Spread kNone{};

// How far results may be off: kCircleTolerance and the lattice, see growth.h.
constexpr double kOff = 0.0025;
constexpr double kOffVarying = 0.02;  // seen: 0.011 where one direction is 60 times the other

double sum_of_areas(const MultiPolygon& polygons) {
  double sum = 0;
  for (const Polygon& polygon : polygons) sum += area(polygon);
  return sum;
}

TEST(DiscPolygons, EncloseTheCircleWithinTheTolerance) {
  for (const double radius : {0.05, 0.5, 3.5, 94.5, 400.0}) {
    const Ring around = circumscribed({{3, -2}, radius});
    const Ring within = inscribed({{3, -2}, radius});
    const double far = norm(around[0] - Point{3, -2});
    EXPECT_LE(far, radius + kCircleTolerance);
    EXPECT_GE(-convex_distance(around, {3, -2}).distance, radius - 1e-12);
    EXPECT_NEAR(norm(within[0] - Point{3, -2}), radius, 1e-12);
    EXPECT_GE(-convex_distance(within, {3, -2}).distance, radius - kCircleTolerance);
  }
}

TEST(DiscPolygons, NeedAsManySidesAsTheSagittaSays) {
  // n >= pi / acos(1 - tolerance / R) for an inscribed polygon: R = 150 and 0.001 mm need 861; the
  // number here serves both polygons and is one or two more.
  EXPECT_GE(inscribed({{}, 150}).size(), 861u);
  EXPECT_LE(inscribed({{}, 150}).size(), 864u);
  // Regular n-gon within radius r: area (n / 2) r^2 sin(2 pi / n).
  const double n = static_cast<double>(inscribed({{}, 150}).size());
  EXPECT_NEAR(signed_area(inscribed({{}, 150})), n / 2 * 22500 * std::sin(2 * kPi / n), 1e-6);
}

TEST(Growth, AreasByTheSteinerFormula) {
  // A + P r + pi r^2, for any convex polygon.
  EXPECT_NEAR(area(grown_convex({{0, 0}, {10, 0}, {10, 10}, {0, 10}}, {2, kNone})),
              192.566370614359173, 60 * kOff);
  EXPECT_NEAR(area(grown_convex({{0, 0}, {4, 0}, {0, 3}}, {1, kNone})), 21.1415926535897932,
              20 * kOff);
  EXPECT_NEAR(area(grown_convex({{0, 0}, {190, 0}, {190, 170}, {0, 170}}, {15, kNone})),
              43806.8583470577035, 1000 * kOff);
}

TEST(Growth, SidesParallelToAnAxisAreExact) {
  const Ring ring = grown_convex({{10, 20}, {30, 20}, {30, 25}, {10, 25}}, {1.25, kNone}).outer;
  EXPECT_EQ(bounding_box(ring), (Box{8.75, 31.25, 18.75, 26.25}));
  EXPECT_EQ(bounding_box(grown_convex({{7, -3}}, {1.25, {2, 0.3, 0.3, 0.4}}).outer),
            (Box{4.75, 9.25, -5.25, -0.75}));
}

TEST(Growth, WithoutAnyIsTheRingItself) {
  const Ring ring{{0, 0}, {4, 0}, {0, 3}};
  EXPECT_EQ(grown_convex(ring, {}).outer, ring);
}

struct Case {
  Ring ring;
  Growth growth;
};

std::vector<Case> random_cases() {
  std::mt19937 random(20261125);
  std::uniform_real_distribution<double> at(-20, 20);
  std::uniform_real_distribution<double> size(0, 3);
  std::vector<Case> cases;
  for (int i = 0; i < 300; ++i) {
    Ring points;
    const int count = i % 10 == 0 ? 1 : i % 10 == 1 ? 2 : 3 + i % 8;
    for (int k = 0; k < count; ++k) {
      const Point p{at(random), at(random)};
      points.push_back(i % 3 == 0 ? p : to_lattice(p));
    }
    Growth growth{i % 4 == 0 ? 0 : size(random), {2, size(random), size(random), 0.1}};
    if (i % 5 == 0) growth.spread = kNone;
    if (growth.most() == 0) growth.base = 1;
    cases.push_back({convex_hull(points), growth});
  }
  return cases;
}

// Around a convex ring in direction n, the true growth ends along(n) away from the nearest point.
TEST(Growth, IsOnTheSafeSideAndCloseForAnySpread) {
  int looked_at = 0;
  for (const Case& c : random_cases()) {
    const FieldPtr grown = outside_polygons({grown_convex(c.ring, c.growth)});
    for (std::size_t i = 0; i < c.ring.size(); ++i) {
      const Point a = c.ring[i];
      const Point b = c.ring[(i + 1) % c.ring.size()];
      for (int k = 0; k < 90; ++k) {
        const Point n{std::cos(k * kPi / 45), std::sin(k * kPi / 45)};
        const Point on = k % 2 == 0 ? a : a + 0.3 * (b - a);
        const Point just_inside = on + (c.growth.along(n) - 1e-7) * n;
        const double off = c.growth.spread.same_all_round() ? 2 * kOff : kOffVarying;
        const Point just_outside = on + (c.growth.along(n) + off) * n;
        // Only where `on` is the point of the ring that is nearest.
        const double away = convex_distance(c.ring, just_inside).distance;
        if (std::abs(away - (c.growth.along(n) - 1e-7)) > 1e-9) continue;
        ++looked_at;
        EXPECT_LE(grown->distance(just_inside), 0);
        EXPECT_GT(grown->distance(just_outside), 0)
            << c.growth.spread.x << " " << c.growth.spread.y;
      }
    }
  }
  EXPECT_GT(looked_at, 10'000);
}

TEST(Growth, OfANonConvexPolygonIsTheDistanceToIt) {
  const MultiPolygon l{{{{-5, -5}, {5, -5}, {5, 0}, {0, 0}, {0, 5}, {-5, 5}},
                        {{{-4, -4}, {-4, 0}, {-1, 0}, {-1, -4}}}}};
  const FieldPtr outside = outside_polygons(l);
  const FieldPtr grown_field = outside_polygons(unite(grown(l, {0.7, kNone})));
  const FieldPtr rim_field = inside_polygons(subtract(snapped(l), unite(rim(l, {0.4, kNone}))));
  for (int i = 0; i < 4000; ++i) {
    const Point p{(i * 37 % 401) / 25.0 - 8, (i * 91 % 397) / 25.0 - 8};
    const double away = outside->distance(p);
    if (away < 0.7) {
      EXPECT_LE(grown_field->distance(p), 1e-9) << p.x << ", " << p.y;
    }
    if (away > 0.7 + kOff) {
      EXPECT_GT(grown_field->distance(p), 0) << p.x << ", " << p.y;
    }
    if (away > -0.4) {
      EXPECT_LE(rim_field->distance(p), 1e-9) << p.x << ", " << p.y;
    }
    if (away < -0.4 - kOff) {
      EXPECT_GT(rim_field->distance(p), 0) << p.x << ", " << p.y;
    }
  }
}

TEST(Growth, AnInputFinerThanTheLatticeIsRoundedToTheSafeSide) {
  const MultiPolygon fine{{{{0.0004, 0.0003}, {10.0004, 0.0002}, {5.0001, 9.0004}}, {}}};
  const FieldPtr outside = outside_polygons(fine);
  const MultiPolygon larger = unite(grown(fine, {}));
  const MultiPolygon smaller = subtract(snapped(fine), unite(rim(fine, {})));
  for (Point p : larger.front().outer) EXPECT_GE(outside->distance(p), 0);
  for (Point p : smaller.front().outer) EXPECT_LE(outside->distance(p), 0);
  EXPECT_LT(sum_of_areas(larger) - sum_of_areas(smaller), 30 * 2 * kOff);
}

TEST(Growth, ShrunkDiscsStayInside) {
  for (const Spread& spread : {kNone, Spread{2, 0.3, 0.1, 0.05}}) {
    const Growth growth{1.5, spread};
    const Disc disc{{10, -4}, 94.5};
    const Polygon polygon = *shrunk_disc(disc, growth);
    const FieldPtr inside = inside_polygons({polygon});
    for (int k = 0; k < 720; ++k) {
      const Point n{std::cos(k * kPi / 360), std::sin(k * kPi / 360)};
      const double at_most = disc.radius - growth.along(n);
      // Where every tangent is guarded along its own normal (Spread::within_disc).
      const double radius = disc.radius - growth.base - spread.within_disc(at_most * n);
      EXPECT_LE(radius, at_most + 1e-12);
      EXPECT_LE(inside->distance(disc.center + (radius + 1e-7) * n), 0);
      EXPECT_GT(inside->distance(disc.center + (radius - 2 * kOff) * n), 0);
    }
  }
  EXPECT_EQ(bounding_box(shrunk_disc({{0, 0}, 94.5}, {1.5, kNone})->outer),
            (Box{-93, 93, -93, 93}));
  EXPECT_FALSE(shrunk_disc({{0, 0}, 1}, {1.5, kNone}));
}

TEST(Growth, WhatLiesInAllOfSeveralDiscs) {
  // Two discs of r = 100 at d = 50 share 2 r^2 acos(d / 2r) - d/2 sqrt(4 r^2 - d^2).
  const Polygon lens = *within_discs({{{0, 0}, 100}, {{30, 40}, 100}});
  EXPECT_LE(area(lens), 21521.0922502970882);
  EXPECT_NEAR(area(lens), 21521.0922502970882, 560 * kOff);
  // Concentric discs are the smaller one, and reach as far along the axes.
  const Polygon small = *within_discs({{{5, 7}, 94.5}, {{5, 7}, 97}});
  EXPECT_EQ(bounding_box(small.outer), (Box{-89.5, 99.5, -87.5, 101.5}));
  EXPECT_NEAR(area(small), kPi * 94.5 * 94.5, 2 * kPi * 94.5 * kOff);
  // r = 3, R = 4, d = 5: 6.64167470270706028.
  EXPECT_NEAR(area(*within_discs({{{0, 0}, 3}, {{5, 0}, 4}})), 6.64167470270706028, 12 * kOff);
  const std::vector<Disc> four{{{-6, -6}, 80}, {{6, -6}, 80}, {{6, 6}, 80}, {{-6, 6}, 80}};
  const FieldPtr inside = inside_polygons({*within_discs(four)});
  for (int k = 0; k < 3600; ++k) {
    const Point n{std::cos(k * kPi / 1800), std::sin(k * kPi / 1800)};
    double reach = 1e9;  // along n, to the first of the four circles
    for (const Disc& d : four) {
      const double b = dot(d.center, n);
      reach = std::min(reach, b + std::sqrt(b * b + 6400 - dot(d.center, d.center)));
    }
    EXPECT_LE(inside->distance((reach + 1e-7) * n), 0);
    EXPECT_GT(inside->distance((reach - 2 * kOff) * n), 0);
  }
  EXPECT_FALSE(within_discs({{{0, 0}, 3}, {{7, 0}, 4}})) << "they touch";
  EXPECT_FALSE(within_discs({{{0, 0}, 3}, {{9, 0}, 4}}));
}

TEST(Growth, ShrunkBoxesAreExact) {
  // (a - 2 r) (b - 2 r): 190 x 170 eroded by 15 is 160 x 140.
  EXPECT_EQ(area(*shrunk_box({0, 190, 0, 170}, {15, kNone})), 22400);
  EXPECT_FALSE(shrunk_box({0, 30, 0, 170}, {15, kNone}));
  EXPECT_EQ(bounding_box(shrunk_box({-5 - 38.5, 239 - 38.5, -2, 211}, {0, {2, 0, 0, 0.1}})->outer),
            (Box{-43.3, 200.3, -1.8, 210.8}));
}

}  // namespace
}  // namespace leeway
