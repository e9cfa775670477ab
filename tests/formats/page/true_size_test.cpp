#include <gtest/gtest.h>

#include <regex>

#include "formats/check_cases.h"
#include "formats/drawing/text_width.h"
#include "leeway/write_true_size.h"

namespace leeway {
namespace {

std::string html(const Setup& setup, Paper paper, std::optional<std::string> date = {}) {
  const Rig rig(setup);
  std::string text;
  write_true_size_html(check(rig), rig, {paper, std::move(date)},
                       [&text](std::string_view piece) { text += piece; });
  return text;
}

std::string svg(const Setup& setup) {
  const Rig rig(setup);
  std::string text;
  write_true_size_svg(check(rig), rig, {}, [&text](std::string_view piece) { text += piece; });
  return text;
}

// The numbers that a pattern's groups hold, for each match.
std::vector<std::vector<double>> numbers(const std::string& text, const std::string& pattern) {
  std::vector<std::vector<double>> out;
  const std::regex wanted(pattern);
  for (std::sregex_iterator at(text.begin(), text.end(), wanted), end; at != end; ++at) {
    out.emplace_back();
    for (std::size_t i = 1; i < at->size(); ++i) out.back().push_back(std::stod((*at)[i]));
  }
  return out;
}

// <svg width="210mm" height="297mm" viewBox="0 0 210 297">: a user unit is a mm.
constexpr const char* kSize =
    "<svg[^>]* width=\"([0-9.]+)mm\" height=\"([0-9.]+)mm\" "
    "viewBox=\"[-0-9.]+ [-0-9.]+ ([0-9.]+) ([0-9.]+)\"";

TEST(TrueSize, MakesAUnitAMillimetre) {
  for (const Paper paper : {Paper::a4, Paper::a3, Paper::letter, Paper::bed}) {
    const std::string text = html(side_bracket(), paper);
    const auto sheets = numbers(text, kSize);
    ASSERT_FALSE(sheets.empty());
    for (const std::vector<double>& sheet : sheets) {
      EXPECT_EQ(sheet[0], sheet[2]);
      EXPECT_EQ(sheet[1], sheet[3]);
    }
    EXPECT_FALSE(holds(text, "scale("));
    const auto page = numbers(text, "@page \\{ size: ([0-9.]+)mm ([0-9.]+)mm; margin: 0; \\}");
    ASSERT_EQ(page.size(), 1u);
    EXPECT_EQ(page[0][0], sheets[0][0]);
    EXPECT_EQ(page[0][1], sheets[0][1]);
  }
}

TEST(TrueSize, DrawsLinesOfAHundredMillimetresOnEachSheet) {
  const std::string text = html(side_bracket(), Paper::a4);
  const std::size_t sheets = numbers(text, kSize).size();
  EXPECT_EQ(sheets, 2u);
  EXPECT_EQ(numbers(text, "class=\"measure\" d=\"M[0-9.]+ [0-9.]+h(100)M").size(), sheets);
  EXPECT_EQ(numbers(text, "class=\"measure\" d=\"M[0-9.]+ [0-9.]+v(100)M").size(), sheets);
}

TEST(TrueSize, NamesTheSheetsAndTheirOrder) {
  const std::string text = html(side_bracket(), Paper::a4);
  EXPECT_TRUE(holds(text, "2 sheets of A4, on its side."));
  EXPECT_TRUE(holds(text, "Sheet 1 of 2: row 1 from the back, column 1 from the left"));
  EXPECT_TRUE(holds(text, "Sheet 2 of 2: row 2 from the back, column 1 from the left"));
  EXPECT_TRUE(holds(text, "The sheets come row by row from the back"));
  EXPECT_TRUE(holds(html(side_bracket(), Paper::bed), "The only sheet"));
}

TEST(TrueSize, PutsTheNeighboursWhereTheyBelong) {
  // The second sheet shows what lies in front: its drawing is higher by a window less 10 mm.
  const auto places =
      numbers(html(side_bracket(), Paper::a4),
              "<g clip-path=\"url\\(#window\\)\"><use href=\"#plan\" x=\"([-0-9.]+)\" "
              "y=\"([-0-9.]+)\"");
  const auto window = numbers(html(side_bracket(), Paper::a4),
                              "<clipPath id=\"window\"><rect x=\"([0-9.]+)\" y=\"([0-9.]+)\" "
                              "width=\"([0-9.]+)\" height=\"([0-9.]+)\"");
  ASSERT_EQ(places.size(), 2u);
  ASSERT_EQ(window.size(), 1u);
  EXPECT_EQ(places[0][0], places[1][0]);
  EXPECT_NEAR(places[0][1] - places[1][1], window[0][3] - 10, 0.011);
}

TEST(TrueSize, DrawsTheBedAsLargeAsItIs) {
  // The bed of 233 x 207 mm, 8 mm from the corner of its drawing.
  EXPECT_TRUE(holds(svg(side_bracket()), "<path class=\"bed\" d=\"M8 8L241 8L241 215L8 215Z\"/>"));
}

TEST(TrueSize, MakesOneSheetOfAnSvg) {
  const auto sheets = numbers(svg(side_bracket()), kSize);
  ASSERT_EQ(sheets.size(), 1u);
  EXPECT_EQ(sheets[0], (std::vector<double>{277, 271, 277, 271}));
}

// The bed's left front corner is at 0, 0 of the machine: 18 mm from the paper's left edge, and the
// bed's depth, 8 mm of border and 10 of rim below its upper one.
TEST(TrueSize, HasItsOriginWhereTheMachineHasIt) {
  const auto box = numbers(svg(side_bracket()), "viewBox=\"([-0-9.]+) ([-0-9.]+) ");
  ASSERT_EQ(box.size(), 1u);
  EXPECT_EQ(box[0], (std::vector<double>{-18, -225}));
  EXPECT_TRUE(holds(svg(side_bracket()), "<g transform=\"translate(-18 -225)\">"));
}

// A coordinate of each axis at least on every sheet, whether or not an edge of the bed is on it.
TEST(TrueSize, HasCoordinatesOnEverySheet) {
  leeway::Setup setup = side_bracket();
  setup.machine.bed = Box{0, 700, 0, 700};
  const std::string text = html(setup, Paper::a4);
  const auto window = numbers(text,
                              "<clipPath id=\"window\"><rect x=\"([0-9.]+)\" y=\"([0-9.]+)\" "
                              "width=\"([0-9.]+)\" height=\"([0-9.]+)\"");
  ASSERT_EQ(window.size(), 1u);
  const auto places = numbers(text,
                              "<g clip-path=\"url\\(#window\\)\"><use href=\"#plan\" "
                              "x=\"([-0-9.]+)\" y=\"([-0-9.]+)\"");
  const auto texts = numbers(text, "class=\"axis\" x=\"([-0-9.]+)\" y=\"([-0-9.]+)\"");
  EXPECT_GT(places.size(), 8u);
  for (const std::vector<double>& place : places) {
    std::size_t seen = 0;
    for (const std::vector<double>& at : texts) {
      const double x = at[0] + place[0] - window[0][0];
      const double y = at[1] + place[1] - window[0][1];
      seen += x > 0 && x < window[0][2] - 5 && y > 3 && y < window[0][3];
    }
    EXPECT_GE(seen, 4u);
  }
}

TEST(TrueSize, ShowsWhichSheetThisIs) {
  const std::string text = html(side_bracket(), Paper::a4);
  EXPECT_EQ(numbers(text, "class=\"key here\" x=\"([0-9.]+)\"").size(), 2u);
  EXPECT_EQ(numbers(text, "class=\"key\" x=\"([0-9.]+)\"").size(), 2u);
  EXPECT_TRUE(
      numbers(html(side_bracket(), Paper::bed), "class=\"key here\" x=\"([0-9.]+)\"").empty());
}

// What a name covers: no cross, and no seam.
TEST(TrueSize, KeepsNamesOffCrossesAndSeams) {
  leeway::Setup setup = side_bracket();
  setup.machine.bed = setup.machine.travel = Box{0, 400, 0, 400};
  for (int i = 0; i < 40; ++i) {
    setup.request.points.push_back(
        {"screw " + std::to_string(i), {10.0 + 9.5 * i, 12.0 + (i * 83) % 380}, Frame::probe});
  }
  const std::string text = html(setup, Paper::a4);
  std::vector<Point> crosses;  // in the drawing
  for (std::size_t at = text.find("<div class=\"page\">"); at != std::string::npos;) {
    const std::size_t next = text.find("<div class=\"page\">", at + 1);
    const std::string sheet = text.substr(at, next - at);
    const auto plan = numbers(sheet, "<use href=\"#plan\" x=\"([-0-9.]+)\" y=\"([-0-9.]+)\"");
    ASSERT_EQ(plan.size(), 1u);
    for (const auto& p : numbers(sheet, "class=\"cross\" d=\"M([-0-9.]+) ([-0-9.]+)h10")) {
      crosses.push_back({p[0] + 5 - plan[0][0], p[1] - plan[0][1]});
    }
    at = next;
  }
  EXPECT_GT(crosses.size(), 10u);
  const std::regex name("class=\"(name|axis)\" x=\"([-0-9.]+)\" y=\"([-0-9.]+)\">([^<]*)<");
  std::size_t looked = 0;
  for (std::sregex_iterator at(text.begin(), text.end(), name), end; at != end; ++at, ++looked) {
    const double x = std::stod((*at)[2]);
    const double y = std::stod((*at)[3]);
    const double width = text_width((*at)[4].str(), 2.4);
    for (const Point& cross : crosses) {
      EXPECT_FALSE(cross.x > x - 5 && cross.x < x + width + 5 && cross.y > y - 6.5 &&
                   cross.y < y + 5)
          << (*at)[4];
    }
  }
  EXPECT_GT(looked, 40u);
}

TEST(TrueSize, HoldsNoScriptAndAllowsNone) {
  const std::string text = html(side_bracket(), Paper::a4);
  EXPECT_TRUE(holds(text, "default-src 'none';"));
  EXPECT_FALSE(holds(text, "script"));
}

TEST(TrueSize, EscapesWhateverTheNamesHold) {
  leeway::Setup setup = side_bracket();
  setup.name = kHostileName;
  setup.machine.obstacles.push_back(clip({100, 130, -6, 4}, 6, 1));
  setup.machine.obstacles.back().name = kHostileName;
  setup.request.points.push_back({kHostileName, {100, 90}, Frame::probe});
  setup.request.points.push_back({std::string(kHostileName) + "2", {500, 500}, Frame::probe});
  for (const std::string& text : {html(setup, Paper::a3, kHostileName), svg(setup)}) {
    EXPECT_FALSE(holds(text, "<b>"));
    EXPECT_FALSE(holds(text, "\x1b"));
    EXPECT_FALSE(holds(text, "\xE2\x80\xAE"));
    EXPECT_FALSE(holds(text, "\xFF"));
  }
}

TEST(TrueSize, TellsOfPointsOffThePaper) {
  EXPECT_TRUE(holds(html(one_point({500, 500}), Paper::a4), "Off this drawing: spot mark."));
  EXPECT_FALSE(holds(html(one_point({50, 50}), Paper::a4), "Off this drawing"));
}

TEST(TrueSize, ShowsADateOnlyWhenAsked) {
  EXPECT_TRUE(holds(html(side_bracket(), Paper::a4, "25 Nov"), "25 Nov"));
}

TEST(TrueSize, RefusesAVastBedBeforeItWritesAnything) {
  leeway::Setup setup = one_point({50, 50});
  setup.machine.bed = Box{0, 90000, 0, 90000};
  const Rig rig(setup);
  std::string text;
  EXPECT_THROW(
      write_true_size_html(check(rig), rig, {}, [&text](std::string_view piece) { text += piece; }),
      PaperRefused);
  EXPECT_EQ(text, "");
}

}  // namespace
}  // namespace leeway
