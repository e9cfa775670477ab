#include "tasks/bracket/most_reached.h"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "leeway/bracket.h"
#include "leeway/candidates.h"
#include "model/setups.h"

namespace leeway {
namespace {

BracketResult result_of(const Setup& setup) { return bracket(std::span(&setup, 1)); }

// Numbers that are the same with every C++ library.
class Dice {
 public:
  explicit Dice(std::uint64_t seed) : engine_(seed) {}
  int whole(int from, int to) {
    return from + static_cast<int>(engine_() % static_cast<std::uint64_t>(to - from + 1));
  }
  double tenths(int from, int to) { return whole(10 * from, 10 * to) / 10.0; }

 private:
  std::mt19937_64 engine_;
};

Shape random_travel(Dice& dice) {
  const double w = dice.tenths(40, 120);
  const double d = dice.tenths(40, 120);
  switch (dice.whole(0, 2)) {
    case 0:
      return Box{0, w, 0, d};
    case 1:
      return Disc{{w / 2, d / 2}, w / 2};
    default:  // with a notch
      return polygon(
          {{0, 0}, {w, 0}, {w, d}, {0.6 * w, d}, {0.5 * w, 0.5 * d}, {0.4 * w, d}, {0, d}});
  }
}

// More is asked for than the travel has room for.
Setup random_asking(std::uint64_t seed) {
  Dice dice(seed);
  leeway::Setup setup = bare(Box{-20, 180, -20, 180}, random_travel(dice));
  for (int i = dice.whole(0, 3); i > 0; --i) {
    const Point at{dice.tenths(0, 100), dice.tenths(0, 100)};
    setup.machine.obstacles.push_back({"post " + std::to_string(i),
                                       Box{at.x, at.x + dice.tenths(2, 20), at.y, at.y + 8}, 50,
                                       dice.tenths(0, 2)});
  }
  if (dice.whole(0, 1)) setup.machine.head = {{"duct", Box{5, 20, -12, 10}, 3}};
  if (dice.whole(0, 1)) setup.machine.travel_uncertainty = 0.2;
  if (dice.whole(0, 1)) setup.mount.envelope = Box{-40, 30, -30, 45};
  if (dice.whole(0, 1)) {
    setup.request.grid = Grid{dice.whole(2, 4), dice.whole(2, 4), Box{0, 150, 0, 140}};
  }
  for (int i = dice.whole(3, 8); i > 0; --i) {
    setup.request.points.push_back(
        {"p" + std::to_string(i), {dice.tenths(0, 150), dice.tenths(0, 150)}, Frame::probe});
  }
  return setup;
}

std::size_t reached_by(const BracketProblem& problem, Point offset) {
  if (problem.slack_of_mounts(offset) < 0) return 0;
  return problem.within_reach().size() - problem.missed(offset).size();
}

// Against plain search over a lattice of offsets with the verdicts of `check`.
TEST(MostReached, NoOffsetOfALatticeReachesMore) {
  int looked = 0;
  int exact = 0;
  for (std::uint64_t seed = 1; seed <= 120; ++seed) {
    const leeway::Setup setup = random_asking(seed);
    const BracketProblem problem({&setup, 1});
    const std::optional<MostReached> most = most_reached(problem, {});
    std::size_t best = 0;
    for (double x = -60; x <= 160; x += 2.3) {
      for (double y = -60; y <= 160; y += 2.3) best = std::max(best, reached_by(problem, {x, y}));
    }
    ASSERT_TRUE(most || best == 0) << seed;
    if (!most) continue;
    ++looked;
    const std::size_t reached = problem.within_reach().size() - most->missed.size();
    EXPECT_EQ(reached, reached_by(problem, most->offset)) << seed;
    EXPECT_GE(most->leeway, 0) << seed;
    EXPECT_LE(best, reached) << seed;
    EXPECT_LE(reached, most->at_most) << seed;
    exact += reached == most->at_most;
    // As printed, and around: no finer look nearby does better.
    for (double dx = -1; dx <= 1; dx += 0.125) {
      for (double dy = -1; dy <= 1; dy += 0.125) {
        EXPECT_LE(reached_by(problem, most->offset + Point{dx, dy}), most->at_most) << seed;
      }
    }
  }
  EXPECT_GE(looked, 100);
  EXPECT_EQ(exact, looked);
}

// A grid of 3 columns at 20, 100 and 180 under a travel of 100: two of them at most, with the
// offset from 0 (180 - 180..., worked by hand) in the middle of 40 that are left.
TEST(MostReached, OfThreeColumnsTwo) {
  leeway::Setup setup = bare(Box{0, 200, 0, 200}, Box{0, 100, 0, 200});
  setup.request.grid = Grid{3, 3, Box{20, 180, 30, 170}, Frame::probe, false};
  const BracketResult r = result_of(setup);
  ASSERT_TRUE(r.window.empty && r.most);
  EXPECT_EQ(r.most->reached, 6u);
  EXPECT_EQ(r.most->at_most, 6u);
  ASSERT_EQ(r.most->missed.size(), 3u);
  // 20 and 100 want x in 0..20, 100 and 180 in 80..100.
  EXPECT_NEAR(r.most->leeway, 10, 0.06);
  const double left = std::min(std::abs(r.most->offset.x - 10), std::abs(r.most->offset.x - 90));
  EXPECT_LE(left, 0.06);
}

// Two columns are exactly as far apart as the travel is wide: one offset in x alone reaches both.
TEST(MostReached, WindowsMayOnlyTouch) {
  leeway::Setup setup = bare(Box{0, 300, 0, 100}, Box{0.3, 100.3, 0, 100});
  setup.request.grid = Grid{3, 1, Box{20, 220, 50, 50}, Frame::probe, false};
  const BracketResult r = result_of(setup);
  ASSERT_TRUE(r.most);
  EXPECT_EQ(r.most->reached, 2u);
  EXPECT_EQ(r.most->at_most, 2u);
  EXPECT_EQ(r.most->leeway, 0);
}

TEST(MostReached, AllWherePolygonsAreTooCoarse) {
  // Two discs that meet in one point.
  leeway::Setup setup = bare(Disc{{0, 0}, 200}, Disc{{0, 0}, 50});
  setup.request.points = {{"a", {-50, 0}, Frame::probe}, {"b", {50, 0}, Frame::probe}};
  const BracketResult r = result_of(setup);
  ASSERT_FALSE(r.window.empty);
  EXPECT_EQ(r.best->offset, (Point{0, 0}));
  EXPECT_TRUE(r.conflict.empty());
  EXPECT_FALSE(r.most);
}

TEST(MostReached, NothingWhereTheMountLeavesNoPlace) {
  leeway::Setup setup = bare(Box{0, 200, 0, 200}, Box{0, 200, 0, 200});
  setup.mount.envelope = Box{10, 50, -20, 20};
  setup.machine.head = {{"duct", Box{0, 60, -30, 30}, 3}};
  setup.request.points = {{"a", {100, 100}, Frame::probe}};
  EXPECT_FALSE(result_of(setup).most);
}

// One that no offset serves counts for no candidate's leeway, but among the points it misses.
TEST(MostReached, CandidatesAreHeldAgainstIt) {
  leeway::Setup setup = bare(Box{0, 200, 0, 200}, Box{0, 100, 0, 200});
  setup.request.grid = Grid{3, 3, Box{20, 180, 30, 170}, Frame::probe, false};
  setup.request.points = {{"off the bed", {-5, 20}, Frame::probe}};
  const auto ranked = rank_candidates(std::span(&setup, 1), {{"first", {10, 0}}, {"far", {60, 0}}});
  EXPECT_EQ(ranked[0].candidate.name, "first");
  EXPECT_EQ(ranked[0].covers[0].failing, 4u);
  EXPECT_EQ(ranked[0].most, 6u);
  EXPECT_EQ(ranked[0].at_most, 6u);
  EXPECT_EQ(*ranked[0].covers[0].leeway, -70);
  setup.request.grid->extent = Box{20, 100, 30, 170};
  const auto served = rank_candidates(std::span(&setup, 1), {{"first", {10, 0}}});
  EXPECT_EQ(served[0].covers[0].failing, 1u);
  EXPECT_EQ(*served[0].covers[0].leeway, 10);
}

// A probe with a larger spot needs more of the bed, and has candidates of its own.
TEST(Candidates, BringTheirOwnProbe) {
  leeway::Setup setup = bare(Box{0, 200, 0, 200}, Box{-50, 250, -50, 250});
  setup.request.grid = Grid{3, 3, Box{5, 195, 5, 195}, Frame::probe, false};
  Probe wide;
  wide.name = "wide";
  wide.spot = Box{-12, 12, -12, 12};
  const auto ranked = rank_candidates(std::span(&setup, 1), {{"a", {10, 0}}, {"a", {10, 0}, wide}});
  EXPECT_FALSE(ranked[0].candidate.probe);
  EXPECT_EQ(ranked[0].covers[0].failing, 0u);
  EXPECT_EQ(ranked[1].covers[0].failing, 8u);
  EXPECT_EQ(ranked[1].most, 1u);
  const std::vector<Candidate> table{{"a", {10, 0}}, {"b", {20, 0}, Probe{}}};
  const auto with = with_probes(std::span(&setup, 1), table, {wide, Probe{}});
  ASSERT_EQ(with.size(), 3u);
  EXPECT_EQ(with[0].probe, wide);
  EXPECT_EQ(with[2].name, "b");
  // Without a table each stands at its own best offset.
  const auto best = with_probes(std::span(&setup, 1), {}, {Probe{}, wide});
  ASSERT_EQ(best.size(), 2u);
  EXPECT_EQ(best[0].offset, (Point{0, 0}));
  EXPECT_EQ(best[1].name, "wide");
}

}  // namespace
}  // namespace leeway
