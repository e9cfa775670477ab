#include "leeway/check.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "model/setups.h"
#include "tasks/check/nearest.h"
#include "tasks/check/requested_points.h"

namespace leeway {
namespace {

CheckResult run(const leeway::Setup& setup) { return check(Rig(setup)); }

const CheckedPoint& point(const CheckResult& result, const leeway::Setup& setup,
                          const std::string& name) {
  const auto found =
      std::find_if(result.points.begin(), result.points.end(),
                   [&](const CheckedPoint& p) { return point_name(setup, p) == name; });
  EXPECT_NE(found, result.points.end()) << name;
  return *found;
}

TEST(Check, AnswersTheExampleOfTheDesign) {
  const leeway::Setup setup = godwit();
  const CheckResult result = run(setup);
  EXPECT_EQ(result.setup, "Godwit, side bracket");
  EXPECT_EQ(result.counts.points, 27u);
  EXPECT_EQ(result.counts.reachable + result.counts.marginal + result.counts.unreachable, 27u);
  EXPECT_EQ(result.verdict, Verdict::unreachable);
  const CheckedPoint& right = point(result, setup, "grid 5,1");
  EXPECT_EQ(right.probe, (Point{210, 20}));
  EXPECT_EQ(right.finding.leeway, -9.5);
  EXPECT_TRUE(right.has_nearest);
  EXPECT_EQ(right.nearest, (Point{200.3, 20}));
  const CheckedPoint& screw = point(result, setup, "front left screw");
  EXPECT_EQ(screw.finding.verdict, Verdict::reachable);
  EXPECT_EQ(screw.nearest, screw.probe);
  EXPECT_EQ(point(result, setup, "home").probe, (Point{76.5, 117}));
  ASSERT_EQ(result.regions.size(), 5u);
  EXPECT_EQ(result.regions[0].area, 48231);
}

TEST(Check, CoversWhatTheLatticesBoxCovers) {
  leeway::Setup setup = bare(Box{0, 200, 0, 100}, Box{-50, 250, -50, 150});
  setup.request.grid = Grid{3, 3, Box{20, 180, 10, 60}, Frame::probe, false};
  const CheckResult result = run(setup);
  EXPECT_DOUBLE_EQ(*result.coverage->fraction, 160.0 * 50 / 20000);
  EXPECT_EQ(result.coverage->uncovered.left, 20);
  EXPECT_EQ(result.coverage->uncovered.right, 20);
  EXPECT_EQ(result.coverage->uncovered.front, 10);
  EXPECT_EQ(result.coverage->uncovered.back, 40);
}

TEST(Check, AGridForTheNozzleIsMovedToTheProbe) {
  leeway::Setup setup = bare(Box{0, 200, 0, 100}, Box{-50, 250, -50, 150});
  setup.probe.offset = {-10, 5};
  setup.request.grid = Grid{2, 2, Box{20, 180, 10, 60}, Frame::nozzle, false};
  const CheckResult result = run(setup);
  EXPECT_EQ(result.points.front().probe, (Point{10, 15}));
  EXPECT_EQ(result.points.back().probe, (Point{170, 65}));
  EXPECT_EQ(result.coverage->uncovered.left, 10);
}

TEST(Check, MarginsAreCountedFromWhereTheySay) {
  leeway::Setup setup = bare(Box{0, 200, 0, 100}, Box{-50, 250, -50, 150});
  setup.request.grid = Grid{2, 2, Margins{10, 20, 30, 40, Margins::From::bed}, Frame::probe, false};
  EXPECT_EQ(run(setup).points.front().probe, (Point{10, 30}));
  EXPECT_EQ(run(setup).points.back().probe, (Point{180, 60}));
  setup.request.grid->extent = Margins{60, 70, 60, 60, Margins::From::travel};
  EXPECT_EQ(run(setup).points.front().probe, (Point{10, 10}));
  EXPECT_EQ(run(setup).points.back().probe, (Point{180, 90}));
}

TEST(Check, LatticePointsLandOnTheirEnds) {
  const Box box{20, 210, 20.1, 190.3};
  EXPECT_EQ(grid_point(box, 5, 5, 1, 0), (Point{67.5, 20.1}));
  EXPECT_EQ(grid_point(box, 7, 3, 6, 2), (Point{210, 190.3}));
  EXPECT_NEAR(grid_point(box, 1, 1, 0, 0).y, 105.2, 1e-12) << "one row is in the middle";
}

TEST(Check, LeavesOutPointsOffARoundBed) {
  leeway::Setup setup = bare(Disc{{0, 0}, 94.5}, Disc{{0, 0}, 120});
  setup.request.grid = Grid{5, 5, Box{-94.5, 94.5, -94.5, 94.5}, Frame::probe, true};
  const CheckResult result = run(setup);
  // In steps of 47.25 a point is on the bed when i^2 + k^2 <= 4: 13 of 25.
  EXPECT_EQ(result.counts.points, 13u);
  EXPECT_EQ(result.counts.skipped, 12u);
  EXPECT_EQ(result.verdict, Verdict::reachable) << "on the rim is on the bed";
  setup.request.grid->skip_outside_bed = false;
  EXPECT_EQ(run(setup).counts.unreachable, 12u);
}

TEST(Check, WithoutARequestHasNoVerdict) {
  const CheckResult result = run(bare(square(50), square(50)));
  EXPECT_FALSE(result.verdict);
  EXPECT_FALSE(result.coverage);
  EXPECT_EQ(result.moves.count, 0u);
}

TEST(Check, TravelsSerpentineOverWhatIsNotUnreachable) {
  leeway::Setup setup = bare(Box{0, 100, 0, 100}, Box{0, 100, 0, 100});
  setup.machine.obstacles = {{"screw", Disc{{50, 50}, 2}, 0, 0}};
  setup.request.grid = Grid{3, 3, Box{10, 90, 10, 90}, Frame::probe, false};
  const CheckResult result = run(setup);
  EXPECT_EQ(result.counts.unreachable, 1u);
  std::string order;
  for (std::size_t i : travel_order(result.points)) {
    order += point_name(setup, result.points[i]).substr(5) + " ";
  }
  EXPECT_EQ(order, "1,1 2,1 3,1 3,2 1,2 1,3 2,3 3,3 ");
  EXPECT_EQ(result.moves.count, 7u);
  EXPECT_FALSE(result.moves.judged) << "no travel height is stated";
  EXPECT_EQ(result.moves.safe.least, 0) << "a screw of height 0 blocks nothing";
}

TEST(Check, NamesTheMovesThatWouldRunIntoSomething) {
  leeway::Setup setup = bare(Box{0, 100, 0, 100}, Box{0, 100, 0, 100});
  setup.machine.obstacles = {{"post", Box{25, 35, 40, 60}, 20, 0}};
  setup.request.grid = Grid{3, 3, Box{10, 90, 10, 90}, Frame::probe, false};
  setup.probe.travel_height = 19.9;
  const CheckResult result = run(setup);
  EXPECT_TRUE(result.moves.judged);
  EXPECT_FALSE(result.moves.clear());
  ASSERT_EQ(result.moves.blocked.size(), 1u);
  const BlockedMove& move = result.moves.blocked.front();
  EXPECT_EQ(point_name(setup, result.points[move.from]), "grid 2,2");
  EXPECT_EQ(point_name(setup, result.points[move.to]), "grid 1,2");
  EXPECT_EQ(move.stop.limit.name, "nozzle over post");
  EXPECT_EQ(move.stop.leeway, -5);
  EXPECT_EQ(result.moves.safe.least, 20);
  setup.probe.travel_height = result.moves.safe.least;
  EXPECT_TRUE(run(setup).moves.clear()) << "what is printed is what was checked";
  setup.probe.travel_height.reset();
  EXPECT_TRUE(run(setup).moves.clear()) << "nothing is judged";
  EXPECT_EQ(run(setup).moves.safe.least, 20);
}

TEST(Check, MovesGoOnToTheNamedPointsAndHome) {
  leeway::Setup setup = bare(Box{0, 100, 0, 100}, Box{0, 100, 0, 100});
  setup.machine.obstacles = {{"post", Box{40, 60, 40, 60}, 20, 0}};
  setup.request.points = {{"left", {10, 50}, Frame::probe}, {"inside", {50, 50}, Frame::probe}};
  setup.request.home = Home{{90, 50}, Frame::nozzle};
  const CheckResult result = run(setup);
  EXPECT_EQ(result.moves.count, 1u) << "the point under the post is refused";
  EXPECT_EQ(result.moves.safe.least, 20);
}

TEST(Check, ATravelHeightBelowTheTriggerDragsTheProbe) {
  leeway::Setup setup = bare(Box{0, 100, 0, 100}, Box{0, 100, 0, 100});
  setup.request.grid = Grid{3, 3, Box{10, 90, 10, 90}, Frame::probe, false};
  setup.probe.trigger_height = 2;
  setup.probe.travel_height = 1.5;
  const CheckResult result = run(setup);
  EXPECT_TRUE(result.moves.drags);
  EXPECT_FALSE(result.moves.clear());
  EXPECT_EQ(result.moves.safe.least, 2);
}

TEST(Check, TheNearestPointIsItselfReachable) {
  leeway::Setup setup = bare(Disc{{0, 0}, 94.5}, Disc{{3, 1}, 101});
  setup.probe.offset = {17.3, -8.9};
  setup.probe.offset_uncertainty = {0.4, 0.1};
  setup.probe.spot = Disc{{0, 0}, 3};
  setup.machine.obstacles = {{"post", Disc{{20, 10}, 7}, 20, 1.5},
                             {"rail", polygon({{-60, -40}, {-20, -45}, {-40, -20}}), 9, 0.5}};
  const Rig rig(setup);
  setup.request.grid = Grid{41, 41, Box{-100, 100, -100, 100}, Frame::probe, false};
  const CheckResult result = run(setup);
  std::size_t moved = 0;
  for (const CheckedPoint& p : result.points) {
    ASSERT_TRUE(p.has_nearest) << p.probe.x << ", " << p.probe.y;
    EXPECT_EQ(rig.limits().evaluate(p.nearest).verdict, Verdict::reachable);
    if (p.finding.verdict != Verdict::reachable) ++moved;
  }
  EXPECT_GT(moved, 300u);
  EXPECT_GT(result.counts.reachable, 300u);
}

TEST(Check, ThereIsNoNearestPointOfNothing) {
  leeway::Setup setup = bare(Box{0, 10, 0, 10}, Box{0, 10, 0, 10});
  setup.probe.offset = {100, 0};
  setup.request.points = {{"middle", {5, 5}, Frame::probe}};
  const CheckResult result = run(setup);
  EXPECT_FALSE(result.points.front().has_nearest);
  EXPECT_TRUE(result.regions[3].why_empty);
  EXPECT_FALSE(result.regions[3].bounds);
}

TEST(Check, ReportsProgressAndStopsWhenAsked) {
  leeway::Setup setup = bare(square(50), square(50));
  setup.request.grid = Grid{200, 200, Box{-40, 40, -40, 40}, Frame::probe, false};
  const Rig rig(setup);
  double last = 0;
  CheckOptions options;
  options.progress = [&](double done) {
    EXPECT_GE(done, last);
    EXPECT_LE(done, 1);
    last = done;
    return true;
  };
  EXPECT_EQ(check(rig, options).counts.points, 40000u);
  EXPECT_GT(last, 0.8);
  options.progress = [](double) { return false; };
  EXPECT_THROW(check(rig, options), Stopped);
}

}  // namespace
}  // namespace leeway
