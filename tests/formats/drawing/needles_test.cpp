// Outlines thinner than a micrometre in every role: every task ends, answers with numbers, and on
// the safe side.

#include <gtest/gtest.h>

#include <cmath>
#include <cstdlib>
#include <numbers>

#include "fewer.h"
#include "geometry/plane/polygons.h"
#include "geometry/validity/validity.h"
#include "judges/random.h"
#include "leeway/bracket.h"
#include "leeway/check.h"
#include "leeway/draw.h"
#include "leeway/explain.h"
#include "leeway/fit.h"
#include "model/setups.h"

namespace leeway {
namespace {

using judges::Random;

// Between the lattice and what a picometre can tell apart.
double thinness(Random& random) { return std::pow(10, random.real(-8.5, -2.5)); }

Point turned(Point p, double angle) {
  return {p.x * std::cos(angle) - p.y * std::sin(angle),
          p.x * std::sin(angle) + p.y * std::cos(angle)};
}

// A needle along the x axis, on its own or as a spike of something solid.
Ring straight_needle(Random& random, double length) {
  const double t = thinness(random);
  const double body = length * random.real(0.1, 0.3);
  switch (random.whole(0, 6)) {
    case 0:
      return {{0, 0}, {length, 0}, {length, t}};
    case 1:
      return {{0, 0}, {length, t / 3}, {random.real(0.2, 0.8) * length, t}};
    case 2:
      return {{0, 0}, {length, 0}, {length, t}, {0, t}};
    case 3:  // blunt, of many vertices
      return {{0, 0},      {length / 2, -t},    {length, 0}, {length + t / 2, t / 2},
              {length, t}, {length / 3, t * 2}, {0, t}};
    case 4:  // a spike on a square
      return {{-body, -body}, {0, -body}, {0, 0},       {length, t / 2},
              {0, t},         {0, body},  {-body, body}};
    case 5:  // a slit in a square
      return {{-body, -body}, {body, -body}, {body, 0},    {0, t / 2},
              {body, t},      {body, body},  {-body, body}};
    default:  // bent
      return {{0, 0},      {length / 2, length / 9},     {length, 0},
              {length, t}, {length / 2, length / 9 + t}, {0, t}};
  }
}

MultiPolygon needle(Random& random, Point at, double length) {
  for (;;) {
    const double angle = random.one_in(4) ? random.whole(0, 3) * std::numbers::pi / 2
                                          : random.real(-std::numbers::pi, std::numbers::pi);
    Ring ring;
    for (const Point p : straight_needle(random, length)) ring.push_back(at + turned(p, angle));
    if (!ring_fault(ring)) return {{ring, {}}};
  }
}

Shape random_bed(Random& random) {
  switch (random.whole(0, 2)) {
    case 0:
      return Disc{{50, 50}, 50};
    case 1:
      return Box{0, 100, 0, 100};
    default:
      return polygon({{0, 20}, {20, 0}, {100, 0}, {100, 90}, {70, 60}, {0, 100}});
  }
}

enum class Role { bed, travel, obstacle, part, body, spot, hole };

const char* word(Role role) {
  const char* words[] = {"bed", "travel", "obstacle", "part", "body", "spot", "hole"};
  return words[static_cast<int>(role)];
}

Setup with_needle(Random& random, Role role) {
  Setup setup = godwit();
  setup.machine.bed = random_bed(random);
  setup.machine.travel = Box{-60, 140, -60, 140};
  setup.machine.obstacles = {{"clip", Box{40, 50, -6, 4}, 6, random.one_in(2) ? 1.0 : 0.0}};
  if (random.one_in(2)) setup.machine.obstacles.front().shape = needle(random, {45, 2}, 10);
  setup.probe.edge_distance = random.one_in(2) ? 1 : 0;
  setup.probe.offset = {random.real(-30, 30), random.real(-30, 30)};
  if (random.one_in(3)) setup.probe.offset_uncertainty = {0.05, 0.3};
  if (random.one_in(3)) setup.probe.spot = Box{-3, 3, -3, 3};
  if (random.one_in(3)) setup.probe.body = std::nullopt;
  setup.request.grid = Grid{3, 3, Box{20, 80, 20, 80}, Frame::probe, false};
  setup.request.points.clear();
  setup.request.home = std::nullopt;
  const Point at{random.real(-10, 110), random.real(-10, 110)};
  const Point near{random.real(-5, 5), random.real(-5, 5)};
  switch (role) {
    case Role::bed:
      setup.machine.bed = needle(random, {50, 50}, 60);
      break;
    case Role::travel:
      setup.machine.travel = needle(random, {50, 50}, 60);
      break;
    case Role::obstacle:
      setup.machine.obstacles.push_back({"needle", needle(random, at, 60), 6, 0});
      break;
    case Role::part:
      setup.machine.head.push_back({"needle", needle(random, near, 12), 1});
      break;
    case Role::body:
      setup.probe.body = ProbeBody{needle(random, near, 12), 1};
      break;
    case Role::spot:
      setup.probe.spot = needle(random, near, 12);
      break;
    case Role::hole:
      const double away = random.real(10, 30);
      setup.machine.bed = polygon({{0, 0}, {100, 0}, {100, 100}, {0, 100}},
                                  {needle(random, {50, 50}, away)[0].outer});
      break;
  }
  return setup;
}

void expect_numbers(const MultiPolygon& region) {
  const auto look = [](const Ring& ring) {
    for (const Point p : ring) {
      ASSERT_TRUE(std::abs(p.x) < 1000 && std::abs(p.y) < 1000) << p.x << ' ' << p.y;
    }
  };
  for (const Polygon& polygon : region) {
    look(polygon.outer);
    for (const Ring& hole : polygon.holes) look(hole);
  }
}

bool inside(const MultiPolygon& region, Point p) {
  int crossings = 0;
  const auto count = [&](const Ring& ring) {
    for (std::size_t i = 0; i < ring.size(); ++i) {
      const Point a = ring[i];
      const Point b = ring[(i + 1) % ring.size()];
      if ((a.y <= p.y) == (b.y <= p.y)) continue;
      crossings += a.x + (b.x - a.x) * (p.y - a.y) / (b.y - a.y) > p.x;
    }
  };
  for (const Polygon& polygon : region) {
    count(polygon.outer);
    for (const Ring& hole : polygon.holes) count(hole);
  }
  return crossings % 2 != 0;
}

// Regions may stand beyond the limits by what the lattice rounds, nowhere by more.
void expect_safe(const Limits& limits, const MultiPolygon& region, bool guarded, Random& random) {
  constexpr double kLattice = 0.011;
  const auto look = [&](Point p) {
    if (!inside(region, p)) return;
    for (std::size_t i = 0; i < limits.size(); ++i) {
      const LimitReading reading = limits.reading(i, p);
      ASSERT_GE(reading.leeway - (guarded ? reading.guard : 0), -kLattice)
          << limits.info(i).name << " at " << p.x << ' ' << p.y;
    }
  };
  for (int i = 0; i < 60; ++i) look({random.real(0, 100), random.real(0, 100)});
  for (const Polygon& polygon : region) {
    for (const Point p : polygon.outer) {
      look(p + Point{random.real(-0.2, 0.2), random.real(-0.2, 0.2)});
    }
    for (const Ring& hole : polygon.holes) {
      for (const Point p : hole) look(p + Point{random.real(-0.2, 0.2), random.real(-0.2, 0.2)});
    }
  }
}

bool never_not_a_number(const Finding& finding) {
  return !std::isnan(finding.leeway) && !std::isnan(finding.guard);
}

void run_every_task(const Setup& setup, Random& random) {
  const Rig rig(setup);
  const Regions& regions = rig.regions();
  for (int kind = 0; kind < kRegionKinds; ++kind) {
    expect_numbers(regions.get(static_cast<RegionKind>(kind)));
  }
  expect_safe(rig.limits(), regions.get(RegionKind::within_limits), false, random);
  expect_safe(rig.limits(), regions.get(RegionKind::reachable), true, random);
  const CheckResult checked = check(rig);
  for (const CheckedPoint& point : checked.points) {
    EXPECT_TRUE(never_not_a_number(point.finding));
    if (point.has_nearest) {
      EXPECT_EQ(rig.limits().evaluate(point.nearest).verdict, Verdict::reachable);
    }
  }
  std::string drawing;
  write_plan_svg(checked, rig, {}, [&](std::string_view piece) { drawing += piece; });
  EXPECT_EQ(drawing.find("nan"), std::string::npos);
  EXPECT_EQ(drawing.find("e+"), std::string::npos);
  explain(rig);
  bracket({&setup, 1});
  try {
    fit(setup);
  } catch (const FitRefused&) {
    // That is an answer.
  }
}

void try_role(Role role) {
  const char* only = std::getenv("LEEWAY_SEED");
  for (unsigned seed = 1; seed <= fewer(50u); ++seed) {
    if (only && *only && std::to_string(seed) != only) continue;
    SCOPED_TRACE(std::string(word(role)) + ", seed " + std::to_string(seed));
    Random random(judges::seed_of_case(static_cast<std::uint64_t>(role), seed));
    const Setup setup = with_needle(random, role);
    EXPECT_NO_THROW(run_every_task(setup, random));
    if (testing::Test::HasFailure()) return;
  }
}

TEST(Needles, AsBed) { try_role(Role::bed); }
TEST(Needles, AsTravel) { try_role(Role::travel); }
TEST(Needles, AsObstacle) { try_role(Role::obstacle); }
TEST(Needles, AsPart) { try_role(Role::part); }
TEST(Needles, AsBody) { try_role(Role::body); }
TEST(Needles, AsSpot) { try_role(Role::spot); }
TEST(Needles, AsHoleOfTheBed) { try_role(Role::hole); }

// Found by hand: what did not end, or ended in coordinates of -9.2e15.
TEST(Needles, ThatWereNotAnswered) {
  Random random(1);
  leeway::Setup sliver = with_needle(random, Role::obstacle);
  sliver.probe.body = ProbeBody{Box{-5, 5, -4.5, 4.5}, 1};
  sliver.machine.obstacles = {
      {"sliver", polygon({{0, 100}, {110.0002, 210.0001}, {110, 210.0003}}), 6, 1}};
  EXPECT_NO_THROW(run_every_task(sliver, random));
  leeway::Setup part = with_needle(random, Role::obstacle);
  part.machine.head = {{"part", polygon({{0, 0}, {8.8e-18, 0.1431}, {-1.5e-9, 0.1431}}), 1}};
  EXPECT_NO_THROW(run_every_task(part, random));
  leeway::Setup spot = with_needle(random, Role::obstacle);
  spot.machine.bed = Disc{{50, 50}, 50};
  spot.probe.spot = polygon({{-20, 0}, {20, 0}, {20, 1e-7}});
  EXPECT_NO_THROW(run_every_task(spot, random));
  leeway::Setup rim = with_needle(random, Role::obstacle);
  rim.machine.bed = Disc{{50, 50}, 50};
  rim.machine.obstacles = {{"rim", Box{30, 70, 0.0005, 0.0015}, 6, 0},
                           {"edge", Box{20, 80, 3.999, 4}, 6, 0}};
  EXPECT_NO_THROW(run_every_task(rim, random));
}

}  // namespace
}  // namespace leeway
