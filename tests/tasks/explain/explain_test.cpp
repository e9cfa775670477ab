// `explain` on setups made from good ones by a known mistake, and on setups without any.

#include "leeway/explain.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "leeway/bracket.h"
#include "leeway/fit.h"
#include "leeway/validate.h"
#include "model/setups.h"
#include "tasks/explain/explain_remedies.h"
#include "tasks/mistake_cases.h"
#include "tasks/wrong_setups.h"

namespace leeway {
namespace {

constexpr int kMistakes = static_cast<int>(Mistake::width_and_depth_exchanged) + 1;

ExplainResult explained(const leeway::Setup& setup, bool remedies = false) {
  ExplainOptions options;
  options.remedies = remedies;
  return explain(Rig(setup), options);
}

// Six setups of each of the sixteen mistakes. Some mistakes cannot be told apart by the numbers
// alone: a travel stated too large and margins counted from the travel by mistake give the same
// file.
TEST(Explain, FindsTheMistakeThatWasMade) {
  constexpr int kEach = 6;
  int all = 0;
  int first = 0;
  int among_three = 0;
  for (int k = 0; k < kMistakes; ++k) {
    const Mistake mistake = static_cast<Mistake>(k);
    int made = 0;
    for (std::uint64_t seed = 1; made < kEach; ++seed) {
      ASSERT_LT(seed, 500u) << word(mistake);
      const auto setup = mistaken(mistake, seed);
      if (!setup) continue;
      ++made;
      ++all;
      const ExplainResult result = explained(*setup);
      ASSERT_LE(result.mistakes.size(), ExplainResult::kMostMistakes);
      const auto at =
          std::find_if(result.mistakes.begin(), result.mistakes.end(),
                       [&](const MistakeFound& found) { return found.mistake == mistake; });
      EXPECT_NE(at, result.mistakes.end()) << word(mistake) << ", seed " << seed;
      if (at != result.mistakes.end()) ++among_three;
      if (at == result.mistakes.begin() && at != result.mistakes.end()) ++first;
    }
  }
  EXPECT_EQ(all, kMistakes * kEach);
  EXPECT_EQ(among_three, all);
  EXPECT_GE(first * 10, all * 9) << first << " of " << all;
}

// A mesh that asks for too much is no mistake: none may be called likely.
TEST(Explain, ClaimsNothingWhereNoMistakeWasMade) {
  int made = 0;
  int claimed = 0;
  for (std::uint64_t seed = 9001; made < 60; ++seed) {
    auto good = good_setup(seed, false, false, false, seed % 3 == 0);
    if (!good) continue;
    Rolls rolls(seed);
    leeway::Setup& setup = good->setup;
    Box& mesh = std::get<Box>(setup.request.grid->extent);
    const Box bed = bounding_box(setup.machine.bed);
    switch (rolls.below(3)) {
      case 0:
        mesh.x1 = std::min(bed.x1 - 8, mesh.x1 + rolls.of(5, 25, 1));
        break;
      case 1:
        mesh = {bed.x0 + 10, bed.x1 - 10, bed.y0 + 10, bed.y1 - 10};
        break;
      default:
        mesh.x0 = bed.x0 + 5;
        mesh.y0 = bed.y0 + 5;
    }
    if (check(Rig(setup)).verdict == Verdict::reachable) continue;
    ++made;
    const ExplainResult result = explained(setup);
    if (!result.mistakes.empty() && result.mistakes.front().likely) ++claimed;
  }
  EXPECT_LE(claimed, 1) << "of " << made;
}

// What a mistake or a remedy says it remedies, it remedies: by the check itself.
TEST(Explain, EveryClaimHoldsInTheCheck) {
  std::set<Remedy::Parameter> seen;
  std::size_t mistakes = 0;
  for (int k = 0; k < kMistakes; ++k) {
    for (std::uint64_t seed = 1; seed <= 6; ++seed) {
      const auto setup = mistaken(static_cast<Mistake>(k), seed);
      if (!setup) continue;
      const ExplainResult result = explained(*setup, true);
      const std::size_t failing = result.check.counts.marginal + result.check.counts.unreachable;
      std::size_t grouped = 0;
      for (const FailingGroup& group : result.groups) {
        grouped += group.points.size();
        for (const std::size_t i : group.points) {
          EXPECT_EQ(result.check.points[i].finding.limit, group.limit);
        }
      }
      EXPECT_EQ(grouped, failing);
      for (const MistakeFound& found : result.mistakes) {
        ++mistakes;
        const CheckResult after = check(Rig(found.changed));
        EXPECT_EQ(found.of, failing);
        EXPECT_EQ(after.counts.marginal + after.counts.unreachable, found.of - found.fixes)
            << word(found.mistake) << " seed " << seed;
        EXPECT_FALSE(found.changes.empty());
        EXPECT_TRUE(applied(found.changes, *setup) == found.changed);
      }
      for (const Remedy& remedy : result.remedies) {
        seen.insert(remedy.parameter);
        const leeway::Setup changed = applied(remedy.changes, *setup);
        if (remedy.parameter == Remedy::Parameter::offset ||
            remedy.parameter == Remedy::Parameter::travel ||
            remedy.parameter == Remedy::Parameter::edge_distance) {
          EXPECT_EQ(check(Rig(changed)).verdict, Verdict::reachable)
              << word(remedy.parameter) << " mistake " << k << " seed " << seed;
        }
      }
    }
  }
  EXPECT_GT(mistakes, 60u);
  EXPECT_GE(seen.size(), 5u);
}

TEST(Explain, SaysSoWhenNothingIsWrong) {
  leeway::Setup setup = godwit();
  setup.request.grid->extent = Box{14, 190, 60, 190};
  const ExplainResult result = explained(setup, true);
  ASSERT_EQ(result.check.verdict, Verdict::reachable);
  EXPECT_TRUE(result.groups.empty());
  EXPECT_TRUE(result.mistakes.empty());
  EXPECT_TRUE(result.remedies.empty());
  ASSERT_EQ(result.tightest.size(), 3u);
  const auto after_guard = [&](std::size_t i) {
    const Finding& finding = result.check.points[i].finding;
    return finding.leeway - finding.guard;
  };
  EXPECT_LE(after_guard(result.tightest[0]), after_guard(result.tightest[1]));
  EXPECT_LE(after_guard(result.tightest[1]), after_guard(result.tightest[2]));
}

TEST(Explain, GroupsByLimitWorstFirst) {
  const ExplainResult result = explained(godwit());
  ASSERT_EQ(result.groups.size(), 2u);
  const Limits limits(godwit());
  EXPECT_EQ(limits.info(result.groups[0].limit).name, "travel right");
  EXPECT_EQ(result.groups[0].points.size(), 5u);
  EXPECT_EQ(result.groups[0].largest_shortfall, 9.5);
  EXPECT_EQ(limits.info(result.groups[1].limit).name, "fan duct over front clip");
}

// A travel that must go further says by how much on each side, and no more than needed.
TEST(Explain, TravelRemedyIsTheLeast) {
  leeway::Setup setup = bare(Box{0, 200, 0, 200}, Box{0, 200, 0, 200});
  setup.probe.offset = {-30, 0};
  setup.request.grid = Grid{3, 3, Box{10, 190, 10, 190}, Frame::probe, false};
  const ExplainResult result = explained(setup, true);
  const auto at = std::find_if(result.remedies.begin(), result.remedies.end(), [](const Remedy& c) {
    return c.parameter == Remedy::Parameter::travel;
  });
  ASSERT_NE(at, result.remedies.end());
  EXPECT_EQ(at->further.right, 20);
  EXPECT_EQ(at->further.left, 0);
  EXPECT_EQ(at->further.front, 0);
}

// A duct where the offset would like to go: no answer puts the probe into it.
TEST(Explain, NeverPutsTheProbeIntoItsHead) {
  std::size_t offsets = 0;
  for (std::uint64_t seed = 1; seed <= 20; ++seed) {
    leeway::Setup setup = wrong_setup(seed).setup;
    const Point at = setup.probe.offset;
    setup.probe.body = ProbeBody{square(8), 1};
    setup.machine.head = {{"duct", Box{-at.x - 20, -at.x + 20, -25, 25}, 3},
                          {"block", Box{-12, 12, -12, 12}, 2}};
    if (!validate(setup).empty()) continue;
    const auto expect_room = [&](const leeway::Setup& changed, const char* what) {
      if (changed.probe.offset == at) return;
      ++offsets;
      EXPECT_TRUE(check(Rig(changed)).probe_overlaps.empty()) << what << ", seed " << seed;
    };
    const ExplainResult result = explained(setup, true);
    for (const MistakeFound& found : result.mistakes) expect_room(found.changed, "mistake");
    for (const Remedy& remedy : result.remedies) {
      expect_room(applied(remedy.changes, setup), "remedy");
    }
    try {
      for (const FitRemedy& remedy : fit(setup).remedies) {
        if (const auto* move = std::get_if<ProbeOffset>(&remedy.change)) {
          expect_room(applied({*move}, setup), "remedy of fit");
        }
      }
    } catch (const FitRefused&) {
    }
    if (result.check.counts.points == 0) continue;
    const BracketResult window = bracket({&setup, 1});
    leeway::Setup changed = setup;
    if (window.best) {
      changed.probe.offset = window.best->offset;
      expect_room(changed, "best of bracket");
    }
  }
  EXPECT_GT(offsets, 8u);
}

TEST(Explain, SmallestMoveOfTheOffset) {
  leeway::Setup setup = bare(Box{0, 200, 0, 200}, Box{0, 200, 0, 200});
  setup.probe.offset = {-30, 0};
  setup.request.grid = Grid{3, 3, Box{10, 190, 10, 190}, Frame::probe, false};
  // The window is [-10, 10] on both axes: the nearest is -10, 0.
  const auto offset = nearest_offset(Rig(setup), [] {});
  ASSERT_TRUE(offset);
  EXPECT_NEAR(offset->x, -10, 0.101);
  EXPECT_NEAR(offset->y, 0, 1e-9);
}

}  // namespace
}  // namespace leeway
