#include "tasks/stories/stories.h"

#include <gtest/gtest.h>

#include "tasks/stories/true_machine.h"

namespace leeway {
namespace {

TEST(Stories, AreOfEveryKind) {
  for (const std::string& kind : story_kinds()) {
    const std::vector<Story> stories = stories_of(kind, 1, 3);
    EXPECT_EQ(stories.size(), 3u) << kind;
    for (const Story& story : stories) {
      EXPECT_TRUE(fails(story.stated)) << kind;
      EXPECT_EQ(fails(story.truth), kind == kTooMuch) << kind;
      EXPECT_EQ(story.stated == story.truth, kind == kTooMuch) << kind;
    }
  }
}

TEST(Stories, PlayOnMachinesOfEveryProportion) {
  int large = 0;
  int small = 0;
  int round = 0;
  int far = 0;
  for (std::uint64_t seed = 1; seed <= 400; ++seed) {
    Rolls rolls(seed);
    const leeway::Setup setup = true_machine(rolls);
    const Box bed = bounding_box(setup.machine.bed);
    const Box travel = bounding_box(setup.machine.travel);
    EXPECT_GE(std::min(bed.width(), bed.depth()), 99);
    EXPECT_LE(std::max(bed.width(), bed.depth()), 1000);
    large += bed.width() > 500;
    small += bed.width() < 150;
    round += std::holds_alternative<Disc>(setup.machine.bed);
    far += travel.x1 - bed.x1 > 40 || bed.x0 - travel.x0 > 40;
  }
  for (const int n : {large, small, round, far}) EXPECT_GE(n, 10);
}

}  // namespace
}  // namespace leeway
