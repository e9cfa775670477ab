// What was seen at the machine and what its controller did, in `explain`.

#include <gtest/gtest.h>

#include <algorithm>

#include "leeway/explain.h"
#include "model/setups.h"
#include "tasks/stories/stories.h"

namespace leeway {
namespace {

ExplainResult explained_after(const leeway::Setup& setup, std::vector<Answer> answers) {
  ExplainOptions options;
  options.remedies = false;
  options.answers = std::move(answers);
  return explain(Rig(setup), options);
}

// What is said first: a mistake, or nothing where it is that too much is asked for.
std::pair<std::optional<Mistake>, double> best_of(const ExplainResult& result) {
  if (result.mistakes.empty()) return {std::nullopt, result.asked_too_much};
  const MistakeFound& first = result.mistakes.front();
  if (result.asked_too_much >= first.probability) return {std::nullopt, result.asked_too_much};
  return {first.mistake, first.probability};
}

// What an answer is said to mean is what is said when it is given, to the last digit.
TEST(ExplainEvidence, WhatAnAnswerPromisesComesTrue) {
  std::size_t promises = 0;
  for (const std::string& kind : story_kinds()) {
    for (const Story& story : stories_of(kind, 1, 4)) {
      const ExplainResult now = explained_after(story.stated, {});
      if (!now.question) continue;
      ASSERT_EQ(now.question->answers.size(), 2u);
      for (const PossibleAnswer& promised : now.question->answers) {
        ++promises;
        const auto best = best_of(explained_after(story.stated, {promised.answer}));
        EXPECT_EQ(best.first, promised.mistake) << kind << ", " << word(promised.answer);
        EXPECT_EQ(best.second, promised.probability) << kind << ", " << word(promised.answer);
      }
    }
  }
  EXPECT_GT(promises, 60u);
}

// Likely is what accounts for all that fails, and breaks nothing.
TEST(ExplainEvidence, LikelyAccountsForAll) {
  std::size_t likely = 0;
  for (const std::string& kind : story_kinds()) {
    for (const Story& story : stories_of(kind, 1, 4)) {
      for (const MistakeFound& found : explained_after(story.stated, {}).mistakes) {
        if (!found.likely) continue;
        ++likely;
        EXPECT_EQ(found.fixes, found.of) << kind;
        EXPECT_EQ(found.breaks, 0u) << kind;
      }
    }
  }
  EXPECT_GT(likely, 20u);
}

leeway::Setup all_well_on_the_left() {
  leeway::Setup setup = bare(Box{0, 200, 0, 200}, Box{0, 240, 0, 200});
  setup.probe.offset = {-40, 0};
  setup.request.grid = Grid{3, 3, Box{10, 190, 10, 190}, Frame::probe, false};
  return setup;
}

// Nothing fails, and somebody saw the probe on the other side: that wants an explanation.
TEST(ExplainEvidence, AnAnswerAgainstTheSetupIsToldWhereNothingFails) {
  const leeway::Setup setup = all_well_on_the_left();
  EXPECT_TRUE(explained_after(setup, {Answer::probe_left}).contradicted.empty());
  EXPECT_TRUE(explained_after(setup, {Answer::probe_left}).mistakes.empty());
  const ExplainResult result = explained_after(setup, {Answer::probe_right});
  ASSERT_EQ(result.contradicted.size(), 1u);
  EXPECT_EQ(result.contradicted[0].seen, Answer::probe_right);
  EXPECT_EQ(result.contradicted[0].stated, Answer::probe_left);
  ASSERT_FALSE(result.mistakes.empty());
  EXPECT_GT(result.mistakes.front().changed.probe.offset.x, 0);
}

// Too much is asked for, and somebody saw the probe on the other side: that it stands there is as
// good an explanation, though it remedies nothing.
TEST(ExplainEvidence, AnAnswerAgainstTheSetupWeighsWhereItRemediesNothing) {
  leeway::Setup setup = all_well_on_the_left();
  setup.machine.travel = Box{0, 190, 0, 200};
  const ExplainResult before = explained_after(setup, {});
  ASSERT_GE(before.asked_too_much, MistakeFound::kLikely);
  const ExplainResult after = explained_after(setup, {Answer::probe_right});
  EXPECT_EQ(after.contradicted.size(), 1u);
  EXPECT_LT(after.asked_too_much, MistakeFound::kLikely);
  EXPECT_TRUE(std::any_of(after.mistakes.begin(), after.mistakes.end(),
                          [](auto& found) { return found.changed.probe.offset.x > 0; }));
}

TEST(ExplainEvidence, WhatIsSaidTwiceCountsOnce) {
  const leeway::Setup setup = stories_of("sign of x", 1, 1)[0].stated;
  const ExplainResult once = explained_after(setup, {Answer::probe_left});
  const ExplainResult twice = explained_after(setup, {Answer::probe_left, Answer::probe_left});
  EXPECT_EQ(once.asked_too_much, twice.asked_too_much);
}

TEST(ExplainEvidence, ContradictionsAreFound) {
  EXPECT_FALSE(contradicting({Answer::probe_left, Answer::probe_front, Answer::probe_left}));
  const auto answers = contradicting(
      {Answer::numbers_for_nozzle, Answer::zero_at_corner, Answer::numbers_for_probe});
  ASSERT_TRUE(answers);
  EXPECT_EQ(answers->first, Answer::numbers_for_probe);
  EXPECT_EQ(answers->second, Answer::numbers_for_nozzle);
  const leeway::Setup setup = all_well_on_the_left();
  Observed corner;
  corner.column = corner.row = 1;
  Observed same_place;
  same_place.at = {10, 10};
  Observed another = corner;
  another.column = 2;
  another.accepted = true;
  EXPECT_FALSE(contradicting({corner, same_place, another}, setup));
  same_place.accepted = true;
  const auto observed = contradicting({another, corner, same_place}, setup);
  ASSERT_TRUE(observed);
  EXPECT_EQ(observed->first, 1u);
  EXPECT_EQ(observed->second, 2u);
}

// A few points of somebody's own need not reach from edge to edge: that one lies too far out is no
// riddle.
TEST(ExplainEvidence, OfTwoPointsOneIsTooFar) {
  leeway::Setup setup = bare(Box{0, 200, 0, 200}, Box{0, 200, 0, 200});
  setup.probe.offset = {-30, 0};
  setup.request.points = {{"screw", {190, 50}, Frame::probe}, {"middle", {100, 50}, Frame::probe}};
  const ExplainResult result = explained_after(setup, {});
  EXPECT_GE(best_of(result).second, 0.4);
  EXPECT_FALSE(best_of(result).first);
}

}  // namespace
}  // namespace leeway
