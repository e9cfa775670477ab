// Grids side by side: each against a fit of its own, and against `check`.

#include "leeway/compare_grids.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "leeway/check.h"

namespace leeway {
namespace {

// A bed with a clip at the front that the probe must keep off, under a head that may meet it.
leeway::Setup clipped() {
  leeway::Setup setup;
  setup.machine.bed = Box{0, 100, 0, 80};
  setup.machine.travel = Box{-5, 105, -5, 85};
  setup.machine.obstacles.push_back({"clip", Box{40, 60, 0, 12}, 6, 1});
  setup.probe.offset = {-20, 5};
  setup.probe.offset_uncertainty = {0.1, 0.1};
  setup.request.grid = Grid{3, 3, Box{10, 60, 10, 60}, Frame::probe, false};
  return setup;
}

std::vector<GridWanted> all_from(int low, int high) {
  std::vector<GridWanted> out;
  for (int columns = low; columns <= high; ++columns) {
    for (int rows = low; rows <= high; ++rows) out.push_back({columns, rows, std::nullopt});
  }
  return out;
}

TEST(CompareGrids, EachIsWhatFitGives) {
  const Rig rig(clipped());
  const std::vector<ComparedGrid> grids = compare_grids(rig, all_from(2, 6));
  ASSERT_EQ(grids.size(), 25u);
  for (const ComparedGrid& grid : grids) {
    FitOptions options;
    options.columns = grid.wanted.columns;
    options.rows = grid.wanted.rows;
    const FitResult alone = fit(rig, options);
    ASSERT_EQ(grid.mesh.has_value(), alone.mesh.has_value());
    if (!grid.mesh) continue;
    EXPECT_EQ(grid.mesh->bounds, alone.mesh->bounds);
    EXPECT_EQ(grid.mesh->columns, *grid.wanted.columns);
    EXPECT_EQ(grid.mesh->rows, *grid.wanted.rows);
    EXPECT_EQ(grid.least_height, alone.checked.moves.safe.least);
    // What is told is what `check` says of the same grid.
    const CheckResult checked = check(Rig(with_mesh(clipped(), *grid.mesh)));
    EXPECT_EQ(checked.verdict, Verdict::reachable);
    EXPECT_EQ(checked.coverage->fraction, grid.mesh->coverage.fraction);
    EXPECT_EQ(checked.moves.safe.least, grid.least_height);
  }
}

TEST(CompareGrids, TheBestComesFirst) {
  const std::vector<ComparedGrid> grids = compare_grids(Rig(clipped()), all_from(2, 6));
  for (std::size_t i = 1; i < grids.size(); ++i) {
    if (!grids[i].mesh) continue;
    ASSERT_TRUE(grids[i - 1].mesh);
    EXPECT_GE(grids[i - 1].mesh->area, grids[i].mesh->area);
  }
}

// The clip asks for a height, by hand: 6 high, under the bare nozzle.
TEST(CompareGrids, MovesThatAreBlockedComeAfterThoseThatAreClear) {
  leeway::Setup setup = clipped();
  setup.machine.obstacles[0].shape = Box{-5, 105, 30, 32};  // from side to side: no way round
  setup.probe.travel_height = 3;
  setup.probe.trigger_height = 0;
  const std::vector<ComparedGrid> grids = compare_grids(Rig(setup), all_from(2, 3));
  for (const ComparedGrid& grid : grids) {
    ASSERT_TRUE(grid.mesh);
    EXPECT_TRUE(grid.moves_judged);
    if (!grid.moves_clear) {
      EXPECT_EQ(grid.least_height, 6);
    }
  }
  EXPECT_TRUE(std::is_partitioned(grids.begin(), grids.end(),
                                  [](const ComparedGrid& grid) { return grid.moves_clear; }));
}

TEST(CompareGrids, SpacingsThatGiveTheSameMeshAreOne) {
  const std::vector<ComparedGrid> grids =
      compare_grids(Rig(clipped()), {{std::nullopt, std::nullopt, 1000.0},
                                     {std::nullopt, std::nullopt, 2000.0},
                                     {std::nullopt, std::nullopt, 15.0}});
  EXPECT_EQ(grids.size(), 2u);
}

TEST(CompareGrids, SaysWhyOneCouldNotBeLookedFor) {
  const Rig rig(clipped());
  const std::vector<ComparedGrid> grids =
      compare_grids(rig, {{1000, 1000, std::nullopt}, {3, 3, std::nullopt}});
  ASSERT_EQ(grids.size(), 2u);
  EXPECT_TRUE(grids[0].mesh);
  EXPECT_FALSE(grids[1].mesh);
  EXPECT_NE(grids[1].refused, "");
  EXPECT_THROW(compare_grids(rig, {{1000, 1000, std::nullopt}}), FitRefused);
  EXPECT_TRUE(compare_grids(rig, {}).empty());
}

// A row of screws in the middle of the bed: three columns must put one beside them, four pass.
TEST(BetterNeighbour, IsNamedWhereItCoversMore) {
  leeway::Setup setup = clipped();
  setup.machine.obstacles = {{"screws", Box{35, 65, 0, 80}, 0, 0}};
  setup.probe.offset = {0, 0};
  const Rig rig(setup);
  FitOptions options;
  options.columns = 3;
  options.rows = 2;
  const FitResult three = fit(rig, options);
  ASSERT_TRUE(three.mesh);
  const std::optional<FitMesh> better = better_neighbour(rig, three, options);
  ASSERT_TRUE(better);
  EXPECT_NE(better->columns, 3);
  EXPECT_GE(*better->coverage.fraction, *three.mesh->coverage.fraction + kNotableShare);
  options.columns = better->columns;
  const FitResult alone = fit(rig, options);
  EXPECT_EQ(alone.mesh->bounds, better->bounds);
  EXPECT_FALSE(better_neighbour(rig, alone, options)) << "nothing beside it covers clearly more";
}

}  // namespace
}  // namespace leeway
