// What `explain` says, on stories: nothing that contradicts itself, and no more than is read.

#include <gtest/gtest.h>

#include <nlohmann/json.hpp>
#include <sstream>

#include "formats/check_cases.h"
#include "formats/explain/confirm_view.h"
#include "formats/explain/mistake_view.h"
#include "formats/explain/since_view.h"
#include "formats/json/setup_value.h"
#include "formats/text/change_text.h"
#include "formats/text/numbers.h"
#include "leeway/read_setup.h"
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
                    "would not be; the rest has another cause."));
}

std::string line_of(const ExplainResult& result, const Rig& rig) {
  std::string line;
  write_explain_line(result, rig, [&](std::string_view text) { line += text; });
  return line;
}

// The least improbable of what is improbable is not the reason.
TEST(ExplainWords, SaysThatNothingStandsOut) {
  leeway::Setup setup = bare(Box{0, 200, 0, 200}, Box{0, 200, 0, 200});
  setup.probe.offset = {-30, 0};
  setup.request.points = {{"screw", {190, 50}, Frame::probe}};
  const Rig rig(setup);
  ExplainResult result = explain(rig);
  ASSERT_FALSE(result.mistakes.empty());
  result.mistakes.resize(1);
  result.mistakes.front().probability = 0.02;
  result.asked_too_much = 0.03;
  EXPECT_TRUE(holds(line_of(result, rig), "Nothing that we know stands out"));
  EXPECT_FALSE(holds(line_of(result, rig), "robabl"));
  result.asked_too_much = 0.6;
  EXPECT_FALSE(holds(line_of(result, rig), "stands out"));
}

// A post in the way of the one move, and all points reachable.
TEST(ExplainWords, ALineWarnsOfMoves) {
  leeway::Setup setup = bare(Box{0, 200, 0, 200}, Box{0, 200, 0, 200});
  setup.machine.obstacles = {{"post", Box{90, 110, 90, 110}}};
  setup.probe.offset = {20, 0};
  setup.probe.travel_height = 5;
  setup.request.points = {{"a", {60, 100}, Frame::probe}, {"b", {160, 100}, Frame::probe}};
  const Rig rig(setup);
  EXPECT_TRUE(holds(line_of(explain(rig), rig), "WATCH OUT"));
}

TEST(ExplainWords, WhatIsChangedHasASubject) {
  leeway::Setup before = bare(Box{0, 200, 0, 200}, Box{0, 200, 0, 200});
  leeway::Setup now = before;
  now.request.points = {{"a", {60, 100}, Frame::probe}};
  ExplainOptions options;
  options.before = before;
  const ExplainResult result = explain(Rig(now), options);
  EXPECT_TRUE(holds(changed_sentence(result, now), "Changed: points \"a\" (absent -> there)."))
      << changed_sentence(result, now);
  EXPECT_TRUE(
      holds(did_sentence(result), "before, there was no point; now the point is reachable."))
      << did_sentence(result);
}

// A file edited as a change says. REQUIRES: where a value stands, something stands already, or in
// an object.
nlohmann::json edited(nlohmann::json file, const std::string& change) {
  const nlohmann::json edits = nlohmann::json::parse(change);
  for (const auto& [pointer, value] : edits.items()) {
    const nlohmann::json::json_pointer at(pointer);
    EXPECT_TRUE(file.contains(at.parent_pointer())) << pointer;
    file[at] = value;
  }
  return file;
}

// Stories have bounds such as 114.60000000000002: what is written is rounded to 1e-6.
leeway::Setup with_rounded_bounds(leeway::Setup setup) {
  if (!setup.request.grid) return setup;
  Box* box = std::get_if<Box>(&setup.request.grid->extent);
  if (box == nullptr) return setup;
  for (double* side : {&box->x0, &box->x1, &box->y0, &box->y1}) *side = rounded(*side);
  return setup;
}

std::optional<leeway::Setup> read_file(const nlohmann::json& file) {
  return read_setup({"setup.json", "setup.json", file.dump(), ""},
                    [](std::string_view, std::string_view) { return SourceFile(); })
      .setup;
}

// Who does as the JSON says has a file that is read, and it is the setup that was weighed or tried.
TEST(ExplainWords, EveryChangeGivesTheSetupThatIsMeant) {
  std::size_t of_grids = 0;
  for_each_story(2, true, [&](const ExplainResult& result, const Rig& rig) {
    const nlohmann::json file = nlohmann::json::parse(setup_value(rig.setup()).dump());
    const auto expect_meant = [&](const Changes& changes) {
      const std::string change = json_changes(changes, rig.setup());
      const std::optional<leeway::Setup> after = read_file(edited(file, change));
      of_grids += holds(change, "\"/request/grid\"");
      ASSERT_TRUE(after) << change << " in " << file;
      EXPECT_TRUE(with_rounded_bounds(*after) == with_rounded_bounds(applied(changes, rig.setup())))
          << change << " in " << file;
    };
    for (const MistakeFound& mistake : result.mistakes) expect_meant(mistake.changes);
    for (const Remedy& remedy : result.remedies) expect_meant(remedy.changes);
  });
  EXPECT_GT(of_grids, 0u);
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
