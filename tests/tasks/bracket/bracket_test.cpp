#include "leeway/bracket.h"

#include <gtest/gtest.h>

#include <array>
#include <cmath>

#include "leeway/candidates.h"
#include "leeway/coverage_map.h"
#include "leeway/regions.h"
#include "model/setups.h"

namespace leeway {
namespace {

BracketResult of(const Setup& setup) { return bracket(std::span(&setup, 1)); }

// A bed of 200 x 200 under a travel of 220 x 220, nothing on it.
Setup plain() {
  Setup setup = bare(Box{0, 200, 0, 200}, Box{-10, 210, -10, 210});
  setup.probe.offset = {-40, 20};
  setup.request.grid = Grid{3, 3, Box{20, 180, 30, 170}, Frame::probe, false};
  return setup;
}

// probe = nozzle + offset: the nozzle of x = 180 must be at most 210, so the offset at least -30;
// that of x = 20 at least -10, so at most 30. Worked by hand, and so for y.
TEST(Bracket, OfARectangularTravelIsTheBoxOfThePoints) {
  const BracketResult r = of(plain());
  ASSERT_FALSE(r.window.empty);
  EXPECT_EQ(*r.window.bounds, (Box{-30, 30, -40, 40}));
  EXPECT_NEAR(r.window.area, 60 * 80, 1e-9);
  EXPECT_FALSE(r.present.inside);
  EXPECT_EQ(r.present.leeway, -10);
  EXPECT_EQ(r.nearest->offset, (Point{-30, 20}));
  EXPECT_EQ(r.nearest->leeway, 0);
  EXPECT_EQ(r.best->leeway, 30);
  EXPECT_EQ(r.best->offset.x, 0);
  EXPECT_TRUE(r.conflict.empty());
  ASSERT_EQ(r.window.sides.size(), 4u);
  EXPECT_EQ(r.window.sides[0].stop.limit.name, "travel right");
  EXPECT_EQ(r.window.sides[0].stop.point->name, "grid 3,1");
  EXPECT_EQ(r.window.sides[3].stop.limit.name, "travel front");
}

TEST(Bracket, TakesTheGuardOffOnBothSides) {
  leeway::Setup setup = plain();
  setup.machine.travel_uncertainty = 0.25;
  setup.coverage_factor = 2;
  EXPECT_EQ(*of(setup).window.bounds, (Box{-29.5, 29.5, -39.5, 39.5}));
}

// The uncertainty of the offset moves the probe on the bed, not the nozzle in its travel.
TEST(Bracket, UncertaintyOfTheOffsetIsThePointsOwn) {
  leeway::Setup setup = plain();
  setup.probe.offset_uncertainty = {0.5, 0.5};
  EXPECT_EQ(*of(setup).window.bounds, (Box{-30, 30, -40, 40}));
  setup.request.points = {{"too near the edge", {0.9, 100}, Frame::probe}};
  const BracketResult r = of(setup);
  ASSERT_EQ(r.out_of_reach.size(), 1u);
  EXPECT_EQ(r.out_of_reach[0].point.name, "too near the edge");
  EXPECT_EQ(r.out_of_reach[0].guard, 1);
  EXPECT_FALSE(r.window.empty);
}

// Three points on a circle of radius 50: the nozzle stays in a disc of radius 60 around 0 when the
// offset is within 10 of the circle's centre.
TEST(Bracket, OfADiscOfTravelIsALens) {
  leeway::Setup setup = bare(Disc{{0, 0}, 80}, Disc{{0, 0}, 60});
  setup.request.points = {{"a", {50, 0}, Frame::probe}, {"b", {-50, 0}, Frame::probe}};
  const BracketResult r = of(setup);
  // Two discs of r = 60 at d = 100 share 2 r^2 acos(d / 2r) - d/2 sqrt(4 r^2 - d^2).
  const double half = std::acos(100.0 / 120.0);
  const double lens = 2 * 60 * 60 * half - 0.5 * 100 * std::sqrt(120.0 * 120 - 100 * 100);
  EXPECT_NEAR(r.window.area, lens, 0.15);
  EXPECT_LE(r.window.area, lens);
  EXPECT_NEAR(r.best->leeway, 10, 1e-6);
  EXPECT_NEAR(r.window.bounds->x1, 10, 0.003);
  EXPECT_NEAR(r.window.bounds->y1, std::sqrt(60.0 * 60 - 50 * 50), 0.003);
  // The end and the nearest offset are told alike, and the move is what is lacking.
  setup.probe.offset = {13, 0};
  const BracketResult beside = of(setup);
  EXPECT_EQ(beside.nearest->offset, (Point{10, 0}));
  EXPECT_EQ(beside.window.sides[1].at, 10);
  EXPECT_EQ(beside.window.bounds->x1, 10);
  EXPECT_EQ(beside.present.leeway, -3);
}

// Past a corner of the window the leeway is the way to the corner, not the lesser of two amounts.
TEST(Bracket, OutsideTheLeewayIsTheWayBack) {
  leeway::Setup setup = plain();
  setup.probe.offset = {-33, 44};
  const BracketResult r = of(setup);
  EXPECT_EQ(r.nearest->offset, (Point{-30, 40}));
  EXPECT_EQ(r.present.leeway, -5);
}

// On an equilateral triangle whose enclosing circle is larger than the travel, any two points
// have a common offset and all three have not (Helly: three suffice in the plane).
TEST(Bracket, ThreePointsMayBeNeededForAConflict) {
  leeway::Setup setup = bare(Disc{{0, 0}, 100}, Disc{{0, 0}, 45});
  for (int i = 0; i < 3; ++i) {
    const double angle = 2 * 3.14159265358979 * i / 3;
    setup.request.points.push_back({"corner " + std::to_string(i + 1),
                                    {50 * std::cos(angle), 50 * std::sin(angle)},
                                    Frame::probe});
  }
  setup.request.points.push_back({"middle", {0, 0}, Frame::probe});
  const BracketResult r = of(setup);
  EXPECT_TRUE(r.window.empty);
  ASSERT_EQ(r.conflict.size(), 3u);
  for (const BracketPoint& point : r.conflict) EXPECT_NE(point.name, "middle");
  EXPECT_FALSE(r.shrink.has_value());
}

TEST(Bracket, TwoPointsTooFarApartAndHowMuchTheMeshMustShrink) {
  leeway::Setup setup = plain();
  setup.machine.travel = Box{0, 100, 0, 200};  // the mesh spans 160 in x
  const BracketResult r = of(setup);
  EXPECT_TRUE(r.window.empty);
  ASSERT_EQ(r.conflict.size(), 2u);
  EXPECT_EQ(std::abs(r.conflict[0].probe.x - r.conflict[1].probe.x), 160);
  EXPECT_EQ(r.shrink->all, 30);
  EXPECT_EQ(r.shrink->x, 30);
  EXPECT_FALSE(r.shrink->y.has_value());
  EXPECT_FALSE(r.best || r.nearest);
}

// A named point stays where it is when the mesh shrinks, whatever it is called.
TEST(Bracket, APointIsNotOfTheGridForItsName) {
  for (const char* name : {"bed screw", "grid corner", "grid 1,1 or so"}) {
    leeway::Setup setup = plain();
    setup.machine.travel = Box{0, 100, 0, 200};
    setup.request.points = {{name, {10, 100}, Frame::probe}};
    // From 10 to 110 at most: the right side comes in from 180.
    const BracketResult r = of(setup);
    ASSERT_TRUE(r.shrink) << name;
    EXPECT_EQ(r.shrink->x, 70) << name;
  }
}

// A travel that is exactly as wide as the mesh leaves a line; a point if it is so deep too.
TEST(Bracket, AWindowMayBeALineOrAPoint) {
  leeway::Setup setup = plain();
  setup.machine.travel = Box{20.1, 180.1, 0, 200};
  const BracketResult line = of(setup);
  ASSERT_FALSE(line.window.empty);
  EXPECT_EQ(line.window.area, 0);
  EXPECT_EQ(*line.window.bounds, (Box{-0.1, -0.1, -30, 30}));
  EXPECT_EQ(line.best->offset, (Point{-0.1, 0}));
  EXPECT_EQ(line.nearest->offset, (Point{-0.1, 20}));
  setup.machine.travel = Box{20.1, 180.1, 30.2, 170.2};
  const BracketResult point = of(setup);
  ASSERT_FALSE(point.window.empty);
  EXPECT_EQ(point.best->offset, (Point{-0.1, -0.2}));
  setup.machine.travel = Box{20.1, 180.099, 30.2, 170.2};
  EXPECT_TRUE(of(setup).window.empty);
}

// A part of the head that comes down on an obstacle at one point bars a rectangle of offsets:
// the obstacle swept by the mirrored part, moved by the point and mirrored.
TEST(Bracket, ObstaclesAreTakenAwayPointByPoint) {
  leeway::Setup setup = plain();
  setup.request.grid.reset();
  setup.request.points = {{"p", {100, 100}, Frame::probe}};
  setup.machine.obstacles = {{"post", Box{90, 94, 90, 94}, 50, 0}};
  setup.machine.head = {{"duct", Box{-1, 1, -1, 1}, 3}};
  // The nozzle must keep out of 89..95 in both, so the offset out of 5..11; and the probe keeps
  // beside the duct.
  const BracketResult r = of(setup);
  EXPECT_NEAR(r.window.area, 220.0 * 220.0 - 36 - 4, 1e-6);
  setup.probe.offset = {8, 7};
  const BracketResult there = of(setup);
  EXPECT_FALSE(there.present.inside);
  EXPECT_EQ(there.present.leeway, -2);
  EXPECT_EQ(there.nearest->offset, (Point{8, 5}));
  EXPECT_EQ(there.present.stop->limit.name, "duct over post");
}

// The probe's body moves with the probe: what it comes down on is a matter of the point alone.
TEST(Bracket, TheBodyOfTheProbeBelongsToThePoint) {
  leeway::Setup setup = plain();
  setup.machine.obstacles = {{"post", Box{100, 110, 100, 110}, 50, 0}};
  setup.probe.body = ProbeBody{Box{-9, 9, -9, 9}, 0};
  setup.request.grid.reset();
  setup.request.points = {{"beside the post", {115, 105}, Frame::probe},
                          {"clear of it", {150, 105}, Frame::probe}};
  const BracketResult r = of(setup);
  ASSERT_EQ(r.out_of_reach.size(), 1u);
  EXPECT_EQ(r.out_of_reach[0].point.name, "beside the post");
  EXPECT_EQ(r.out_of_reach[0].leeway, -4);
  // Of the other the nozzle alone bars offsets: the post itself. And it stays out of the body.
  EXPECT_NEAR(r.window.area, 220.0 * 220.0 - 10 * 10 - 18 * 18, 1e-6);
}

TEST(Bracket, TheMountCutsTheWindow) {
  leeway::Setup setup = plain();
  setup.mount.envelope = Box{10, 50, -20, 20};
  EXPECT_EQ(*of(setup).window.bounds, (Box{10, 30, -20, 20}));
  EXPECT_EQ(of(setup).window.sides[0].stop.limit.name, "envelope left");
  setup.machine.head = {{"duct", Box{0, 20, -30, 30}, 3}};
  setup.probe.body = ProbeBody{Box{-5, 5, -5, 5}, 0};
  // The body keeps 5 off the duct.
  EXPECT_EQ(*of(setup).window.bounds, (Box{25, 30, -20, 20}));
  setup.machine.head = {{"duct", Box{0, 60, -30, 30}, 3}};
  const BracketResult r = of(setup);
  EXPECT_TRUE(r.window.empty);
  EXPECT_TRUE(r.mount_alone);
  EXPECT_TRUE(r.conflict.empty());
}

// The body of 10 x 10 stays out of the belt's way at y 30..34: at most 25 behind.
TEST(Bracket, TheBodyStaysOutOfWhatIsKeptClear) {
  leeway::Setup setup = plain();
  setup.probe.body = ProbeBody{Box{-5, 5, -5, 5}, 0};
  setup.mount.envelope = Box{10, 50, 0, 40};
  setup.mount.keep_clear = {{"belt", Box{-200, 200, 30, 34}}};
  const BracketResult r = of(setup);
  EXPECT_EQ(*r.window.bounds, (Box{10, 30, 0, 40}));
  EXPECT_NEAR(r.window.area, 20 * (25 + 1), 1e-9);  // and 39..40 beyond it
  setup.probe.offset = {20, 31};
  const BracketResult there = of(setup);
  EXPECT_FALSE(there.present.inside);
  EXPECT_EQ(there.present.stop->limit.name, "clear of belt");
  EXPECT_EQ(there.nearest->offset, (Point{20, 25}));
  // What is kept clear is a matter of the bracket, not a part of the head that the probe sits in.
  EXPECT_TRUE(there.present.overlaps.empty());
}

TEST(Bracket, SeveralSetupsHaveACommonWindow) {
  std::array setups{plain(), plain()};
  setups[1].machine.travel = Box{0, 230, -10, 210};
  setups[1].probe.offset = {0, 0};
  const BracketResult r = bracket(setups);
  EXPECT_EQ(*r.window.bounds, (Box{-30, 20, -40, 40}));
  ASSERT_EQ(r.setups.size(), 2u);
  EXPECT_EQ(r.best->leeway, 25);
  EXPECT_EQ(std::min(*r.setups[0].leeway_at_best, *r.setups[1].leeway_at_best), 25);
  setups[1].machine.travel = Box{100, 330, -10, 210};
  const BracketResult none = bracket(setups);
  EXPECT_TRUE(none.window.empty);
  EXPECT_EQ(none.conflict.size(), 2u);
  EXPECT_NE(none.conflict[0].setup, none.conflict[1].setup);
}

TEST(Bracket, NumbersForTheNozzleAreHeldWhereTheyPutTheProbe) {
  leeway::Setup setup = plain();
  setup.request.grid->frame = Frame::nozzle;
  setup.request.grid->extent = Box{60, 220, 10, 150};
  EXPECT_EQ(*of(setup).window.bounds, (Box{-30, 30, -40, 40}));
}

TEST(Bracket, RefusesARequestWithoutPoints) {
  leeway::Setup setup = plain();
  setup.request = {};
  EXPECT_THROW(of(setup), BracketRefused);
}

TEST(Bracket, StopsWhenItIsToldTo) {
  leeway::Setup setup = plain();
  setup.machine.travel = Box{0, 100, 0, 200};
  BracketOptions options;
  options.progress = [](double) { return false; };
  EXPECT_THROW(bracket(std::span(&setup, 1), options), Stopped);
  EXPECT_THROW(coverage_map(setup, {0, 1, 2}, {0, 1, 2}, [](double) { return false; }), Stopped);
}

// Bed and travel of 100 x 100, a point for a probe: an offset of (a, b) leaves a rectangle.
TEST(CoverageMap, OfTwoSquares) {
  const leeway::Setup setup = bare(Box{0, 100, 0, 100}, Box{0, 100, 0, 100});
  const std::optional<CoverageMap> map = coverage_map(setup, {-30, 30, 3}, {-50, 0, 2});
  ASSERT_TRUE(map);
  EXPECT_EQ(map->printable_area, 10000);
  EXPECT_NEAR(map->at(0, 0), 0.7 * 0.5, 1e-12);
  EXPECT_NEAR(map->at(1, 0), 0.5, 1e-12);
  EXPECT_NEAR(map->at(2, 1), 0.7, 1e-12);
  EXPECT_NEAR(map->at(1, 1), 1, 1e-12);
}

// Round bed and round travel of r = 100, the offset d = 50: the lens over the disc; the lens is
// 2 r^2 acos(d / 2r) - d/2 sqrt(4 r^2 - d^2) = 21521.0922502970882.
TEST(CoverageMap, OfTwoDiscs) {
  const leeway::Setup setup = bare(Disc{{0, 0}, 100}, Disc{{0, 0}, 100});
  const std::optional<CoverageMap> map = coverage_map(setup, {50, 50, 1}, {0, 0, 1});
  ASSERT_TRUE(map);
  EXPECT_NEAR(map->at(0, 0), 21521.0922502970882 / (3.14159265358979 * 10000), 2e-5);
}

TEST(CoverageMap, NothingPrintableHasNone) {
  const leeway::Setup setup = bare(Box{0, 100, 0, 100}, Box{200, 300, 0, 100});
  EXPECT_FALSE(coverage_map(setup, {0, 1, 2}, {0, 1, 2}));
}

std::vector<RankedCandidate> ranked(const Setup& setup, const std::vector<Candidate>& candidates) {
  return rank_candidates(std::span(&setup, 1), candidates);
}

TEST(Candidates, RankByPointsThenShareThenRoomAndSayTies) {
  leeway::Setup setup = plain();
  const auto r = ranked(setup, {{"far left", {-60, 0}},
                                {"left", {-25, 0}},
                                {"middle", {0, 0}},
                                {"right", {25, 0}},
                                {"middle too", {0, 0}}});
  ASSERT_EQ(r.size(), 5u);
  EXPECT_EQ(r[0].candidate.name, "middle");
  EXPECT_EQ(r[1].candidate.name, "middle too");
  EXPECT_EQ(r[0].rank, 1u);
  EXPECT_EQ(r[1].rank, 1u);
  EXPECT_EQ(r[2].rank, 3u);
  EXPECT_EQ(r[3].rank, 3u);  // left and right mirror each other
  EXPECT_EQ(r[4].candidate.name, "far left");
  EXPECT_EQ(r[4].covers[0].failing, 3u);
  // At -60 the probe reaches x up to 150 of 200.
  EXPECT_NEAR(*r[4].covers[0].share, 0.75, 1e-9);
  EXPECT_NEAR(r[4].covers[0].uncovered.right, 50, 1e-9);
  EXPECT_EQ(r[4].covers[0].uncovered.left, 0);
  EXPECT_EQ(*r[4].covers[0].leeway, -30);
  EXPECT_EQ(*r[2].covers[0].leeway, 5);
}

TEST(Candidates, AgreeWithTheField) {
  const leeway::Setup setup = godwit();
  for (const Point offset : {Point{-38.5, 12}, Point{20, 40}, Point{0, -46}, Point{150, 0}}) {
    const auto r = ranked(setup, {{"one", offset}});
    const std::optional<CoverageMap> map =
        coverage_map(setup, {offset.x, offset.x, 1}, {offset.y, offset.y, 1});
    EXPECT_NEAR(*r[0].covers[0].share, map->at(0, 0), 1e-5);
  }
}

TEST(Candidates, TheMountAndTheNamedPointsAreLookedAt) {
  leeway::Setup setup = godwit();
  const auto r = ranked(setup, {{"in the duct", {0, -20}}, {"beside", {0, 20}}});
  EXPECT_EQ(r[0].candidate.name, "beside");
  EXPECT_EQ(r[1].covers[0].mount, "beside fan duct");
  setup.request.points.push_back({"off the bed", {-5, 20}, Frame::probe});
  const auto missed = ranked(setup, {{"beside", {0, 20}}});
  EXPECT_EQ(missed[0].covers[0].failing, r[0].covers[0].failing + 1);
  // No offset mends that, so that it is no matter of the leeway.
  EXPECT_EQ(missed[0].covers[0].leeway, r[0].covers[0].leeway);
}

}  // namespace
}  // namespace leeway
