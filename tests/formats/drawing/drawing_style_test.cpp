#include "formats/drawing/drawing_style.h"

#include <gtest/gtest.h>

#include <set>

namespace leeway {
namespace {

// W3C's own examples. Success criterion 1.4.3 and its techniques print ratios, some cut off and
// some rounded, so that 0.1 downward, or a whole for 15:1, is allowed.
TEST(Contrast, AgreesWithThePublishedPairs) {
  struct Pair {
    const char* a;
    const char* b;
    double published;
    double allowed;
  };
  for (const Pair& pair :
       {Pair{"#FFFFFF", "#000000", 21, 1e-9}, Pair{"#949494", "#FFFFFF", 3, 0.1},
        Pair{"#E5E5E5", "#6221EA", 5.6, 0.1}, Pair{"#FFF000", "#FFFFFF", 1.2, 0.1},
        Pair{"#000000", "#DEDEDE", 15, 1}, Pair{"#9D9D9D", "#FFFFFF", 2.7, 0.1},
        Pair{"#E3660E", "#FFFFFF", 3.4, 0.1}}) {
    EXPECT_NEAR(contrast(pair.a, pair.b), pair.published, pair.allowed) << pair.a << pair.b;
    EXPECT_EQ(contrast(pair.a, pair.b), contrast(pair.b, pair.a));
  }
  EXPECT_GE(contrast("#767676", "#FFFFFF"), 4.5);
  EXPECT_LT(contrast("#777777", "#FFFFFF"), 4.5);
}

TEST(Palettes, EveryPairStandsOut) {
  for (const Palette* palette : {&kLight, &kDark}) {
    const std::vector<ColourPair> pairs = colour_pairs(*palette);
    EXPECT_GE(pairs.size(), 18u);
    std::size_t of_text = 0;
    for (const ColourPair& pair : pairs) {
      EXPECT_GE(contrast(pair.front, pair.back), pair.least) << pair.name;
      of_text += pair.least >= 4.5;
    }
    EXPECT_GE(of_text, 6u);  // ink on five grounds, faint on paper
  }
}

// Okabe and Ito, Color Universal Design (2008), as in R's grDevices.
TEST(Palettes, MarksAreOfThePublishedSet) {
  const std::set<std::string> published{"#000000", "#E69F00", "#56B4E9", "#009E73",
                                        "#F0E442", "#0072B2", "#D55E00", "#CC79A7"};
  for (const Palette* p : {&kLight, &kDark}) {
    for (const Hex hex : {p->reachable, p->marginal, p->unreachable, p->mesh}) {
      EXPECT_EQ(published.count(hex), 1u) << hex;
    }
  }
}

TEST(DrawingCss, KeepsToItsScopeAndHasBothSchemes) {
  const std::string css = drawing_css(".here");
  std::size_t at = 0;
  int rules = 0;
  for (std::size_t end = css.find('\n'); end != std::string::npos; end = css.find('\n', at)) {
    const std::string line = css.substr(at, end - at);
    at = end + 1;
    if (line == "}" || line.rfind("@media screen and (prefers-color-scheme:dark){", 0) == 0)
      continue;
    EXPECT_EQ(line.rfind(".here", 0), 0u) << line;
    ++rules;
  }
  EXPECT_GT(rules, 40);
  EXPECT_NE(css.find(kLight.paper), std::string::npos);
  EXPECT_NE(css.find(kDark.paper), std::string::npos);
  EXPECT_EQ(css.find("</"), std::string::npos);
}

}  // namespace
}  // namespace leeway
