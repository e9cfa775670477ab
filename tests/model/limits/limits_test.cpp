#include "leeway/limits.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <random>

#include "model/setups.h"

namespace leeway {
namespace {

constexpr double kInfinity = std::numeric_limits<double>::infinity();

std::vector<std::string> names(const Limits& limits) {
  std::vector<std::string> all;
  for (std::size_t i = 0; i < limits.size(); ++i) all.push_back(limits.info(i).name);
  return all;
}

LimitReading reading(const Limits& limits, const std::string& name, Point probe) {
  for (std::size_t i = 0; i < limits.size(); ++i) {
    if (limits.info(i).name == name) return limits.reading(i, probe);
  }
  ADD_FAILURE() << "no limit " << name;
  return {};
}

TEST(Limits, AreNamedInOrder) {
  EXPECT_EQ(names(Limits(godwit())),
            (std::vector<std::string>{"travel left", "travel right", "travel front", "travel back",
                                      "bed left", "bed right", "bed front", "bed back",
                                      "obstacle front clip", "nozzle over front clip",
                                      "fan duct over front clip", "probe body over front clip"}));
  EXPECT_EQ(names(Limits(bare(Disc{{0, 0}, 94.5}, polygon({{-95, -95}, {95, -95}, {0, 95}})))),
            (std::vector<std::string>{"travel edge", "bed rim"}));
  EXPECT_EQ(names(Limits(bare(polygon({{-95, -95}, {95, -95}, {0, 95}}), Disc{{0, 0}, 94.5}))),
            (std::vector<std::string>{"travel rim", "bed edge"}));
}

TEST(Limits, APointWhoseNozzleLeavesItsTravelIsShortOnTheRight) {
  // grid 5,1 of the example: the nozzle at 210 + 38.5, the travel ends at 239; guard 2 x 0.1.
  const Limits limits(godwit());
  const Finding finding = limits.evaluate({210, 20});
  EXPECT_EQ(finding.verdict, Verdict::unreachable);
  EXPECT_EQ(limits.info(finding.limit).name, "travel right");
  EXPECT_EQ(finding.leeway, -9.5);
  EXPECT_EQ(finding.guard, 0.2);
}

TEST(Limits, DecimalsAreExact) {
  // 229.6 - 38.5 is 191.1 for the user, though not in binary; likewise the others.
  struct Row {
    double probe, offset, end;
  };
  for (const Row row : {Row{229.6, 38.5, 191.1}, Row{0.3, 0.1, 0.2}, Row{1.1, -2.2, 3.3},
                        Row{200.3, -38.7, 239}, Row{4.35, 0.05, 4.3}, Row{1000.7, 999.9, 0.8},
                        Row{2.675, 1.675, 1}, Row{250.1, 0.2, 249.9}}) {
    leeway::Setup setup = bare(Box{-2000, 2000, -2000, 2000}, Box{-5000, row.end, -5000, 5000});
    setup.probe.offset = {row.offset, 0};
    const Finding finding = Limits(setup).evaluate({row.probe, 0});
    EXPECT_EQ(finding.leeway, 0) << row.probe << " - " << row.offset;
    EXPECT_EQ(finding.verdict, Verdict::reachable);
    setup.machine.travel = Box{row.end, 5000, -5000, 5000};
    EXPECT_EQ(Limits(setup).evaluate({row.probe, 0}).leeway, 0);
    setup.machine.travel = Box{-5000, row.end - 1e-6, -5000, 5000};
    EXPECT_EQ(Limits(setup).evaluate({row.probe, 0}).leeway, -1e-6);
    EXPECT_EQ(Limits(setup).evaluate({row.probe, 0}).verdict, Verdict::unreachable);
  }
}

TEST(Limits, AGuardOfExactlyTheLeewayIsReachable) {
  leeway::Setup setup = bare(Box{0, 100, 0, 100}, Box{-50, 150, -50, 150});
  setup.machine.bed_uncertainty = 0.3;
  for (const double at : {0.6, 99.4}) {
    EXPECT_EQ(Limits(setup).evaluate({at, 50}).verdict, Verdict::reachable) << at;
  }
  EXPECT_EQ(Limits(setup).evaluate({0.599999, 50}).verdict, Verdict::marginal);
  EXPECT_EQ(Limits(setup).evaluate({0, 50}).verdict, Verdict::marginal);
  EXPECT_EQ(Limits(setup).evaluate({-0.000001, 50}).verdict, Verdict::unreachable);
}

TEST(Limits, AreGuardedByWhatMayMoveThem) {
  // JCGM 100, 5.1.2: standard uncertainties that do not depend on one another add as squares. An
  // error of the offset moves the probe on the bed, not the nozzle in its travel.
  leeway::Setup setup = godwit();
  setup.probe.offset_uncertainty = {0.3, 0.05};
  const Limits limits(setup);
  const double across = 2 * std::sqrt(0.3 * 0.3 + 0.2 * 0.2);
  const double along = 2 * std::sqrt(0.05 * 0.05 + 0.2 * 0.2);
  const double head = 2 * std::sqrt(0.1 * 0.1 + 0.2 * 0.2);
  const auto guard = [&](const char* name, Point at) { return reading(limits, name, at).guard; };
  EXPECT_NEAR(guard("travel left", {50, 50}), 0.2, 1e-9);
  EXPECT_NEAR(guard("bed left", {50, 50}), across, 5e-7);
  EXPECT_NEAR(guard("bed back", {50, 50}), along, 5e-7);
  EXPECT_NEAR(guard("obstacle front clip", {115, 50}), along, 5e-7);
  EXPECT_NEAR(guard("obstacle front clip", {50, 0}), across, 5e-7);
  EXPECT_NEAR(guard("probe body over front clip", {115, 50}), along, 5e-7);
  EXPECT_NEAR(guard("nozzle over front clip", {50, 0}), head, 5e-7);
  EXPECT_NEAR(guard("fan duct over front clip", {115, 90}), head, 5e-7);
  // From a corner of the clip (130, 4) in direction (3, 4) / 5.
  EXPECT_NEAR(guard("obstacle front clip", {133, 8}),
              2 * std::sqrt(0.36 * 0.09 + 0.64 * 0.0025 + 0.04), 5e-7);
}

TEST(Limits, EachMeasuresItsOwnDistance) {
  const Limits limits(godwit());
  const Point p{115, 30};  // nozzle at 153.5, 18
  EXPECT_EQ(reading(limits, "travel left", p).leeway, 158.5);
  EXPECT_EQ(reading(limits, "travel right", p).leeway, 85.5);
  EXPECT_EQ(reading(limits, "travel front", p).leeway, 20);
  EXPECT_EQ(reading(limits, "travel back", p).leeway, 193);
  EXPECT_EQ(reading(limits, "bed left", p).leeway, 110);  // 115 - radius 4 - edge distance 1
  EXPECT_EQ(reading(limits, "bed front", p).leeway, 25);
  EXPECT_EQ(reading(limits, "obstacle front clip", p).leeway, 30 - 4 - 4 - 1);
  // Body 9 to each side: 30 - 9 - 4 - 1.
  EXPECT_EQ(reading(limits, "probe body over front clip", p).leeway, 16);
  // Nozzle (153.5, 18) to the clip's corner (130, 4), less the clearance.
  EXPECT_NEAR(reading(limits, "nozzle over front clip", p).leeway, std::hypot(23.5, 14) - 1, 5e-7);
  // Duct 131.5..175.5 by -12..10: 1.5 right of the clip, 1 of clearance.
  EXPECT_EQ(reading(limits, "fan duct over front clip", p).leeway, 0.5);
}

TEST(Limits, OnlyPartsLowerThanTheObstacleMeetIt) {
  leeway::Setup setup = godwit();
  setup.machine.obstacles[0].height = 5;  // trigger 2 + duct 3: equal is not higher
  EXPECT_EQ(names(Limits(setup)).size(), 11u);
  setup.machine.obstacles[0].height = 2;
  setup.probe.body->underside = -1;
  EXPECT_EQ(names(Limits(setup)).back(), "probe body over front clip");
  EXPECT_EQ(names(Limits(setup)).size(), 10u);
  setup.machine.obstacles[0].height = 0;
  EXPECT_EQ(names(Limits(setup)).back(), "obstacle front clip") << "it spoils a reading only";
}

TEST(Limits, TheReasonOfAPointThatFailsIsTheLeastLeeway) {
  leeway::Setup setup = bare(Box{0, 100, 0, 100}, Box{0, 90, 0, 100});
  setup.machine.bed_uncertainty = 5;
  const Limits limits(setup);
  const Finding finding = limits.evaluate({95, 101});
  EXPECT_EQ(limits.info(finding.limit).name, "travel right");
  EXPECT_EQ(finding.leeway, -5);
}

TEST(Limits, TheReasonOfAPointThatPassesIsTheLeastLeewayMinusGuard) {
  leeway::Setup setup = bare(Box{0, 100, 0, 100}, Box{0, 100, 0, 100});
  setup.machine.bed_uncertainty = 5;  // guard 10
  const Limits limits(setup);
  // Travel left has 12, no guard; bed back has 20 of which 10 are guard.
  const Finding finding = limits.evaluate({12, 80});
  EXPECT_EQ(limits.info(finding.limit).name, "bed left") << "12 - 10 beats 20 - 10 and 12 - 0";
  EXPECT_EQ(finding.leeway, 12);
  EXPECT_EQ(finding.guard, 10);
}

TEST(Limits, TiesGoToTheFirstInOrder) {
  const leeway::Setup setup = bare(Box{0, 100, 0, 100}, Box{0, 100, 0, 100});
  const Limits limits(setup);
  EXPECT_EQ(limits.info(limits.evaluate({10, 50}).limit).name, "travel left");
  EXPECT_EQ(limits.info(limits.evaluate({50, 50}).limit).name, "travel left");
  EXPECT_EQ(limits.info(limits.evaluate({50, -1}).limit).name, "travel front");
  leeway::Setup clip = bare(Box{0, 100, 0, 100}, Box{-50, 150, -50, 150});
  clip.machine.obstacles = {{"clip", Box{20, 30, 40, 60}, 5, 0}};
  const Limits with_clip(clip);
  EXPECT_EQ(with_clip.info(with_clip.evaluate({10, 50}).limit).name, "bed left");
  EXPECT_EQ(with_clip.info(with_clip.evaluate({35, 50}).limit).name, "obstacle clip");
}

TEST(Limits, ASpotThatDoesNotFitIsMinusInfinityEverywhere) {
  leeway::Setup setup = bare(Box{0, 10, 0, 100}, Box{-50, 150, -50, 150});
  setup.probe.spot = Disc{{0, 0}, 6};
  EXPECT_EQ(Limits(setup).evaluate({5, 50}).leeway, -kInfinity);
  EXPECT_EQ(Limits(setup).evaluate({5, 50}).verdict, Verdict::unreachable);
  setup.probe.spot = Disc{{0, 0}, 5};
  EXPECT_EQ(Limits(setup).evaluate({5, 50}).leeway, 0) << "it fits exactly";

  leeway::Setup round = bare(Disc{{0, 0}, 10}, square(50));
  round.probe.spot = Disc{{0, 0}, 11};
  EXPECT_EQ(Limits(round).evaluate({0, 0}).leeway, -kInfinity);
  round.probe.spot = Box{-9, 9, -9, 9};
  EXPECT_EQ(Limits(round).evaluate({0, 0}).leeway, -kInfinity);
  round.probe.spot = Box{-6, 6, -8, 8};
  EXPECT_EQ(Limits(round).evaluate({0, 0}).leeway, 0);

  leeway::Setup corner = bare(polygon({{0, 0}, {10, 0}, {0, 10}}), square(50));
  corner.probe.spot = Disc{{0, 0}, 3};
  EXPECT_EQ(Limits(corner).evaluate({2, 2}).leeway, -kInfinity);
  corner.probe.spot = Box{0, 6, 0, 6};
  EXPECT_EQ(Limits(corner).evaluate({0, 0}).leeway, -kInfinity);
}

TEST(Limits, ARoundBedLeavesTheRadiusForARoundSpot) {
  leeway::Setup setup = bare(Disc{{0, 0}, 94.5}, Disc{{0, 0}, 95});
  setup.probe.offset = {25, -10};
  setup.probe.spot = Disc{{1, 0}, 4};
  setup.probe.edge_distance = 1.5;
  const Limits limits(setup);
  EXPECT_NEAR(reading(limits, "bed rim", {29, 40}).leeway, 94.5 - 50 - 4 - 1.5, 5e-7);
  EXPECT_NEAR(reading(limits, "travel rim", {55, 30}).leeway, 95 - 50, 5e-7);
}

TEST(Limits, ARoundBedUnderASquareSpotIsTheNearestCorner) {
  leeway::Setup setup = bare(Disc{{0, 0}, 50}, square(500));
  setup.probe.spot = square(6);
  const Limits limits(setup);
  // Corner at (30, 40) when the spot is at (24, 34).
  EXPECT_EQ(reading(limits, "bed rim", {24, 34}).leeway, 0);
  EXPECT_NEAR(reading(limits, "bed rim", {0, 0}).leeway, 50 - std::hypot(6, 6), 5e-7);
  EXPECT_LT(reading(limits, "bed rim", {25, 34}).leeway, 0);
}

// One bed said in four ways must give the same verdicts.
TEST(Limits, ARectangleAsPolygonGivesTheSameVerdicts) {
  for (const Shape& spot : {Shape(Point{}), Shape(Disc{{1, -2}, 4}), Shape(Box{-3, 5, -4, 2}),
                            polygon({{-3, -4}, {5, -4}, {5, 2}, {0, 0}, {-3, 2}})}) {
    leeway::Setup sides = bare(Box{0, 100, 0, 80}, Box{-20, 90, -10, 85});
    sides.probe.offset = {-12.5, 7};
    sides.probe.offset_uncertainty = {0.8, 0.1};
    sides.probe.spot = spot;
    sides.probe.edge_distance = 1;
    leeway::Setup edges = sides;
    edges.machine.bed = polygon({{0, 0}, {100, 0}, {100, 80}, {0, 80}});
    edges.machine.travel = polygon({{-20, -10}, {-20, 85}, {90, 85}, {90, -10}});
    const Limits a(sides);
    const Limits b(edges);
    std::mt19937 random(5);
    std::uniform_int_distribution<int> at(-400, 2400);
    for (int i = 0; i < 3000; ++i) {
      const Point p{at(random) / 20.0, at(random) / 20.0};
      const Finding x = a.evaluate(p);
      const Finding y = b.evaluate(p);
      EXPECT_EQ(x.verdict, y.verdict) << p.x << ", " << p.y << " leeway " << x.leeway << " "
                                      << y.leeway << " guard " << x.guard << " " << y.guard;
      if (x.leeway > 0 && y.leeway > 0) {
        EXPECT_NEAR(x.leeway - x.guard, y.leeway - y.guard, 2e-6) << p.x << ", " << p.y;
      }
    }
  }
}

void expect_same_as_one_by_one(const Limits& limits, const std::vector<Point>& probes) {
  std::vector<Finding> findings(probes.size());
  limits.evaluate(probes, findings);
  for (std::size_t i = 0; i < probes.size(); ++i) {
    const Finding one = limits.evaluate(probes[i]);
    ASSERT_EQ(findings[i].limit, one.limit) << probes[i].x << ", " << probes[i].y;
    ASSERT_EQ(findings[i].leeway, one.leeway) << probes[i].x << ", " << probes[i].y;
    ASSERT_EQ(findings[i].guard, one.guard) << probes[i].x << ", " << probes[i].y;
    ASSERT_EQ(findings[i].verdict, one.verdict) << probes[i].x << ", " << probes[i].y;
  }
}

TEST(Limits, ManyAtOnceAreTheSameAsOneByOne) {
  leeway::Setup setup = godwit();
  setup.machine.obstacles.push_back({"screw", Disc{{60, 150}, 3}, 10, 0.5});
  setup.machine.obstacles.push_back(
      {"handle", polygon({{200, 100}, {230, 100}, {230, 140}, {215, 120}}), 20, 2});
  setup.machine.head.push_back({"wheel", Disc{{15, 20}, 6}, 1});
  for (const Point u : {Point{0.15, 0.15}, Point{0.9, 0.1}}) {
    setup.probe.offset_uncertainty = u;
    const Limits limits(setup);
    std::vector<Point> probes;
    for (int row = 0; row < 120; ++row) {
      for (int column = 0; column < 131; ++column) {
        probes.push_back({-10 + column * 2.0, -10 + row * 2.0});
      }
    }
    std::mt19937 random(3);
    for (int i = 0; i < 1000; ++i) probes.push_back(probes[random() % probes.size()]);
    expect_same_as_one_by_one(limits, probes);
  }
}

// A bed with slanted sides and a hole, a spot with corners, a part of the head that is not
// convex.
leeway::Setup cornered() {
  leeway::Setup setup = godwit();
  setup.machine.bed = polygon({{0, 0}, {233, 0}, {233, 187}, {208, 207}, {12, 207}, {0, 157}},
                              {{{100, 150}, {130, 155}, {120, 170}}});
  setup.machine.travel = Disc{{110, 100}, 150};
  setup.probe.spot = Box{-9, 9, -9, 9};
  setup.machine.head = {
      {"horseshoe", polygon({{-27, -9}, {-24, -33}, {24, -33}, {27, -9}, {10, -16}, {-10, -16}}),
       1}};
  setup.machine.obstacles.push_back(
      {"handle", polygon({{200, 100}, {230, 100}, {230, 140}, {215, 120}}), 20, 2});
  setup.machine.obstacles.push_back({"screw", Disc{{60, 150}, 3}, 10, 0.5});
  return setup;
}

TEST(Limits, VeryManyAtOnceAreTheSameAsOneByOne) {
  // Lattices beyond the bed on all sides: row by row, to and fro, column by column, shuffled.
  std::vector<Point> rows, to_and_fro, columns;
  const int across = 170;
  const int back = 150;
  const auto at = [](int column, int row) {
    return Point{-13 + column * 1.5 + 1e-3 * row, -11 + row * 1.5};
  };
  for (int row = 0; row < back; ++row) {
    for (int column = 0; column < across; ++column) {
      rows.push_back(at(column, row));
      to_and_fro.push_back(at(row % 2 == 0 ? column : across - 1 - column, row));
    }
  }
  for (int column = 0; column < across; ++column) {
    for (int row = 0; row < back; ++row) columns.push_back(at(column, row));
  }
  std::vector<Point> shuffled = rows;
  std::shuffle(shuffled.begin(), shuffled.end(), std::mt19937(4));

  leeway::Setup uneven = cornered();
  uneven.probe.offset_uncertainty = {0.9, 0.1};
  leeway::Setup nowhere = godwit();
  nowhere.probe.spot = Disc{{0, 0}, 200};
  for (const leeway::Setup& setup : {godwit(), cornered(), uneven, nowhere}) {
    const Limits limits(setup);
    for (const std::vector<Point>& probes : {rows, to_and_fro, columns, shuffled}) {
      expect_same_as_one_by_one(limits, probes);
    }
  }
}

TEST(Limits, TheReasonIsTheOneThatAllReadingsGive) {
  const leeway::Setup setup = godwit();
  const Limits limits(setup);
  for (int x = -20; x < 250; x += 3) {
    for (int y = -20; y < 230; y += 3) {
      const Point p{x + 0.5, y + 0.25};
      const Finding finding = limits.evaluate(p);
      double least = kInfinity;
      double after_guard = kInfinity;
      for (std::size_t i = 0; i < limits.size(); ++i) {
        const LimitReading r = limits.reading(i, p);
        least = std::min(least, r.leeway);
        after_guard = std::min(after_guard, r.leeway - r.guard);
      }
      const LimitReading reason = limits.reading(finding.limit, p);
      EXPECT_EQ(reason.leeway, finding.leeway);
      EXPECT_EQ(reason.guard, finding.guard);
      EXPECT_EQ(finding.verdict, least < 0             ? Verdict::unreachable
                                 : after_guard < -1e-9 ? Verdict::marginal
                                                       : Verdict::reachable);
      EXPECT_NEAR(least < 0 ? finding.leeway : finding.leeway - finding.guard,
                  least < 0 ? least : after_guard, 1e-9);
    }
  }
}

TEST(Limits, NeverSayMinusZero) {
  leeway::Setup setup = bare(Box{0, 100, 0, 100}, Box{0, 100, 0, 100});
  setup.probe.offset = {-1e-9, 0};
  EXPECT_FALSE(std::signbit(Limits(setup).evaluate({100, 50}).leeway));
}

TEST(Limits, OnBedKnowsHoles) {
  leeway::Setup setup = bare(
      polygon({{0, 0}, {100, 0}, {100, 100}, {0, 100}}, {{{40, 40}, {60, 40}, {60, 60}, {40, 60}}}),
      square(500));
  setup.probe.spot = Disc{{0, 0}, 4};
  EXPECT_EQ(Limits(setup).on_bed({50, 50}), -10);
  EXPECT_EQ(Limits(setup).on_bed({30, 50}), 10);
  EXPECT_EQ(Limits(setup).on_bed({100, 50}), 0);
}

TEST(Limits, ABedMayHaveAnIslandInAHole) {
  // With a square spot of half-side 1 the frame leaves 1..13 and the island 61..91.
  leeway::Setup setup = bare(MultiPolygon{{{{0, 0}, {140, 0}, {140, 150}, {0, 150}},
                                           {{{28, 28}, {112, 28}, {112, 125}, {28, 125}}}},
                                          {{{43, 43}, {92, 43}, {92, 110}, {43, 110}}, {}}},
                             square(500));
  setup.probe.spot = square(1);
  const Limits limits(setup);
  EXPECT_EQ(limits.evaluate({14, 75}).leeway, 13);
  EXPECT_EQ(limits.evaluate({67, 75}).leeway, 23) << "the middle of the island, 25 from its edges";
  EXPECT_EQ(limits.evaluate({35, 75}).verdict, Verdict::unreachable) << "the moat";
}

TEST(Limits, RefuseOutlinesThatAreTooDetailedTogether) {
  // Two combs whose teeth may all meet.
  const auto comb = [](int teeth) {
    Ring ring;
    for (int i = 0; i < teeth; ++i) {
      ring.push_back({i * 2.0, 5});
      ring.push_back({i * 2.0 + 1, 1});
    }
    ring.push_back({teeth * 2.0, 5});
    ring.push_back({teeth * 2.0, 0});
    ring.push_back({0, 0});
    return polygon(ring);
  };
  leeway::Setup setup = bare(square(5000), square(5000));
  setup.machine.obstacles = {{"comb", comb(4000), 10, 0}};
  setup.machine.head = {{"rake", comb(3990), 1}};
  try {
    const Limits limits(setup);
    FAIL() << "accepted";
  } catch (const SetupTooDetailed& e) {
    EXPECT_NE(std::string(e.what()).find("comb"), std::string::npos);
    EXPECT_NE(std::string(e.what()).find("rake"), std::string::npos);
  }
}

TEST(MoveLimits, StopAtWhatStandsInTheWay) {
  leeway::Setup setup = bare(Box{0, 200, 0, 200}, Box{0, 200, 0, 200});
  setup.machine.obstacles = {{"post", Box{90, 110, 90, 110}, 10, 2}};
  setup.machine.head = {{"duct", Box{-20, 20, -5, 5}, 3}};
  setup.probe.travel_height = 5;
  const MoveLimits limits(setup);
  MoveStop stop;
  EXPECT_TRUE(limits.blocked({20, 100}, {180, 100}, stop));
  EXPECT_EQ(stop.limit.name, "duct over post");
  EXPECT_EQ(stop.leeway, -17) << "15 deep, 2 of clearance";
  EXPECT_FALSE(limits.blocked({20, 117}, {180, 117}, stop)) << "exactly at the clearance";
  EXPECT_TRUE(limits.blocked({20, 116.999}, {180, 116.999}, stop));
  EXPECT_FALSE(limits.blocked({20, 20}, {180, 20}, stop));
  setup.probe.travel_height = 7;  // 10 is not higher than 7 + 3; the bare nozzle still meets it
  EXPECT_TRUE(MoveLimits(setup).blocked({20, 100}, {180, 100}, stop));
  EXPECT_EQ(stop.limit.name, "nozzle over post");
  setup.probe.travel_height = 10;
  EXPECT_FALSE(MoveLimits(setup).blocked({20, 100}, {180, 100}, stop));
}

TEST(MoveLimits, TheBodyGoesWithTheProbe) {
  leeway::Setup setup = bare(Box{0, 200, 0, 200}, Box{-100, 300, -100, 300});
  setup.machine.obstacles = {{"post", Box{90, 110, 90, 110}, 10, 0}};
  setup.probe.offset = {0, 50};
  setup.probe.body = ProbeBody{Box{-5, 5, -5, 5}, -2};
  setup.probe.travel_height = 11;
  MoveStop stop;
  const MoveLimits limits(setup);
  EXPECT_TRUE(limits.blocked({20, 100}, {180, 100}, stop));
  EXPECT_EQ(stop.limit.name, "probe body over post");
  EXPECT_FALSE(limits.blocked({20, 150}, {180, 150}, stop)) << "there the nozzle passes over it";
}

// 2.1 + 2.7 is one bit more than 4.8 in doubles.
TEST(MoveLimits, TheLeastSafeHeightIsWhereTheLowestPartPassesAbove) {
  leeway::Setup setup = bare(Box{0, 200, 0, 200}, Box{-100, 300, -100, 300});
  setup.machine.obstacles = {{"stop", Box{90, 110, 90, 110}, 2.1, 0},
                             {"wall", Box{90, 110, 150, 200}, 30, 0}};
  setup.machine.head = {{"duct", Box{-5, 5, -5, 5}, 3}};
  setup.probe.body = ProbeBody{Box{-5, 5, -5, 5}, -2.7};
  const auto height = [&](const std::vector<Point>& way) {
    return MoveLimits(setup).safe_height(way);
  };
  EXPECT_EQ(height({{20, 50}, {180, 50}}).least, 2.7) << "the pin itself must be off the bed";
  EXPECT_FALSE(height({{20, 50}, {180, 50}}).why);
  const SafeHeight over_stop = height({{20, 50}, {180, 50}, {180, 100}, {20, 100}});
  EXPECT_EQ(over_stop.least, 4.8);
  ASSERT_TRUE(over_stop.why);
  EXPECT_EQ(over_stop.why->limit.name, "probe body over stop");
  MoveStop stop;
  setup.probe.travel_height = 4.8;
  EXPECT_FALSE(MoveLimits(setup).blocked({180, 100}, {20, 100}, stop));
  setup.probe.travel_height = 4.799999;
  EXPECT_TRUE(MoveLimits(setup).blocked({180, 100}, {20, 100}, stop));
  EXPECT_EQ(height({{20, 160}, {180, 160}}).least, 32.7);
  setup.machine.obstacles[1].height = std::numeric_limits<double>::infinity();
  EXPECT_FALSE(height({{20, 160}, {180, 160}}).least);
  EXPECT_FALSE(height({{20, 50}, {500, 50}}).least) << "no height mends a way out of the travel";
  EXPECT_FALSE(height({{20, 50}, {std::nan(""), 50}}).least);
}

// Guard bands count on the way; at the ends the verdicts of the points tell.
TEST(MoveLimits, TheGuardBandIsKeptOnTheWay) {
  leeway::Setup setup = bare(Box{0, 200, 0, 200}, Box{0, 200, 0, 200});
  setup.machine.obstacles = {{"post", Box{90, 110, 90, 110}, 10, 0}};
  setup.machine.travel_uncertainty = 0.3;
  setup.machine.bed_uncertainty = 0.4;  // 2 sqrt(0.3^2 + 0.4^2) = 1
  setup.probe.travel_height = 5;
  const MoveLimits limits(setup);
  MoveStop stop;
  EXPECT_FALSE(limits.blocked({20, 111}, {180, 111}, stop));
  EXPECT_TRUE(limits.blocked({20, 110.999}, {180, 110.999}, stop));
  EXPECT_EQ(stop.leeway, 0.999);
  EXPECT_EQ(stop.guard, 1);
  EXPECT_FALSE(limits.blocked({100, 110.5}, {180, 160}, stop)) << "its end keeps no more either";
  EXPECT_TRUE(limits.blocked({80, 110.5}, {120, 110.5}, stop)) << "its ends keep more";
  EXPECT_FALSE(limits.blocked({0, 20}, {0, 180}, stop)) << "so does the edge of the travel";
}

TEST(MoveLimits, ANotchOfTheTravelIsInTheWay) {
  leeway::Setup setup =
      bare(Box{0, 100, 0, 100},
           polygon({{0, 0}, {100, 0}, {100, 100}, {60, 100}, {50, 50}, {40, 100}, {0, 100}}));
  MoveStop stop;
  const MoveLimits limits(setup);
  EXPECT_TRUE(limits.blocked({20, 80}, {80, 80}, stop));
  EXPECT_EQ(stop.limit.name, "travel edge");
  EXPECT_LT(stop.leeway, 0);
  EXPECT_FALSE(limits.blocked({20, 50}, {80, 50}, stop)) << "it touches the notch";
}

}  // namespace
}  // namespace leeway
