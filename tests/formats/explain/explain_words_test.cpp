// What `explain` says, on stories: nothing that contradicts itself, and no more than is read.

#include <gtest/gtest.h>

#include <sstream>

#include "formats/check_cases.h"
#include "formats/explain/confirm_view.h"
#include "formats/explain/mistake_view.h"
#include "leeway/write_explain.h"
#include "model/setups.h"
#include "tasks/stories/stories.h"

namespace leeway {
namespace {

template <typename Visit>
void for_each_story(std::size_t each, bool remedies, const Visit& visit) {
  ExplainOptions options;
  options.remedies = remedies;
  for (const std::string& kind : story_kinds()) {
    for (const Story& story : stories_of(kind, 1, each)) {
      const Rig rig(story.stated);
      visit(explain(rig, options), rig);
    }
  }
}

// A check that would be seen alike whether the guess is right or wrong tells nothing.
TEST(ExplainWords, WhatConfirmsDoesNotRefute) {
  std::size_t told = 0;
  for_each_story(8, false, [&](const ExplainResult& result, const Rig& rig) {
    for (const MistakeFound& mistake : result.mistakes) {
      const Confirmation seen = confirmation_of(mistake, rig.setup());
      EXPECT_EQ(seen.confirms.empty(), seen.refutes.empty()) << word(mistake.mistake);
      const std::string says = confirm_sentence(mistake, rig.setup());
      EXPECT_TRUE(says.back() == '.' || says.back() == '?') << says;
      if (seen.confirms.empty()) continue;
      ++told;
      EXPECT_NE(seen.confirms, seen.refutes) << word(mistake.mistake);
    }
  });
  EXPECT_GT(told, 100u);
}

// A bed as wide as deep, turned, has the size that it had: where it lies tells.
TEST(ExplainWords, ASquareBedIsNotToldByItsSize) {
  leeway::Setup setup = bare(Box{0, 186, 20, 206}, Box{0, 230, 0, 206});
  MistakeFound mistake;
  mistake.mistake = Mistake::width_and_depth_exchanged;
  mistake.changes = {BedShape{Box{20, 206, 0, 186}}};
  mistake.changed = applied(mistake.changes, setup);
  Confirmation seen = confirmation_of(mistake, setup);
  EXPECT_EQ(seen.confirms, "near 20, 0");
  EXPECT_EQ(seen.refutes, "near 0, 20");
  // With the travel turned as well, that is seen by its size.
  mistake.changes.push_back(TravelShape{Box{0, 206, 0, 230}});
  mistake.changed = applied(mistake.changes, setup);
  seen = confirmation_of(mistake, setup);
  EXPECT_EQ(seen.confirms, "x 0 to 206 and y 0 to 230");
  EXPECT_EQ(seen.refutes, "x 0 to 230 and y 0 to 206");
}

TEST(ExplainWords, SaysWhatAMistakeWouldBreak) {
  leeway::Setup setup = bare(Box{0, 200, 0, 200}, Box{0, 200, 0, 200});
  MistakeFound mistake;
  mistake.mistake = Mistake::sign_of_x;
  mistake.changes = {ProbeOffset{{1, 0}}};
  mistake.changed = applied(mistake.changes, setup);
  mistake.fixes = 4;
  mistake.of = 5;
  mistake.breaks = 1;
  EXPECT_TRUE(holds(mistake_sentence(mistake, setup),
                    "4 of the 5 points that fail would be reachable, but 1 that is reachable now "
                    "would not be."));
}

// Words of a post, without its arithmetic.
std::size_t words_of_post(const std::string& post) {
  std::size_t count = 0;
  for (std::string line : lines_of(post)) {
    line = line.substr(0, line.find(" For example "));
    std::istringstream stream(line);
    for (std::string one; stream >> one;) ++count;
  }
  return count;
}

TEST(ExplainWords, APostIsShortAndNeedsNothingOfOurs) {
  for_each_story(2, true, [&](const ExplainResult& result, const Rig& rig) {
    std::string post;
    write_explain_markdown(result, rig, [&](std::string_view text) { post += text; });
    EXPECT_LE(words_of_post(post), 180u) << post;
    for (const char* ours : {"leeway explain", "--", "`"}) EXPECT_FALSE(holds(post, ours)) << post;
    EXPECT_TRUE(holds(post, "power switch")) << post;
    EXPECT_TRUE(result.groups.empty() || holds(post, " For example ")) << post;
  });
}

}  // namespace
}  // namespace leeway
