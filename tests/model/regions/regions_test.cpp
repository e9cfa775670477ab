#include "leeway/regions.h"

#include <gtest/gtest.h>

#include <cmath>

#include "leeway/limits.h"
#include "model/setups.h"

namespace leeway {
namespace {

constexpr double kPi = 3.14159265358979323846;

double area_of(const leeway::Setup& setup, RegionKind kind) {
  return area(Regions(setup).get(kind));
}

TEST(Regions, OfTheDesignsExample) {
  const Regions regions(godwit());
  EXPECT_EQ(area(regions.get(RegionKind::bed)), 48231);
  EXPECT_EQ(*bounds(regions.get(RegionKind::bed)), (Box{0, 233, 0, 207}));
  // Probe = nozzle + offset: the travel -5..239, -2..211 carries it to -43.5..200.5, 10..223; the
  // bed leaves 5..228, 5..202 for a spot of radius 4 that keeps 1 from the edge. The body has to
  // keep 9 + 1 from the clip, which ends at y = 4.
  EXPECT_EQ(*bounds(regions.get(RegionKind::sensing)), (Box{5, 228, 5, 202}));
  EXPECT_EQ(*bounds(regions.get(RegionKind::within_limits)), (Box{5, 200.5, 10, 202}));
  // Guards: bed 0.5, travel 0.2.
  EXPECT_EQ(*bounds(regions.get(RegionKind::reachable)), (Box{5.5, 200.3, 10.2, 201.5}));
  EXPECT_FALSE(regions.why_empty(RegionKind::reachable));
}

TEST(Regions, AreaOfADiscCutByARectangularTravel) {
  // A disc of R = 100 within |x| <= 80, |y| <= 90: pi R^2 less two segments on each axis, each of
  // R^2 acos(a / R) - a sqrt(R^2 - a^2), as a = 80 and 90 meet outside the disc.
  EXPECT_NEAR(area_of(bare(Disc{{0, 0}, 100}, Box{-80, 80, -90, 90}), RegionKind::within_limits),
              26971.3862224802084, 630 * 0.002);
}

TEST(Regions, AreaOfALens) {
  // Two discs of r = 100 at d = 50 share 2 r^2 acos(d / 2r) - d/2 sqrt(4 r^2 - d^2).
  leeway::Setup setup = bare(Disc{{0, 0}, 100}, Disc{{0, 0}, 100});
  setup.probe.offset = {30, 40};
  EXPECT_NEAR(area_of(setup, RegionKind::within_limits), 21521.0922502970882, 560 * 0.002);
  EXPECT_LT(area_of(setup, RegionKind::within_limits), 21521.0922502970882) << "on the safe side";
}

TEST(Regions, AreaOfAnErodedBed) {
  // (a - 2 r) (b - 2 r): 190 x 170 eroded by 15 gives 160 x 140; by a square of half-side
  // 15 as well.
  leeway::Setup setup = bare(Box{0, 190, 0, 170}, square(500));
  setup.probe.edge_distance = 15;
  EXPECT_EQ(area_of(setup, RegionKind::sensing), 160 * 140);
  setup.probe.edge_distance = 0;
  setup.probe.spot = square(15);
  EXPECT_EQ(area_of(setup, RegionKind::sensing), 160 * 140);
  setup.machine.bed = polygon({{0, 0}, {190, 0}, {190, 170}, {0, 170}});
  EXPECT_EQ(area_of(setup, RegionKind::sensing), 160 * 140);
  setup.probe.edge_distance = 5;
  EXPECT_EQ(area_of(setup, RegionKind::sensing), 150 * 130) << "spot and edge distance add up";
  setup.probe.edge_distance = 0;
  // Triangle 3-4-5 eroded by 1/2: 6 (1 - 1/2)^2 = 1.5.
  setup.machine.bed = polygon({{0, 0}, {4, 0}, {0, 3}});
  setup.probe.spot = Disc{{0, 0}, 0.5};
  EXPECT_NEAR(area_of(setup, RegionKind::sensing), 1.5, 12 * 0.002);
}

TEST(Regions, AreaOfABedWithoutAGrownObstacle) {
  // Steiner's formula, A + P r + pi r^2: a 10 x 10 obstacle grown by 2 takes 192.566370614359173.
  leeway::Setup setup = bare(Box{0, 100, 0, 100}, square(500));
  setup.machine.obstacles = {{"box", Box{45, 55, 45, 55}, 0, 0.5}};
  setup.probe.spot = Disc{{0, 0}, 1.5};
  EXPECT_NEAR(area_of(setup, RegionKind::sensing), 97 * 97 - 192.566370614359173, 60 * 0.002);
  // A pentagon of area 14: triangle (0,0) (4,0) (0,3) swept by the unit square.
  setup.machine.obstacles = {{"wedge", polygon({{50, 50}, {54, 50}, {50, 53}}), 0, 0}};
  setup.probe.spot = Box{0, 1, 0, 1};
  EXPECT_EQ(area_of(setup, RegionKind::sensing), 99 * 99 - 14);
}

TEST(Regions, PrintableLeavesTheProbeOut) {
  leeway::Setup setup = godwit();
  const double with_body = area_of(setup, RegionKind::printable);
  setup.probe.body.reset();
  setup.probe.offset = {10, 10};
  EXPECT_EQ(area_of(setup, RegionKind::printable), with_body);
  setup.machine.print_inset = 5;
  setup.machine.obstacles.clear();
  EXPECT_EQ(area_of(setup, RegionKind::printable), 223 * 197);
}

TEST(Regions, PrintableGivesWayToAProbeThatStaysDown) {
  leeway::Setup setup = bare(Box{0, 100, 0, 100}, Box{0, 100, 0, 100});
  setup.probe.offset = {-30, 0};
  setup.probe.body = ProbeBody{square(5), 3};
  setup.probe.stowed = false;
  setup.machine.obstacles = {{"clip", Box{40, 60, 40, 60}, 6, 1}};
  // The nozzle keeps 1 from the clip, and so does the body: 10 x 10, 30 to its left.
  const double round = 4 - 3.14159265358979;
  const Regions regions(setup);
  const double own = 22 * 22 - round;
  const double body = 32 * 32 - round;
  EXPECT_NEAR(area(regions.get(RegionKind::printable)), 10000 - own - body, 0.1);
  const Regions elsewhere = regions.at({-60, 0});
  setup.probe.offset = {-60, 0};
  EXPECT_EQ(area(elsewhere.get(RegionKind::printable)), area_of(setup, RegionKind::printable));
  setup.probe.body->underside = 6;
  EXPECT_NEAR(area_of(setup, RegionKind::printable), 10000 - own, 0.1) << "passes over the clip";
}

TEST(Regions, PrintableGivesWayToPartsLowerThanAnObstacle) {
  // Nozzle at height 0: the duct (underside 3) meets a clip of 6, not one of 3.
  leeway::Setup setup = bare(Box{0, 100, 0, 100}, Box{0, 100, 0, 100});
  setup.machine.head = {{"duct", Box{-10, 10, -5, 5}, 3}};
  setup.machine.obstacles = {{"clip", Box{40, 60, 40, 60}, 6, 0}};
  EXPECT_EQ(area_of(setup, RegionKind::printable), 10000 - 40 * 30);
  setup.machine.obstacles[0].height = 3;
  EXPECT_EQ(area_of(setup, RegionKind::printable), 10000 - 20 * 20);
  setup.machine.obstacles[0].height = 0;
  EXPECT_EQ(area_of(setup, RegionKind::printable), 10000);
}

TEST(Regions, SayWhyTheyAreEmpty) {
  leeway::Setup setup = bare(Box{0, 10, 0, 100}, Box{-50, 150, -50, 150});
  setup.probe.spot = Disc{{0, 0}, 6};
  EXPECT_EQ(Regions(setup).why_empty(RegionKind::sensing),
            "the sensing area does not fit on the bed");
  EXPECT_EQ(Regions(setup).why_empty(RegionKind::reachable),
            "the sensing area does not fit on the bed");
  setup.probe.spot = Point{};
  setup.probe.offset = {500, 0};
  EXPECT_NE(Regions(setup).why_empty(RegionKind::within_limits)->find("offset"), std::string::npos);
  EXPECT_FALSE(Regions(setup).why_empty(RegionKind::sensing));
  setup.probe.offset = {0, 0};
  setup.machine.bed_uncertainty = 3;
  EXPECT_NE(Regions(setup).why_empty(RegionKind::reachable)->find("uncertainty"),
            std::string::npos);
  setup.machine.obstacles = {{"sheet", Box{-5, 15, -5, 105}, 0, 0}};
  EXPECT_EQ(Regions(setup).why_empty(RegionKind::sensing),
            "the obstacles leave no place on the bed for the sensing area");
  setup.machine.travel = Box{50, 60, 0, 10};
  EXPECT_EQ(Regions(setup).why_empty(RegionKind::printable),
            "the nozzle's travel does not reach the bed");
}

TEST(RegionMeasure, AreaWithinABox) {
  // L of area 75 with a hole of 4.
  const MultiPolygon l{
      {{{0, 0}, {10, 0}, {10, 5}, {5, 5}, {5, 10}, {0, 10}}, {{{1, 1}, {1, 3}, {3, 3}, {3, 1}}}}};
  EXPECT_EQ(area(l), 71);
  EXPECT_EQ(area_within(l, {-1, 11, -1, 11}), 71);
  EXPECT_EQ(area_within(l, {0, 2, 0, 10}), 18);
  EXPECT_EQ(area_within(l, {4, 10, 4, 10}), 6 + 6 - 1);
  EXPECT_EQ(area_within(l, {6, 10, 6, 10}), 0);
  EXPECT_EQ(area_within(l, {20, 30, 20, 30}), 0);
  EXPECT_EQ(area_within(l, {4, 3, 0, 10}), 0);
}

TEST(RegionMeasure, ClosestPoint) {
  const MultiPolygon l{
      {{{0, 0}, {10, 0}, {10, 5}, {5, 5}, {5, 10}, {0, 10}}, {{{1, 1}, {1, 3}, {3, 3}, {3, 1}}}}};
  EXPECT_EQ(*closest_point(l, {-3, 4}), (Point{0, 4}));
  EXPECT_EQ(*closest_point(l, {7, 6}), (Point{7, 5}));
  EXPECT_EQ(*closest_point(l, {4, 4}), (Point{4, 4}));
  EXPECT_EQ(*closest_point(l, {2, 1.5}), (Point{2, 1})) << "out of the hole";
  EXPECT_FALSE(closest_point({}, {0, 0}));
  EXPECT_FALSE(bounds(MultiPolygon{}));
}

// The two must agree away from the boundary, for every kind of shape.
TEST(Regions, AgreeWithTheLimits) {
  leeway::Setup curved = bare(Disc{{0, 0}, 94.5}, Disc{{5, 0}, 97});
  curved.probe.offset = {20, -15};
  curved.probe.offset_uncertainty = {0.6, 0.1};
  curved.probe.spot = polygon({{-5, -3}, {5, -3}, {5, 4}, {0, 1}, {-5, 4}});
  curved.machine.obstacles = {
      {"post", Disc{{10, 20}, 6}, 20, 1},
      {"rail", polygon({{-60, -40}, {-20, -45}, {-40, -20}, {-35, -38}}), 9, 0.5}};
  curved.machine.head = {
      {"wheel", Disc{{12, 3}, 5}, 2},
      {"hook", polygon({{-9, -2}, {-3, -2}, {-3, 8}, {-5, 8}, {-5, 0}, {-9, 0}}), 1}};
  leeway::Setup notched = godwit();
  notched.machine.bed = polygon({{0, 0},
                                 {233, 0},
                                 {233, 187},
                                 {213, 207},
                                 {120, 207},
                                 {120, 180},
                                 {90, 180},
                                 {90, 207},
                                 {0, 207}},
                                {{{40, 60}, {60, 60}, {60, 70}, {40, 70}}});
  notched.probe.offset_uncertainty = {0.5, 0.1};
  leeway::Setup swept = notched;
  swept.probe.spot = Box{-6, 6, -4, 4};
  for (const leeway::Setup& setup : {godwit(), curved, notched, swept}) {
    const Limits limits(setup);
    const Regions regions(setup);
    const auto inside = [&](RegionKind kind, Point p) {
      return *closest_point(regions.get(kind), p) == p;
    };
    int decided = 0;
    for (double x = -100; x < 240; x += 3.3) {
      for (double y = -100; y < 240; y += 3.7) {
        const Point p{x + 0.001, y + 0.002};
        const Finding finding = limits.evaluate(p);
        if (inside(RegionKind::reachable, p)) {
          EXPECT_EQ(finding.verdict, Verdict::reachable) << p.x << ", " << p.y;
        } else if (finding.verdict == Verdict::reachable) {
          EXPECT_LT(finding.leeway - finding.guard, 0.02) << p.x << ", " << p.y;
        }
        if (inside(RegionKind::within_limits, p)) {
          EXPECT_NE(finding.verdict, Verdict::unreachable) << p.x << ", " << p.y;
          ++decided;
        } else if (finding.verdict != Verdict::unreachable) {
          double least = 1e9;
          for (std::size_t i = 0; i < limits.size(); ++i) {
            least = std::min(least, limits.reading(i, p).leeway);
          }
          EXPECT_LT(least, 0.003) << p.x << ", " << p.y;
        }
      }
    }
    EXPECT_GT(decided, 300);
  }
}

TEST(Regions, ARoundOneIsRound) {
  EXPECT_NEAR(area_of(bare(Disc{{0, 0}, 90}, square(200)), RegionKind::bed), kPi * 8100,
              2 * kPi * 90 * 0.002);
}

}  // namespace
}  // namespace leeway
