#include <gtest/gtest.h>

#include "formats/check_cases.h"

namespace leeway {
namespace {

TEST(CheckMarkdown, BeginsWithTheSummary) {
  const std::string text = written(write_check_markdown, side_bracket());
  EXPECT_EQ(
      text.rfind("**Godwit, side bracket**: 20 of 25 points reachable, 5 unreachable: column 5. "
                 "Worst: 9.5 mm short at the right end of the nozzle's travel.\n",
                 0),
      0u)
      << text;
}

TEST(CheckMarkdown, HasATableOfThePointsThatFail) {
  const std::vector<std::string> lines = lines_of(written(write_check_markdown, side_bracket()));
  const std::string row =
      "| grid 5,1 | unreachable | 210, 20 | 248.5, 8 | the nozzle would have to go to x = 248.5, "
      "9.5 past the right end of its travel; the nearest point that works is 200.3, 20 |";
  EXPECT_EQ(std::count(lines.begin(), lines.end(), row), 1);
}

TEST(CheckMarkdown, KeepsItsTablesWhateverTheNames) {
  leeway::Setup setup = side_bracket();
  setup.name = kHostileName;
  setup.request.points.push_back({kHostileName, {500, 500}, Frame::probe});
  for (const std::string& line : lines_of(written(write_check_markdown, setup))) {
    EXPECT_FALSE(holds(line, "<b>")) << line;
    if (line.rfind("| ", 0) != 0) continue;
    std::size_t bars = 0;
    for (std::size_t i = 0; i < line.size(); ++i) {
      if (line[i] == '|' && (i == 0 || line[i - 1] != '\\')) ++bars;
    }
    EXPECT_EQ(bars, 6u) << line;
  }
}

TEST(CheckMarkdown, ListsCoverageMovesAndCautions) {
  const std::string text = written(write_check_markdown, side_bracket());
  EXPECT_TRUE(holds(
      text,
      "\n- Coverage: the mesh bounds as asked for, x 20 to 210 and y 20 to 190 for the probe"));
  EXPECT_TRUE(holds(text, "\n- Moves: 19 straight moves, all clear"));
  EXPECT_TRUE(holds(text, "\n- Before you try it at the machine"));
}

TEST(CheckMarkdown, ListsEveryLimitOnRequest) {
  const std::string text = written(write_check_markdown, side_bracket(), {.all_limits = true});
  EXPECT_TRUE(holds(text, "\n| grid 5,1 | travel right | -9.5 | 0.2 |\n")) << text;
}

}  // namespace
}  // namespace leeway
