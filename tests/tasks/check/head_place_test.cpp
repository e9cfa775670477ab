#include "leeway/head_place.h"

#include <gtest/gtest.h>

#include <cmath>

#include "formats/check_cases.h"

namespace leeway {
namespace {

double length(const Dimension& d) { return std::hypot(d.to.x - d.from.x, d.to.y - d.from.y); }

// Column 5 of the side bracket: the nozzle at 248.5, the travel ends at 239.
TEST(HeadPlace, LeadsFromTheNozzleBackToTheEndOfItsTravel) {
  const leeway::Setup setup = side_bracket();
  const Rig rig(setup);
  const auto found = place_head(rig, {210, 20}).dimensions;
  ASSERT_EQ(found.size(), 1u);
  EXPECT_EQ(rig.limits().info(found[0].limit).name, "travel right");
  EXPECT_NEAR(found[0].from.x, 248.5, 1e-2);
  EXPECT_NEAR(found[0].from.y, 8, 1e-2);
  EXPECT_NEAR(found[0].to.x, 239, 1e-2);
  EXPECT_NEAR(found[0].to.y, 8, 1e-2);
}

// The spot has radius 4 and wants 1 to the edge: 6 from the edge it has 1 of leeway.
TEST(HeadPlace, LeadsFromTheRimOfTheSpotToTheWantedDistance) {
  const leeway::Setup setup = side_bracket();
  const Rig rig(setup);
  const auto found = place_head(rig, {6, 100}).dimensions;
  ASSERT_EQ(found.size(), 1u);
  EXPECT_NEAR(found[0].reading.leeway, 1, 1e-6);
  EXPECT_NEAR(found[0].from.x, 2, 1e-2);
  EXPECT_NEAR(found[0].to.x, 1, 1e-2);
}

TEST(HeadPlace, OfAPartLeadsOutOfTheObstacle) {
  leeway::Setup setup = one_point({50, 50});
  setup.machine.obstacles.push_back(clip({40, 60, 0, 10}, 6, 1));
  setup.machine.head.push_back({"duct", Box{-5, 5, -20, -10}, 1});
  const Rig rig(setup);
  // The duct reaches down to y = 5 with its front, its back is at 15; the clip and its clearance
  // end at 11: 6 too near.
  const auto found = place_head(rig, {50, 25}).dimensions;
  ASSERT_EQ(found.size(), 1u);
  EXPECT_EQ(rig.limits().info(found[0].limit).name, "duct over clip");
  EXPECT_NEAR(found[0].reading.leeway, -6, 1e-6);
  EXPECT_NEAR(found[0].from.y, 5, 1e-2);
  EXPECT_NEAR(found[0].to.y, 11, 1e-2);
  EXPECT_NEAR(found[0].from.x, 50, 1e-2);
}

TEST(HeadPlace, IsAsLongAsTheLeeway) {
  leeway::Setup setup = side_bracket();
  setup.machine.bed = Disc{{115, 105}, 100};
  setup.machine.travel = Disc{{115, 105}, 110};
  setup.machine.obstacles.push_back(clip({100, 130, -6, 24}, 6, 1));
  setup.machine.obstacles.push_back({"screw", Disc{{40, 100}, 6}, 5, 0.5});
  setup.machine.head.push_back(
      {"duct", MultiPolygon{{{{-22, -30}, {22, -30}, {22, -8}, {0, -14}, {-22, -8}}, {}}}, 3});
  const Rig rig(setup);
  int looked_at = 0;
  for (double x = 0; x <= 233; x += 11.5) {
    for (double y = 0; y <= 207; y += 10.5) {
      for (const Dimension& d : place_head(rig, {x, y}).dimensions) {
        EXPECT_NEAR(length(d), std::abs(d.reading.leeway), 0.02 + 0.02 * length(d))
            << x << ' ' << y << ' ' << rig.limits().info(d.limit).name;
        ++looked_at;
      }
    }
  }
  EXPECT_GT(looked_at, 400);
}

TEST(HeadPlace, TellsAllThatAreMissedWorstFirst) {
  const leeway::Setup setup = side_bracket();
  const Rig rig(setup);
  const auto found = place_head(rig, {240, -30}).dimensions;
  ASSERT_GE(found.size(), 3u);
  for (std::size_t i = 1; i < found.size(); ++i) {
    EXPECT_LE(found[i - 1].reading.leeway, found[i].reading.leeway);
  }
  EXPECT_LE(found.size(), HeadPlace::kMostDimensions);
}

TEST(HeadPlace, HasNoneWhereNoPositionAtAllWorks) {
  leeway::Setup setup = one_point({50, 50});
  setup.probe.spot = Disc{{0, 0}, 80};
  const Rig rig(setup);
  for (const Dimension& d : place_head(rig, {50, 50}).dimensions) {
    EXPECT_FALSE(std::isinf(d.reading.leeway));
  }
}

}  // namespace
}  // namespace leeway
