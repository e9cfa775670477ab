#include <gtest/gtest.h>

#include <set>

#include "formats/check_cases.h"
#include "formats/page/report_points.h"
#include "formats/text/numbers.h"
#include "leeway/write_report.h"

namespace leeway {
namespace {

std::string report(const Setup& setup, const DrawOptions& options = {}, MountPlaces places = {}) {
  const Rig rig(setup);
  std::string text;
  const ExplainResult explained = explain(rig);
  const NumbersToEnter own = numbers_to_enter(rig, explained.check, nullptr, 3);
  const BracketReport mount{{&setup, 1}, std::move(places.window), std::move(places.map), {}};
  write_report_html(explained, fit(setup), own, mount, rig, options,
                    [&text](std::string_view piece) { text += piece; });
  return text;
}

std::size_t count(const std::string& text, std::string_view part) {
  std::size_t found = 0;
  for (std::size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + 1)) {
    ++found;
  }
  return found;
}

Setup large_grid(int columns, int rows, double x1) {
  leeway::Setup setup = side_bracket();
  setup.request.grid->columns = columns;
  setup.request.grid->rows = rows;
  setup.request.grid->extent = Box{20, x1, 20, 190};
  setup.request.home = Home{{115, 105}, Frame::nozzle};
  return setup;
}

TEST(ReportHtml, HoldsEveryPart) {
  const std::string text = report(side_bracket());
  EXPECT_EQ(text.rfind("<!DOCTYPE html>", 0), 0u);
  for (const char* part :
       {"<h1><bdi>Godwit, side bracket</bdi></h1>", "20 of 25 points reachable", "<svg",
        "keep fingers out of its reach", "<h2>Why points fail</h2>",
        "<h2>The numbers to enter</h2>", "margins of the probe from the bed&#39;s edges",
        "driven into it", "What would remedy it"}) {
    EXPECT_TRUE(holds(text, part)) << part;
  }
  EXPECT_EQ(text.substr(text.size() - 8), "</html>\n");
}

TEST(ReportHtml, SaysWhereTheProbeMaySitOnAMount) {
  leeway::Setup setup = side_bracket();
  const std::string heading = "<h2>Where the probe may sit</h2>";
  EXPECT_EQ(count(report(setup, {}, places_on_mount(setup)), heading), 0u);
  setup.mount.envelope = Box{-60, 60, -12, 40};
  const MountPlaces places = places_on_mount(setup);
  ASSERT_TRUE(places.window && places.map);
  const std::string text = report(setup, {}, places);
  EXPECT_EQ(count(text, heading), 1u);
  EXPECT_EQ(count(text, "<svg class=\"leeway-map\""), 1u);
  EXPECT_EQ(count(text, "id=\"map-title\""), 1u);
  EXPECT_EQ(count(text, "<style>"), 3u);
  ASSERT_TRUE(places.window->best);
  EXPECT_TRUE(holds(text, exact_pair(places.window->best->offset)));
}

TEST(ReportHtml, GivesTheSameBytesForTheSameInput) {
  EXPECT_EQ(report(side_bracket()), report(side_bracket()));
}

TEST(ReportHtml, AllowsNothingButItsOwn) {
  const std::string text = report(side_bracket());
  EXPECT_TRUE(holds(text, "default-src 'none';"));
  EXPECT_FALSE(holds(text, "unsafe"));
  EXPECT_EQ(count(text, "<script>"), 1u);
  EXPECT_EQ(count(text, " style="), 0u);
  EXPECT_EQ(count(text, "http"), 1u);  // http-equiv
  EXPECT_EQ(count(text, "src="), 0u);
}

TEST(ReportHtml, LinksEachPointOfThePlanWithItsRow) {
  const std::string text = report(side_bracket());
  for (int i = 0; i < 25; ++i) {
    const std::string n = std::to_string(i);
    EXPECT_EQ(count(text, "id=\"row-" + n + "\""), 1u);
    EXPECT_EQ(count(text, "href=\"#row-" + n + "\""), 1u);
    EXPECT_EQ(count(text, "id=\"p-" + n + "\""), 1u);
    EXPECT_EQ(count(text, "href=\"#p-" + n + "\""), 1u);
  }
  EXPECT_EQ(count(text, "class=\"halo\""), 25u);
}

TEST(ReportHtml, EscapesWhateverTheNamesHold) {
  leeway::Setup setup = side_bracket();
  setup.name = kHostileName;
  setup.machine.name = kHostileName;
  setup.machine.obstacles.push_back(clip({100, 130, -6, 4}, 6, 1));
  setup.machine.obstacles.back().name = kHostileName;
  setup.request.points.push_back({kHostileName, {500, 500}, Frame::probe});
  setup.request.points.push_back({"</script><script>", {100, 100}, Frame::probe});
  const std::string text = report(setup, {std::nullopt, std::string(kHostileName)});
  EXPECT_FALSE(holds(text, "<b>"));
  EXPECT_EQ(count(text, "<script>"), 1u);
  EXPECT_FALSE(holds(text, "\x1b"));
  EXPECT_FALSE(holds(text, "\xE2\x80\xAE"));
  EXPECT_FALSE(holds(text, "\xFF"));
  EXPECT_FALSE(holds(text, "\x02"));
  EXPECT_FALSE(holds(text, "\x03"));
}

TEST(ReportHtml, ShowsADateOnlyWhenAsked) {
  EXPECT_TRUE(holds(report(side_bracket(), {std::nullopt, "25 <Nov>"}), "25 &lt;Nov&gt;"));
  const std::string text = report(side_bracket());
  EXPECT_TRUE(holds(text.substr(text.find("<footer>")), ".</footer>"));
  EXPECT_FALSE(holds(text.substr(text.find("<footer>"), 60), ","));
}

TEST(ReportHtml, SaysSoWhereNothingFits) {
  leeway::Setup setup = side_bracket();
  setup.machine.travel = Box{0, 5, 0, 5};
  const std::string text = report(setup);
  EXPECT_TRUE(holds(text, "No grid of 5 x 5 points fits"));
  EXPECT_FALSE(holds(text, "class=\"enter\""));
}

TEST(ReportHtml, StandsWithoutPoints) {
  leeway::Setup setup = side_bracket();
  setup.request.grid.reset();
  setup.request.home = Home{{115, 105}, Frame::nozzle};
  const Rig rig(setup);
  std::string text;
  const ExplainResult explained = explain(rig);
  const NumbersToEnter own = numbers_to_enter(rig, explained.check, nullptr, 3);
  write_report_html(explained, "the setup <asks> for no grid", own, {}, rig, {},
                    [&text](std::string_view piece) { text += piece; });
  EXPECT_EQ(count(text, "id=\"row-"), 1u);
  EXPECT_TRUE(holds(text, "<p>The setup &lt;asks&gt; for no grid (leeway fit"));
}

// What is to be entered is what was checked: the own grid where it works, and said so.
TEST(ReportHtml, NumbersToEnterAreOfTheOwnGridWhereThatWorks) {
  leeway::Setup setup = side_bracket();
  const std::string fitted = report(setup);
  EXPECT_TRUE(holds(fitted, "They are not of your own grid"));
  EXPECT_FALSE(holds(fitted, "They are of your own grid"));
  setup.request.grid->extent = Box{14, 199, 49, 198};
  const std::string own = report(setup);
  EXPECT_TRUE(holds(own, "They are of your own grid of 5 x 5 points"));
  EXPECT_TRUE(holds(own, ">x = 14<"));
  EXPECT_TRUE(holds(own, "A larger one is possible: a grid of 5 x 5 points fits"));
  // A post in the way of a move: no point fails, and still these numbers are not for entering.
  setup.probe.travel_height = 8;
  setup.machine.obstacles = {clip(Box{70, 72, 36, 38}, 12, 0)};
  EXPECT_TRUE(holds(report(setup), "They are not of your own grid"));
}

TEST(ReportPoints, ListsAllUpToTheStatedNumber) {
  const leeway::Setup setup = large_grid(14, 14, 190);  // with home 197
  const Rig rig(setup);
  const CheckResult result = check(rig);
  ASSERT_EQ(result.points.size(), 197u);
  EXPECT_EQ(listed_points(result).size(), 197u);
  EXPECT_EQ(listed_sentence(result), "");
}

TEST(ReportPoints, ListsThoseThatFailOfMore) {
  const leeway::Setup setup = large_grid(25, 25, 203);
  const Rig rig(setup);
  const CheckResult result = check(rig);
  const std::vector<std::size_t> listed = listed_points(result);
  EXPECT_EQ(result.counts.unreachable, 25u);
  EXPECT_EQ(listed.size(), 25u + 2);  // and the tightest, and home
  EXPECT_EQ(std::set<std::size_t>(listed.begin(), listed.end()).size(), listed.size());
  EXPECT_TRUE(holds(listed_sentence(result),
                    "Of 626 points these are the 25 that fail, the tightest that passes and home; "
                    "up to 200 are listed all."))
      << listed_sentence(result);
  EXPECT_EQ(count(report(setup), "<tr role=\"row\" id="), listed.size());
}

TEST(ReportPoints, ListsTheWorstWhereVeryManyFail) {
  leeway::Setup setup = large_grid(25, 25, 203);
  setup.probe.offset = {-100, 12};
  const Rig rig(setup);
  const CheckResult result = check(rig);
  ASSERT_GT(result.counts.unreachable, 200u);
  EXPECT_LE(listed_points(result).size(), 202u);
  EXPECT_TRUE(holds(listed_sentence(result), "the worst 200 of the "));
}

TEST(ReportPoints, BeginWithTheWorst) {
  const leeway::Setup setup = side_bracket();
  const Rig rig(setup);
  const CheckResult result = check(rig);
  const std::vector<std::size_t> listed = listed_points(result);
  ASSERT_EQ(listed.size(), 25u);
  for (std::size_t i = 0; i < 5; ++i) EXPECT_EQ(result.points[listed[i]].column, 5);
  EXPECT_EQ(listed[5], 0u);
}

}  // namespace
}  // namespace leeway
