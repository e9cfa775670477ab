#include <gtest/gtest.h>

#include "formats/check_cases.h"
#include "formats/text/names.h"
#include "formats/text/table.h"

namespace leeway {
namespace {

std::string text_of(const Setup& setup, WriteOptions options = {.in_full = true}) {
  return written(write_check_text, setup, options);
}

std::string brief_text_of(const Setup& setup) { return text_of(setup, {}); }

void expect_brief(const Setup& setup, std::string_view part) {
  const std::string text = unwrapped(brief_text_of(setup));
  EXPECT_TRUE(holds(text, part)) << text;
}

// The reason given for the one point of a setup.
void expect_reason(const Setup& setup, std::string_view reason) {
  const std::string text = unwrapped(text_of(setup));
  EXPECT_TRUE(holds(text, reason)) << text;
}

void expect_narrow(const std::string& text) {
  for (const std::string& line : lines_of(text)) {
    EXPECT_LE(columns_of(line), kTextWidth) << line;
  }
}

TEST(CheckText, BeginsWithWhatAPersonCanActOn) {
  const std::string text = unwrapped(text_of(side_bracket()));
  EXPECT_EQ(text.rfind("Godwit, side bracket: 20 of 25 points reachable, 5 unreachable: column 5. "
                       "Worst: 9.5 mm short at the right end of the nozzle's travel. ",
                       0),
            0u)
      << text;
}

TEST(CheckText, GivesReasonAndRemedyInWords) {
  expect_reason(side_bracket(),
                "the nozzle would have to go to x = 248.5, 9.5 past the right end of its travel; "
                "the nearest point that works is 200.3, 20");
}

TEST(CheckText, DrawsTheBackAtTheTop) {
  leeway::Setup setup = side_bracket();
  setup.request.grid->extent = Box{20, 190, 20, 230};  // the last row is off the bed
  const std::vector<std::string> lines = lines_of(text_of(setup));
  const auto row = [&](const char* label) {
    return std::find_if(lines.begin(), lines.end(),
                        [&](const std::string& line) { return line.rfind(label, 0) == 0; });
  };
  const auto back = row("  row 5  y 230");
  const auto front = row("  row 1  y 20");
  ASSERT_NE(back, lines.end());
  ASSERT_NE(front, lines.end());
  EXPECT_LT(back, front);
  EXPECT_TRUE(holds(*back, "X"));
  EXPECT_TRUE(holds(*front, "o"));
  EXPECT_FALSE(holds(*front, "X"));
}

TEST(CheckText, PutsEachColumnsCoordinateUnderItsMarks) {
  const std::vector<std::string> lines = lines_of(text_of(side_bracket()));
  const auto xs = std::find_if(lines.begin(), lines.end(), [](const std::string& line) {
    return holds(line, "67.5") && holds(line, " x ");
  });
  ASSERT_NE(xs, lines.end());
  const std::string& front = *(xs - 3);
  EXPECT_EQ(front.find('X'), xs->find("210") + 1);
}

TEST(CheckText, GathersLargeGridsByTheirWorstPoint) {
  leeway::Setup setup = side_bracket();
  setup.request.grid->columns = 61;
  setup.request.grid->rows = 51;
  const std::string text = text_of(setup);
  EXPECT_TRUE(holds(unwrapped(text), "each mark stands for up to 3 x 3 points")) << text;
  EXPECT_TRUE(holds(text, "rows 49 to 51")) << text;
  EXPECT_TRUE(holds(text, "And 164 more; --format csv lists every point.")) << text;
  expect_narrow(text);
}

TEST(CheckText, ShowsLeftOutPointsAsDots) {
  leeway::Setup setup = side_bracket();
  setup.machine.bed = Disc{{115, 105}, 100};
  setup.request.grid->skip_outside_bed = true;
  const std::string text = text_of(setup);
  EXPECT_TRUE(holds(text, "blank: left out (off the bed)")) << text;
  EXPECT_TRUE(holds(unwrapped(text), "(8 more left out, off the bed)")) << text;
}

TEST(CheckText, HasWordsForEveryEndOfTheTravel) {
  leeway::Setup setup = one_point({50, 50});
  setup.machine.travel = Box{60, 150, -50, 150};
  expect_reason(setup, "would have to go to x = 50, 10 past the left end of its travel");
  setup.machine.travel = Box{-50, 150, 60, 150};
  expect_reason(setup, "would have to go to y = 50, 10 past the front end of its travel");
  setup.machine.travel = Box{-50, 150, -50, 40};
  expect_reason(setup, "would have to go to y = 50, 10 past the back end of its travel");
  setup.machine.travel = Disc{{0, 50}, 40};
  expect_reason(setup, "would have to go to 50, 50, 10 outside the rim of its travel");
  setup.machine.travel = MultiPolygon{{{{0, 0}, {40, 0}, {40, 100}, {0, 100}}, {}}};
  expect_reason(setup, "would have to go to 50, 50, 10 outside the edge of its travel");
}

TEST(CheckText, HasWordsForEveryEdgeOfTheBed) {
  expect_reason(one_point({-3, 50}),
                "the probe, at x = -3, would be 3 past the left edge of the bed");
  expect_reason(one_point({50, 104}),
                "the probe, at y = 104, would be 4 past the back edge of the bed");
  leeway::Setup setup = one_point({98, 50});
  setup.probe.spot = Disc{{0, 0}, 4};
  expect_reason(setup, "the sensing area would be 2 past the right edge of the bed; the nearest");
  setup.probe.edge_distance = 1;
  expect_reason(setup,
                "would be 2 past the right edge of the bed, and 1 inside it is wanted: 3 short");
  setup.request.points[0].at = {95.5, 50};
  expect_reason(setup,
                "would keep only 0.5 from the right edge of the bed, where 1 is wanted: 0.5 short");
  setup.machine.bed = Disc{{50, 50}, 48};
  expect_reason(setup,
                "would be 1.5 past the rim of the bed, and 1 inside it is wanted: 2.5 short");
  setup.machine.bed = MultiPolygon{{{{0, 0}, {97, 0}, {97, 100}, {0, 100}}, {}}};
  expect_reason(setup,
                "would be 2.5 past the edge of the bed, and 1 inside it is wanted: 3.5 short");
}

TEST(CheckText, HasWordsForWhatStandsOnTheBed) {
  leeway::Setup setup = one_point({50, 50});
  setup.machine.obstacles.push_back(clip({48, 60, 0, 100}, 0, 0));
  expect_reason(setup,
                "the probe would be over clip: 2 too near; the nearest point that works is 48, 50");
  setup.probe.spot = Disc{{0, 0}, 3};
  expect_reason(setup, "the sensing area would be over clip: 5 too near");
  setup.machine.obstacles[0] = clip({54, 60, 0, 100}, 0, 2.5);
  expect_reason(setup,
                "the sensing area would keep only 1 from clip, where 2.5 is wanted: 1.5 too near");
  setup.machine.obstacles[0] = clip({52, 60, 0, 100}, 0, 2.5);
  expect_reason(setup, "would be over clip: 3.5 too near (2.5 of it the wanted clearance)");
}

TEST(CheckText, HasWordsForWhatComesDown) {
  leeway::Setup setup = one_point({20, 50});
  setup.probe.offset = {-30, 0};  // the nozzle stands at 50, 50
  setup.machine.obstacles.push_back(clip({45, 60, 0, 100}, 20, 0));
  expect_reason(setup, "the nozzle would come down on clip: 5 too near");
  setup.machine.obstacles[0] = clip({53, 60, 0, 100}, 20, 0);
  setup.machine.head.push_back({"duct", Box{-4, 4, -4, 4}, 3});
  expect_reason(setup, "duct would come down on clip: 1 too near");
  setup.machine.head.clear();
  setup.machine.obstacles[0] = clip({23, 30, 0, 100}, 20, 0);
  setup.probe.body = ProbeBody{Box{-4, 4, -4, 4}, 1};
  expect_reason(setup, "the body of the probe would come down on clip: 1 too near");
}

TEST(CheckText, TellsMarginalFromUnreachable) {
  leeway::Setup setup = one_point({99.9, 50});
  setup.machine.bed_uncertainty = 0.1;
  const std::string text = unwrapped(text_of(setup));
  EXPECT_TRUE(holds(text,
                    "only 0.1 of leeway to the right edge of the bed, but the stated "
                    "uncertainty asks for 0.2"))
      << text;
  EXPECT_TRUE(holds(text,
                    "small: the one point is marginal. Worst: spot mark has 0.1 mm of leeway "
                    "to the right edge of the bed, and the stated uncertainty asks for 0.2. "))
      << text;
  setup.request.points[0].at = {100, 50};
  expect_reason(setup,
                "only 0 of leeway to the right edge of the bed, but the stated uncertainty asks");
}

TEST(CheckText, SaysWhenNothingCouldWork) {
  leeway::Setup setup = one_point({50, 50});
  setup.probe.spot = Box{-80, 80, -1, 1};
  const std::string text = unwrapped(text_of(setup));
  EXPECT_TRUE(holds(text, "the bed has no place that is large enough for the sensing area"));
  EXPECT_TRUE(holds(text, "no point that works was found"));
  EXPECT_TRUE(holds(text, "The sensing, within-limits and reachable regions are empty: "));
}

TEST(CheckText, NeverRoundsAShortfallAway) {
  expect_reason(one_point({100.000004, 50}), "at x = 100.000004, would be 0.000004 past");
}

TEST(CheckText, WarnsAboutHomingOffTheBed) {
  leeway::Setup setup = one_point({50, 50});
  setup.probe.offset = {-60, 0};
  setup.request.home = Home{{50, 50}, Frame::nozzle};
  const std::string text = unwrapped(text_of(setup));
  EXPECT_TRUE(holds(text,
                    "Homing with the nozzle at 50, 50 puts the probe at -10, 50: unreachable, "
                    "the probe, at x = -10, would be 10 past the left edge of the bed; the "
                    "nearest point that works is 0, 50. Do not home there: homing with the "
                    "probe off the bed drives the nozzle into it."))
      << text;
}

TEST(CheckText, NamesTheTightestPointThatPasses) {
  const std::string text = unwrapped(text_of(side_bracket()));
  EXPECT_TRUE(holds(text,
                    "The tightest point that passes is grid 1,5, probe at 20, 190: 15 of leeway "
                    "to the left edge of the bed (after the 1 wanted)") ||
              holds(text, "The tightest point that passes is grid 1,1, probe at 20, 20: "))
      << text;
}

TEST(CheckText, TellsWhatTheMeshLeavesOut) {
  const std::string text = unwrapped(text_of(side_bracket()));
  // 190 x 170 of 233 x 207 is 66.97 %.
  EXPECT_TRUE(
      holds(text,
            "cover 66.9 % of what can be printed. Uncovered strips, printable but outside "
            "the mesh bounds: 20 on the left, 23 on the right, 20 at the front and 17 at the "
            "back."))
      << text;
}

TEST(CheckText, ListsMovesThatRunIntoSomething) {
  leeway::Setup setup = one_point({50, 50});
  setup.request.points.clear();
  Grid grid;
  grid.columns = 2;
  grid.rows = 30;
  grid.extent = Box{20, 80, 1, 99};
  setup.request.grid = grid;
  setup.machine.obstacles.push_back(clip({45, 55, 0, 100}, 6, 1));
  EXPECT_TRUE(holds(unwrapped(text_of(setup)),
                    "Moves need the nozzle 6 above the bed; state travel_height to have them "
                    "judged."));
  setup.probe.travel_height = 5;
  const std::string text = unwrapped(text_of(setup));
  EXPECT_TRUE(holds(text,
                    "Moves: 30 of 59 straight moves would run into something with the nozzle 5 "
                    "above the bed. 6 would be enough."))
      << text;
  EXPECT_TRUE(holds(text, "grid 1,1 grid 2,1 the nozzle would pass "));
  EXPECT_TRUE(holds(text, "And 10 more; --format json lists them all."));
}

TEST(CheckText, SaysWhenNothingWasAskedOrAllLeftOut) {
  leeway::Setup setup = one_point({50, 50});
  setup.request.points.clear();
  EXPECT_TRUE(holds(text_of(setup),
                    "small: no points were asked for; those that would work lie within x 0 to "));
  Grid grid;
  grid.columns = 2;
  grid.rows = 2;
  grid.extent = Box{200, 220, 50, 60};
  grid.skip_outside_bed = true;
  setup.request.grid = grid;
  EXPECT_TRUE(holds(unwrapped(text_of(setup)), "all 4 points of the grid lie off the bed"));
}

TEST(CheckText, IsPlainAndNarrowWhateverTheNames) {
  leeway::Setup setup = side_bracket();
  setup.name = kHostileName;
  setup.request.points.push_back({kHostileName, {500, 500}, Frame::probe});
  setup.request.points.push_back({std::string(5000, 'w'), {500, 20}, Frame::probe});
  const std::string text = text_of(setup, {.all_limits = true});
  EXPECT_TRUE(holds(text, std::string(5000, 'w'))) << "in full, once";
  EXPECT_TRUE(holds(text, " wwwwwwwwwww...wwwwwwwwww "));
  EXPECT_FALSE(holds(text, "\x1b"));
  EXPECT_FALSE(holds(text, "\r"));
  EXPECT_FALSE(holds(text, "\xE2\x80\xAE"));
}

TEST(CheckText, ColorsNothingButMarks) {
  std::string text = text_of(side_bracket(), {.color = true, .in_full = true});
  EXPECT_TRUE(holds(text, "\x1b[1;31mX\x1b[0m"));
  for (const char* sequence : {"\x1b[1;31m", "\x1b[33m", "\x1b[0m"}) {
    for (std::size_t at = text.find(sequence); at != std::string::npos; at = text.find(sequence)) {
      text.erase(at, std::string_view(sequence).size());
    }
  }
  EXPECT_EQ(text, text_of(side_bracket()));
}

TEST(CheckText, ListsEveryLimitOfTheNamedPointsOnRequest) {
  const std::string text = text_of(side_bracket(), {.all_limits = true});
  EXPECT_TRUE(holds(unwrapped(text), "grid 5,1, probe at 210, 20: unreachable")) << text;
  EXPECT_TRUE(holds(unwrapped(text), "X -9.5 0.2 travel right")) << text;
}

TEST(CheckText, EndsWithTheUsualCautions) {
  EXPECT_TRUE(holds(unwrapped(text_of(side_bracket())), "Its manual comes first"));
}

TEST(CheckText, GathersAWholeColumnInOneLine) {
  const std::vector<std::string> lines = lines_of(brief_text_of(side_bracket()));
  EXPECT_EQ(std::count(lines.begin(), lines.end(),
                       "  X column 5, all 5 rows: the nozzle would be 9.5 past the right end of "
                       "its travel."),
            1);
  EXPECT_EQ(std::count_if(lines.begin(), lines.end(),
                          [](const std::string& line) { return line.rfind("  X ", 0) == 0; }),
            1);
}

TEST(CheckText, GathersRowsColumnsAndWholeGrids) {
  leeway::Setup setup = side_bracket();
  setup.machine.travel = Box{-5, 239, 30, 211};  // the front row is lost, too
  expect_brief(setup,
               "X column 5, all 5 rows: the nozzle would be up to 9.5 past the right end of its");
  expect_brief(setup, "X row 1, all 5 columns: the nozzle would be 22 past the front end of its");
  setup.machine.travel = Box{-5, 200, 0, 211};
  expect_brief(setup, "X columns 4 to 5, all 10 points: the nozzle would be up to 48.5 past the");
  setup.machine.travel = Box{-5, 0, 0, 211};
  expect_brief(setup, "none of the 25 points is reachable. Worst: 248.5 mm short at the right end");
  expect_brief(setup,
               "X all 25 points of the grid: the nozzle would be up to 248.5 past the right");
}

TEST(CheckText, GathersWhatAColumnLeavesOfARow) {
  // Column 1 lacks a guard band at the left edge of the bed, the last row at the back one.
  leeway::Setup setup = side_bracket();
  setup.probe.offset_uncertainty = {0.5, 0.5};
  setup.request.grid->extent = Box{5.5, 150, 40, 201.5};
  expect_brief(setup,
               "~ column 1, all 5 rows: only 0.5 of leeway to the left edge of the bed, "
               "where 1.078 is wanted.");
  expect_brief(setup,
               "~ row 5, all 5 columns: only 0.5 of leeway to the back edge of the bed, "
               "where 1.078 is wanted.");
}

TEST(CheckText, TellsOtherPointsInALineEach) {
  expect_brief(one_point({-3, 50}),
               "X spot mark, at -3, 50: the probe would be 3 past the left edge of the bed.");
  leeway::Setup setup = one_point({98, 50});
  setup.probe.spot = Disc{{0, 0}, 4};
  setup.probe.edge_distance = 1;
  expect_brief(setup, "would be 2 past the right edge of the bed, not 1 inside.");
  setup.request.points[0].at = {95.5, 50};
  expect_brief(setup,
               "the sensing area would be only 0.5 inside the right edge of the bed, not 1.");
  setup = one_point({50, 50});
  setup.machine.obstacles.push_back(clip({48, 60, 0, 100}, 0, 0));
  expect_brief(setup, "the probe would be over clip, 2 too near.");
  EXPECT_TRUE(holds(brief_text_of(setup), "Worst: 2 mm short at obstacle clip."));
}

TEST(CheckText, AnswersInFortyLinesWhateverFails) {
  const auto lines = [](const leeway::Setup& setup) {
    const std::string text = brief_text_of(setup);
    EXPECT_LE(lines_of(text).size(), 40u) << text;
    return lines_of(text).size();
  };
  EXPECT_LE(lines(side_bracket()), 30u);
  leeway::Setup setup = side_bracket();
  setup.request.home = Home{{115, 105}, Frame::nozzle};
  for (const int size : {7, 10, 15, 25, 40}) {
    setup.request.grid->columns = setup.request.grid->rows = size;
    lines(setup);
  }
  // A hundred points that have nothing in common, and a grid around them.
  setup.request.grid->columns = setup.request.grid->rows = 12;
  for (int i = 0; i < 100; ++i) {
    setup.request.points.push_back(
        {"far " + std::to_string(i), {300.0 + i, 5.0 * i}, Frame::probe});
  }
  lines(setup);
  EXPECT_TRUE(holds(brief_text_of(setup), "more; --long tells more of them, --format csv all."));
}

TEST(CheckText, SaysWhatToDoNext) {
  const std::string text = text_of(side_bracket(), {.setup = "mine.json"});
  EXPECT_TRUE(holds(text, "leeway fit mine.json\n")) << text;
  EXPECT_TRUE(holds(text, "leeway explain mine.json\n")) << text;
  EXPECT_TRUE(holds(text, "leeway draw mine.json --at 5,1 --output plan.svg\n")) << text;
  expect_brief(side_bracket(), "keep the setup in a file (--save FILE):");
  leeway::Setup well = side_bracket();
  well.request.grid->extent = Box{20, 190, 20, 190};
  EXPECT_FALSE(holds(text_of(well, {.setup = "mine.json"}), "leeway explain"));
}

TEST(CheckText, NeverCutsANameInASentence) {
  leeway::Setup setup = one_point({-3, 50});
  setup.name = setup.request.points[0].name =
      "a name so long that nobody would ever want to read it to its very end";
  expect_brief(setup, "to its very end: the one point is unreachable.");
  expect_brief(setup, "to its very end, at -3, 50: the probe would be 3 past");
}

// By the Unicode Bidirectional Algorithm (UAX 9) an isolate keeps the letters of a name from
// turning what stands around it.
TEST(CheckText, IsolatesNamesThatAreReadFromRightToLeft) {
  leeway::Setup setup = one_point({-3, 50});
  setup.request.points[0].name = "\xD7\xA9\xD7\x9C";
  setup.request.points.push_back({"plain", {-4, 50}, Frame::probe});
  const std::string text = brief_text_of(setup);
  EXPECT_TRUE(holds(text, "X \xE2\x81\xA8\xD7\xA9\xD7\x9C\xE2\x81\xA9, at -3, 50:")) << text;
  EXPECT_TRUE(holds(text, "X plain, at -4, 50:")) << text;
}

TEST(Wrapping, BreaksAtBlanksAndKeepsLongWordsWhole) {
  EXPECT_EQ(wrapped("aa bb cc", 5), (std::vector<std::string>{"aa bb", "cc"}));
  EXPECT_EQ(wrapped("aaaaaaa b", 5), (std::vector<std::string>{"aaaaaaa", "b"}));
  EXPECT_EQ(wrapped("aa bb", 4, 2), (std::vector<std::string>{"aa", "  bb"}));
}

}  // namespace
}  // namespace leeway
