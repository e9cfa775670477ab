// `fit` and `explain` end with setups full of wrong numbers: held by counted work, not by a clock.

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "fewer.h"
#include "leeway/check.h"
#include "leeway/explain.h"
#include "leeway/fit.h"
#include "model/setups.h"
#include "tasks/wrong_setups.h"

namespace leeway {
namespace {

// Pieces of work: see FitOptions::progress.
constexpr long kMostWork = 5'000'000;

struct Counted {
  long work = 0;
  Progress hook() {
    return [this](double) { return ++work <= kMostWork; };
  }
};

FitResult counted_fit(const leeway::Setup& setup, FitOptions options, Counted& counted) {
  options.progress = counted.hook();
  return fit(setup, options);
}

long work_of_explain(const leeway::Setup& setup) {
  Counted counted;
  ExplainOptions options;
  options.progress = counted.hook();
  explain(Rig(setup), options);
  return counted.work;
}

// Many setups, in ten tests.
class FitEndsWith : public testing::TestWithParam<std::uint64_t> {
 protected:
  static constexpr std::uint64_t kSetups = fewer(100u);
  std::uint64_t first() const { return 1 + GetParam() * kSetups; }
  std::uint64_t last() const { return first() + kSetups - 1; }
};

TEST_P(FitEndsWith, WrongSetups) {
  long all = 0;
  std::size_t nothing = 0;
  for (std::uint64_t seed = first(); seed <= last(); ++seed) {
    const WrongSetup wrong = wrong_setup(seed);
    Counted counted;
    try {
      nothing += !counted_fit(wrong.setup, wrong.options, counted).mesh;
    } catch (const FitRefused&) {
    } catch (const Stopped&) {
      ADD_FAILURE() << "seed " << seed << ": more than " << kMostWork << " pieces of work";
    }
    all += counted.work;
  }
  EXPECT_GT(nothing, fewer(15u));
  EXPECT_LT(all, 2 * kMostWork);
}

TEST_P(FitEndsWith, ExplainWithWrongSetups) {
  for (std::uint64_t seed = first(); seed <= last(); ++seed) {
    const leeway::Setup setup = wrong_setup(seed).setup;
    try {
      work_of_explain(setup);
    } catch (const FitRefused&) {
    } catch (const Stopped&) {
      ADD_FAILURE() << "seed " << seed << ": more than " << kMostWork << " pieces of work";
    }
  }
}

INSTANTIATE_TEST_SUITE_P(, FitEndsWith, testing::Range<std::uint64_t>(0, 10));

leeway::Setup asked(leeway::Setup setup, Point offset, int columns, int rows) {
  setup.probe.offset = offset;
  setup.request.grid =
      Grid{columns, rows, Margins{10, 10, 10, 10, Margins::From::bed}, Frame::probe, false};
  return setup;
}

// Nothing that the probe reaches can be printed on.
std::vector<leeway::Setup> covering_nothing() {
  leeway::Setup clip =
      bare(Box{0, 300, 0, 300}, polygon({{0, 0}, {100, 0}, {100, 280}, {60, 300}, {0, 300}}));
  clip.machine.obstacles = {{"clip", Disc{{200, 150}, 5}, kUnlimitedHeight, 0}};
  return {asked(bare(Disc{{0, 0}, 150}, Disc{{-40, 0}, 45}), {100, 0}, 5, 5),
          asked(bare(Box{0, 200, -200, 0}, polygon({{40, 0}, {0, 0}, {0, -200}})), {100, 0}, 2, 10),
          asked(clip, {120, 0}, 5, 5)};
}

TEST(FitEnds, SaysAtOnceThatNoMeshCoversAnything) {
  for (const leeway::Setup& setup : covering_nothing()) {
    Counted counted;
    FitOptions options;
    options.remedies = false;
    const FitResult result = counted_fit(setup, options, counted);
    EXPECT_FALSE(result.mesh);
    ASSERT_TRUE(result.limiting);
    EXPECT_TRUE(result.limiting->covers_nothing);
    EXPECT_FALSE(result.limiting->why_unprintable);
    EXPECT_NE(result.limiting->place.finding.verdict, Verdict::reachable);
    EXPECT_LT(counted.work, 50);
    EXPECT_LT(work_of_explain(setup), 3000);
  }
}

TEST(FitEnds, SaysAtOnceThatNothingIsReachable) {
  leeway::Setup setup = asked(bare(Box{0, 200, 0, 200}, Box{0, 200, 0, 200}), {-30, 0}, 5, 5);
  setup.probe.spot = Disc{{0, 0}, 120};
  Counted counted;
  const FitResult result = counted_fit(setup, {}, counted);
  ASSERT_TRUE(result.limiting);
  EXPECT_TRUE(result.limiting->why_empty);
  EXPECT_LT(counted.work, 50);
  EXPECT_LT(work_of_explain(setup), 3000);
}

TEST(FitEnds, SaysWhyNothingCanBePrinted) {
  leeway::Setup setup = asked(bare(Box{0, 200, 0, 200}, Box{0, 200, 0, 200}), {-30, 0}, 5, 5);
  setup.machine.print_inset = 150;
  Counted counted;
  const FitResult result = counted_fit(setup, {}, counted);
  ASSERT_TRUE(result.limiting);
  EXPECT_TRUE(result.limiting->covers_nothing);
  EXPECT_TRUE(result.limiting->why_unprintable);
  EXPECT_LT(counted.work, 50);
}

// All that can be printed lies well within what the probe reaches, so that very many meshes cover
// all of it. The best keeps farthest from the rim.
TEST(FitEnds, DecidesTiesByTheirBounds) {
  leeway::Setup setup = asked(bare(Box{-150, 150, -150, 150}, Disc{{0, 0}, 140}), {0, 0}, 5, 5);
  setup.machine.print_inset = 100;
  Counted counted;
  const FitResult result = counted_fit(setup, {}, counted);
  ASSERT_TRUE(result.mesh);
  EXPECT_EQ(result.mesh->bounds, (Box{-50, 50, -50, 50}));
  EXPECT_NEAR(result.mesh->least_leeway, 140 - 50 * std::sqrt(2.0), 1e-6);
  EXPECT_LT(counted.work, 20'000);
}

// Most meshes have points in reach and moves that leave the travel on the way.
TEST(FitEnds, SeesAtOnceWhatTheTravelCutsOff) {
  const Ring around{{3, 11}, {224, 11}, {224, 245}, {3, 245}};
  const Ring notch{{47, 55}, {180, 55}, {180, 201}, {47, 201}};
  for (const MultiPolygon& travel :
       {MultiPolygon{{{{9, -33}, {157, 74}, {86, 228}}, {}},
                     {{{198, -33}, {246, 74}, {210, 228}, {166, 132}}, {}}},
        MultiPolygon{{around, {notch}}}}) {
    leeway::Setup setup = asked(bare(Box{0, 260, 0, 228}, travel), {0, 0}, 2, 5);
    setup.probe.travel_height = 0;
    Counted counted;
    FitOptions options;
    options.step = 1;
    options.remedies = false;
    const FitResult result = counted_fit(setup, options, counted);
    ASSERT_TRUE(result.mesh);
    const CheckResult checked = check(Rig(with_mesh(setup, *result.mesh)));
    EXPECT_EQ(checked.moves.blocked.size(), 0u);
    EXPECT_LT(counted.work, 100'000);
  }
}

// A wall that no move passes. Where points off a round bed are left out, no region says so.
TEST(FitEnds, GivesUpWhereEveryMoveIsBlocked) {
  for (const bool skip : {false, true}) {
    leeway::Setup setup = asked(bare(Disc{{0, 0}, 100}, square(150)), {0, 0}, 4, 4);
    setup.machine.obstacles = {{"wall", Box{-1, 1, -100, 100}, 6, 0}};
    setup.probe.travel_height = 3;
    setup.request.grid->skip_outside_bed = skip;
    Counted counted;
    FitOptions options;
    options.remedies = false;
    options.sides.left = -60;
    options.sides.right = 60;
    const FitResult result = counted_fit(setup, options, counted);
    ASSERT_TRUE(result.mesh);
    EXPECT_FALSE(result.checked.moves.clear());
    EXPECT_FALSE(result.higher);
    EXPECT_EQ(result.gave_up_on_moves, skip);
    EXPECT_LT(counted.work, 200'000);
  }
}

}  // namespace
}  // namespace leeway
