// `explain` on setups made from good ones by a known mistake, and on setups without any.

#include "leeway/explain.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "fewer.h"
#include "leeway/bracket.h"
#include "leeway/fit.h"
#include "leeway/validate.h"
#include "model/setups.h"
#include "tasks/explain/explain_remedies.h"
#include "tasks/stories/scores.h"
#include "tasks/wrong_setups.h"

namespace leeway {
namespace {

ExplainResult explained(const leeway::Setup& setup, bool remedies = false) {
  ExplainOptions options;
  options.remedies = remedies;
  return explain(Rig(setup), options);
}

// The scores on seeds that nothing is tuned on. Not all stories can be told: those whose numbers
// another mistake accounts for alike count for none (stories/twins.h), but for what is called
// likely.
TEST(Explain, FindsTheMistakeThatWasMade) {
  const Scores scores = scores_of(kJudgingSeeds, 50);
  const KindScore all = in_all(scores);
  EXPECT_GE(all.told, 900);
  EXPECT_GE(100 * all.first, 85 * all.told) << table_of(scores);
  EXPECT_GE(100 * all.shown, 93 * all.told) << table_of(scores);
  EXPECT_GE(100 * all.likely_right, 97 * all.likely) << table_of(scores);
  EXPECT_GE(3 * all.likely, all.stories) << "it dares to say something";
}

// A request that asks for too much is no mistake in the numbers, however far the travel goes.
TEST(Explain, AccusesNoRightNumber) {
  int accused = 0;
  int told = 0;
  const std::vector<Story> stories = stories_of(kTooMuch, kJudgingSeeds, 600);
  ASSERT_EQ(stories.size(), 600u);
  for (const Story& story : stories) {
    const ExplainResult result = explained(story.stated);
    if (!result.mistakes.empty() && result.mistakes.front().likely) ++accused;
    if (result.mistakes.empty() || result.asked_too_much >= result.mistakes.front().probability) {
      ++told;
    }
  }
  EXPECT_LE(accused, 2);
  EXPECT_GE(told, 540);
}

// The probe in front or behind, y counted from the front or from the back: on a machine that is as
// long in front as behind, the numbers are the same. So neither is likely.
TEST(Explain, WhatTheNumbersCannotTellIsNotLikely) {
  leeway::Setup setup = bare(Box{0, 220, 0, 200}, Box{-4, 224, -4, 204});
  setup.probe.offset = {-2, 40};
  setup.request.grid = Grid{5, 5, Box{10, 210, 10, 160}, Frame::probe, false};
  ASSERT_TRUE(fails(setup));
  const ExplainResult result = explained(setup);
  std::set<Mistake> shown;
  for (const MistakeFound& found : result.mistakes) {
    shown.insert(found.mistake);
    EXPECT_FALSE(found.likely) << word(found.mistake);
  }
  EXPECT_TRUE(shown.count(Mistake::sign_of_y));
  EXPECT_TRUE(shown.count(Mistake::counted_from_back));
}

// Probabilities of what excludes one another.
TEST(Explain, ProbabilitiesAddUpToNoMoreThanOne) {
  for (const std::string& kind : story_kinds()) {
    for (const Story& story : stories_of(kind, 1, 2)) {
      const ExplainResult result = explained(story.stated);
      double sum = result.asked_too_much;
      for (const MistakeFound& found : result.mistakes) {
        sum += found.probability;
        EXPECT_GT(found.probability, 0);
        EXPECT_TRUE(!found.likely || found.probability >= MistakeFound::kLikely);
      }
      EXPECT_LE(sum, 1 + 1e-9) << kind;
    }
  }
}

// What a mistake or a remedy says it remedies, it remedies: by the check itself.
TEST(Explain, EveryClaimHoldsInTheCheck) {
  std::set<Remedy::Parameter> seen;
  std::size_t mistakes = 0;
  for (const std::string& kind : story_kinds()) {
    for (const Story& story : stories_of(kind, 1, 4)) {
      const leeway::Setup& setup = story.stated;
      const ExplainResult result = explained(setup, true);
      const std::size_t failing = result.check.counts.marginal + result.check.counts.unreachable;
      if (failing == 0) continue;
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
        const std::size_t before = result.check.counts.skipped;
        const std::size_t left_out =
            after.counts.skipped > before ? after.counts.skipped - before : 0;
        EXPECT_EQ(found.of, failing);
        EXPECT_EQ(after.counts.marginal + after.counts.unreachable + left_out,
                  found.of - found.fixes + found.breaks)
            << kind << ", " << word(found.mistake);
        EXPECT_FALSE(found.changes.empty());
        EXPECT_TRUE(applied(found.changes, setup) == found.changed);
      }
      for (const Remedy& remedy : result.remedies) {
        seen.insert(remedy.parameter);
        const leeway::Setup changed = applied(remedy.changes, setup);
        if (remedy.still_failing == 0) {
          EXPECT_EQ(check(Rig(changed)).verdict, Verdict::reachable)
              << word(remedy.parameter) << ", " << kind;
        }
      }
    }
  }
  EXPECT_GT(mistakes, 100u);
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
  setup.probe.offset = {-24, 0};
  setup.request.grid = Grid{3, 3, Box{10, 190, 10, 190}, Frame::probe, false};
  const ExplainResult result = explained(setup, true);
  const auto at = std::find_if(result.remedies.begin(), result.remedies.end(), [](const Remedy& c) {
    return c.parameter == Remedy::Parameter::travel;
  });
  ASSERT_NE(at, result.remedies.end());
  EXPECT_EQ(at->further.right, 14);
  EXPECT_EQ(at->further.left, 0);
  EXPECT_EQ(at->further.front, 0);
}

// A duct where the offset would like to go: no answer puts the probe into it.
TEST(Explain, NeverPutsTheProbeIntoItsHead) {
  std::size_t offsets = 0;
  for (std::uint64_t seed = 1; seed <= fewer(20u); ++seed) {
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
  EXPECT_GT(offsets, fewer(8u));
}

// The least change comes first, and is one number.
TEST(Explain, OneSideIsTheSmallestRemedy) {
  leeway::Setup setup = bare(Box{0, 200, 0, 200}, Box{0, 200, 0, 200});
  setup.probe.offset = {-30, 0};
  setup.request.grid = Grid{3, 3, Margins{10, 10, 10, 10, Margins::From::bed}, Frame::probe, false};
  const ExplainResult result = explained(setup, true);
  ASSERT_FALSE(result.remedies.empty());
  const Remedy& first = result.remedies.front();
  ASSERT_EQ(first.parameter, Remedy::Parameter::one_side);
  const Grid changed = *applied(first.changes, setup).request.grid;
  EXPECT_EQ(std::get<Margins>(changed.extent).right, 30);
  EXPECT_EQ(std::get<Margins>(changed.extent).left, 10);
}

// All points pass by these numbers, and the controller refuses those at the right: its offset has
// the other sign.
TEST(Explain, WhatAControllerRefusesTellsOfItsNumbers) {
  leeway::Setup setup = bare(Box{0, 200, 0, 200}, Box{0, 240, 0, 200});
  setup.probe.offset = {-40, 0};
  setup.request.grid = Grid{3, 3, Box{10, 190, 10, 190}, Frame::probe, false};
  ExplainOptions options;
  options.remedies = false;
  ASSERT_TRUE(explain(Rig(setup), options).mistakes.empty());
  const auto place = [](int column, int row, bool accepted) {
    Observed observed;
    observed.column = column;
    observed.row = row;
    observed.accepted = accepted;
    return observed;
  };
  options.observed = {place(1, 1, false), place(1, 3, false), place(3, 2, true)};
  const ExplainResult result = explain(Rig(setup), options);
  ASSERT_FALSE(result.mistakes.empty());
  EXPECT_EQ(result.mistakes.front().mistake, Mistake::sign_of_x);
  EXPECT_TRUE(result.mistakes.front().of_observed);
  options.observed = {place(1, 1, true), place(3, 2, true)};
  EXPECT_TRUE(explain(Rig(setup), options).mistakes.empty());
}

// The answer to the question that is asked tells the rivals apart.
TEST(Explain, AnAnswerDecides) {
  leeway::Setup setup = bare(Box{0, 233, 0, 207}, Box{-5, 239, -2, 211});
  setup.probe.offset = {38.5, 12};
  setup.request.grid = Grid{5, 5, Margins{5, 35, 10, 5, Margins::From::bed}, Frame::probe, false};
  ExplainOptions options;
  options.remedies = false;
  const ExplainResult before = explain(Rig(setup), options);
  ASSERT_TRUE(before.question);
  EXPECT_EQ(before.question->kind, QuestionKind::probe_sideways);
  options.answers = {Answer::probe_left};
  const ExplainResult left = explain(Rig(setup), options);
  EXPECT_EQ(left.mistakes.front().mistake, Mistake::sign_of_x);
  EXPECT_GT(left.mistakes.front().probability, before.mistakes.front().probability);
  options.answers = {Answer::probe_right};
  const ExplainResult right = explain(Rig(setup), options);
  EXPECT_EQ(right.mistakes.front().mistake, Mistake::margins_exchanged);
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
