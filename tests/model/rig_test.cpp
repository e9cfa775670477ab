// What is shared between offsets, requests and changed setups is what each would compute alone.

#include "leeway/rig.h"

#include <gtest/gtest.h>

#include "model/setups.h"

namespace leeway {
namespace {

Shape horseshoe(Point at) {
  Ring ring{{-27, -9}, {-24, -33}, {24, -33}, {27, -9}, {10, -16}, {-10, -16}};
  for (Point& p : ring) p = p + at;
  return MultiPolygon{{ring, {}}};
}

// A bed with slanted sides, a spot with corners, a part and an obstacle that are not convex.
Setup cornered() {
  Setup setup;
  setup.machine.bed = MultiPolygon{{{{0, 0}, {230, 0}, {230, 190}, {205, 210}, {12, 210}, {0, 160}},
                                    {{{100, 150}, {130, 155}, {120, 170}}}}};
  setup.machine.travel = Disc{{110, 100}, 150};
  setup.machine.head = {{"duct", horseshoe({0, 0}), 1}, {"wheel", Disc{{15, 20}, 6}, 1}};
  setup.machine.obstacles = {{"handle", horseshoe({120, 60}), 20, 2},
                             {"screw", Disc{{60, 150}, 3}, 10, 0.5}};
  setup.machine.travel_uncertainty = 0.1;
  setup.machine.bed_uncertainty = 0.2;
  setup.probe.offset = {-38.5, 12};
  setup.probe.offset_uncertainty = {0.15, 0.15};
  setup.probe.spot = Box{-9, 9, -9, 9};
  setup.probe.body = ProbeBody{horseshoe({0, 20}), 1};
  return setup;
}

void expect_same(const Rig& rig, const Setup& setup) {
  const Rig alone(setup);
  ASSERT_EQ(rig.limits().size(), alone.limits().size());
  for (double x = -20; x <= 250; x += 9.5) {
    for (double y = -20; y <= 230; y += 9.5) {
      for (std::size_t i = 0; i < alone.limits().size(); ++i) {
        const LimitReading a = rig.limits().reading(i, {x, y});
        const LimitReading b = alone.limits().reading(i, {x, y});
        ASSERT_EQ(a.leeway, b.leeway) << alone.limits().info(i).name << " " << x << ", " << y;
        ASSERT_EQ(a.guard, b.guard) << alone.limits().info(i).name << " " << x << ", " << y;
      }
      MoveStop a;
      MoveStop b;
      ASSERT_EQ(rig.move_limits().blocked({x, y}, {y, x}, a),
                alone.move_limits().blocked({x, y}, {y, x}, b));
      ASSERT_EQ(a.leeway, b.leeway);
    }
  }
  for (int k = 0; k < kRegionKinds; ++k) {
    const auto kind = static_cast<RegionKind>(k);
    EXPECT_EQ(rig.regions().get(kind), alone.regions().get(kind)) << word(kind);
  }
}

TEST(Rig, AnotherOffsetIsTheSameAsASetupWithIt) {
  leeway::Setup setup = cornered();
  const Rig rig(setup);
  // The last is no whole number of micrometres.
  for (const Point offset : {Point{-38.5, 12}, Point{20, -31.4}, Point{7.0004, 0.12345}}) {
    setup.probe.offset = offset;
    expect_same(rig.at(offset), setup);
    expect_same(rig.at({1, 1}).at(offset), setup);
  }
}

TEST(Rig, AChangedSetupIsTheSameAsOneOfItsOwn) {
  const Rig rig(cornered());
  rig.regions().get(RegionKind::reachable);
  leeway::Setup wider = cornered();
  wider.machine.bed = Box{0, 250, 0, 220};
  wider.machine.obstacles.front().clearance = 5;
  expect_same(rig.with(wider), wider);
  leeway::Setup other = cornered();
  other.machine.obstacles.front().shape = horseshoe({90, 90});
  other.probe.spot = Disc{{0, 0}, 4};
  other.coverage_factor = 3;
  expect_same(rig.with(other), other);
  expect_same(rig.with(other).with(cornered()), cornered());
}

TEST(Rig, AnotherRequestSharesTheRegions) {
  const Rig rig(cornered());
  const MultiPolygon& region = rig.regions().get(RegionKind::within_limits);
  Request request;
  request.points = {{"somewhere", {50, 50}, Frame::probe}};
  const Rig asking = rig.asking(request);
  EXPECT_EQ(asking.setup().request.points.size(), 1U);
  EXPECT_TRUE(rig.setup().request.points.empty());
  EXPECT_EQ(&asking.regions().get(RegionKind::within_limits), &region);
}

TEST(Rig, AnotherOffsetSharesWhatDoesNotDependOnIt) {
  const Rig rig(cornered());
  const Rig moved = rig.at({10, 10});
  for (const RegionKind kind : {RegionKind::bed, RegionKind::printable, RegionKind::sensing}) {
    EXPECT_EQ(&moved.regions().get(kind), &rig.regions().get(kind)) << word(kind);
  }
}

}  // namespace
}  // namespace leeway
