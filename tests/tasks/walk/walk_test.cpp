#include "leeway/walk.h"

#include <gtest/gtest.h>

#include <cmath>

namespace leeway {
namespace {

constexpr double kPi = 3.14159265358979323846;

// A bed of 200 by 200, a probe 30 to the left of the nozzle, 3 by 3 points.
Setup setup_of_three_by_three() {
  Setup setup;
  setup.machine.bed = Box{0, 200, 0, 200};
  setup.machine.travel = Box{0, 230, 0, 200};
  setup.probe.offset = {-30, 0};
  setup.request.grid = Grid{3, 3, Margins{20, 20, 20, 20}};
  return setup;
}

double length(const std::vector<Point>& way) {
  double sum = 0;
  for (std::size_t i = 0; i + 1 < way.size(); ++i) {
    sum += std::hypot(way[i + 1].x - way[i].x, way[i + 1].y - way[i].y);
  }
  return sum;
}

TEST(Walk, GoesOverCornersThenTheTightestThenTheRest) {
  leeway::Setup setup = setup_of_three_by_three();
  setup.request.points = {{"screw", {100, 60}}};
  setup.request.home = Home{{115, 100}};
  const WalkResult result = walk(Rig(setup));
  ASSERT_EQ(result.stops.size(), 11u);
  EXPECT_TRUE(result.left_out.empty());
  for (std::size_t i = 0; i < 4; ++i) {
    const CheckedPoint& corner = result.check.points[result.stops[i].point];
    EXPECT_TRUE(corner.column != 2 && corner.row != 2 && corner.row > 0) << i;
  }
  ASSERT_TRUE(result.end);
  EXPECT_EQ(result.end->nozzle, (Point{100, 100}));
}

TEST(Walk, OverAllIsShort) {
  WalkOptions options;
  options.points = WalkPoints::all;
  const WalkResult result = walk(Rig(setup_of_three_by_three()), options);
  std::vector<Point> way;
  for (const WalkStop& stop : result.stops) way.push_back(stop.probe);
  EXPECT_DOUBLE_EQ(length(way), 8 * 80);
}

TEST(Walk, KeepsAboveWhatItPasses) {
  leeway::Setup setup = setup_of_three_by_three();
  setup.machine.obstacles = {{"bar", Box{60, 70, -10, 210}, 12, 0}};
  const WalkResult result = walk(Rig(setup));
  EXPECT_DOUBLE_EQ(result.safe.least.value(), 12);
  EXPECT_DOUBLE_EQ(result.height, 17);
  WalkOptions options;
  options.height = 12;
  EXPECT_DOUBLE_EQ(walk(Rig(setup), options).height, 12);
  options.height = 11.9;
  try {
    walk(Rig(setup), options);
    FAIL() << "a height that is too low was taken";
  } catch (const WalkHeightTooLow& refused) {
    EXPECT_DOUBLE_EQ(refused.least(), 12);
  }
}

TEST(Walk, IsAboveTheBedWhateverIsSafe) {
  WalkOptions options;
  options.height = 0;
  try {
    walk(Rig(setup_of_three_by_three()), options);
    FAIL() << "the nozzle would be dragged over the bed";
  } catch (const WalkHeightTooLow& refused) {
    EXPECT_DOUBLE_EQ(refused.least(), kLeastWalkHeight);
  }
  EXPECT_DOUBLE_EQ(walk(Rig(setup_of_three_by_three())).height, 6);
}

// A way past a square at a distance of 1 at least: along its sides and round two of its corners.
TEST(Walk, GoesRoundWhatNoHeightClears) {
  leeway::Setup setup = setup_of_three_by_three();
  setup.request = {};
  setup.request.points = {{"left", {20, 100}}, {"right", {140, 100}}};
  setup.probe.offset = {0, 30};
  setup.machine.travel = Box{0, 200, -30, 200};
  setup.machine.obstacles = {{"post", Box{70, 90, 60, 80}, kUnlimitedHeight, 0}};
  WalkOptions options;
  options.points = WalkPoints::all;
  const WalkResult result = walk(Rig(setup), options);
  ASSERT_EQ(result.stops.size(), 2u);
  ASSERT_FALSE(result.stops[1].via.empty());
  std::vector<Point> way{result.stops[0].nozzle};
  way.insert(way.end(), result.stops[1].via.begin(), result.stops[1].via.end());
  way.push_back(result.stops[1].nozzle);
  const double past_corners = 2 * std::hypot(49, 11) + 22;
  const double past_arcs = 2 * std::hypot(50, 10) + 20;
  EXPECT_GT(length(way), past_arcs);
  EXPECT_LT(length(way), past_corners + kPi);
  const MoveLimits limits(setup);
  MoveStop stop;
  for (std::size_t i = 0; i + 1 < way.size(); ++i) {
    EXPECT_FALSE(
        limits.blocked(way[i] + setup.probe.offset, way[i + 1] + setup.probe.offset, stop));
  }
}

TEST(Walk, LeavesOutWhatItCannotGetTo) {
  leeway::Setup setup = setup_of_three_by_three();
  setup.machine.travel = Box{0, 200, 0, 200};  // column 3 would have the nozzle at 210
  const WalkResult result = walk(Rig(setup));
  EXPECT_EQ(result.stops.size(), 6u);
  ASSERT_EQ(result.left_out.size(), 3u);
  EXPECT_EQ(result.left_out[0].why, WalkLeftOut::Why::not_reachable);
  // A wall that no height clears parts the bed.
  setup = setup_of_three_by_three();
  setup.machine.obstacles = {{"wall", Box{95, 96, -50, 250}, kUnlimitedHeight, 0}};
  WalkOptions options;
  options.points = WalkPoints::all;
  const WalkResult parted = walk(Rig(setup), options);
  EXPECT_FALSE(parted.left_out.empty());
  EXPECT_EQ(parted.left_out.front().why, WalkLeftOut::Why::no_way);
  EXPECT_EQ(parted.stops.size() + parted.left_out.size(), 9u);
}

TEST(Walk, BeginsWhereTheNozzleStands) {
  WalkOptions options;
  options.from = Point{230, 200};
  options.points = WalkPoints::all;
  const WalkResult result = walk(Rig(setup_of_three_by_three()), options);
  EXPECT_EQ(result.stops.front().probe, (Point{180, 180}));
  options.from = Point{-40, 100};  // beyond the travel
  EXPECT_TRUE(walk(Rig(setup_of_three_by_three()), options).stops.empty());
}

TEST(Walk, OverNothingHasNoStops) {
  leeway::Setup setup = setup_of_three_by_three();
  setup.request = {};
  EXPECT_TRUE(walk(Rig(setup)).stops.empty());
  setup = setup_of_three_by_three();
  WalkOptions options;
  options.points = WalkPoints::home;
  EXPECT_TRUE(walk(Rig(setup), options).stops.empty());
}

TEST(Walk, IsForWhatSomebodyWatches) {
  leeway::Setup setup = setup_of_three_by_three();
  setup.request.grid->columns = 40;
  setup.request.grid->rows = 40;
  EXPECT_THROW(walk(Rig(setup)), WalkRefused);
  WalkOptions options;
  options.points = WalkPoints::corners;
  EXPECT_EQ(walk(Rig(setup), options).stops.size(), 4u);
}

TEST(Walk, SaysPlacesInThousandths) {
  leeway::Setup setup = setup_of_three_by_three();
  setup.request.grid = Grid{4, 1, Box{20, 120, 50, 50}};
  for (const WalkStop& stop : walk(Rig(setup)).stops) {
    EXPECT_NEAR(stop.nozzle.x * 1000, std::round(stop.nozzle.x * 1000), 1e-9);
    EXPECT_EQ(stop.finding.verdict, Verdict::reachable);
  }
}

}  // namespace
}  // namespace leeway
