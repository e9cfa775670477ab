#include "formats/page/paper.h"

#include <gtest/gtest.h>

#include <random>

namespace leeway {
namespace {

bool within(const Box& box, Point p) {
  return p.x >= box.x0 && p.x <= box.x1 && p.y >= box.y0 && p.y <= box.y1;
}

TEST(Paper, HasTheSizesOfTheStandards) {
  const Box small{0, 50, 0, 60};
  const SheetPlan a4 = sheet_plan(small, Paper::a4);
  EXPECT_EQ(a4.width, 210);  // ISO 216:2007
  EXPECT_EQ(a4.height, 297);
  const SheetPlan a3 = sheet_plan(small, Paper::a3);
  EXPECT_EQ(a3.width, 297);
  EXPECT_EQ(a3.height, 420);
  const SheetPlan letter = sheet_plan(small, Paper::letter);
  EXPECT_DOUBLE_EQ(letter.width, 8.5 * 25.4);  // ANSI/ASME Y14.1, size A; from memory
  EXPECT_DOUBLE_EQ(letter.height, 11 * 25.4);
}

TEST(Paper, IsTurnedWhereThatTakesFewerSheets) {
  const SheetPlan wide = sheet_plan({0, 260, 0, 150}, Paper::a4);
  EXPECT_EQ(wide.sheets.size(), 1u);
  EXPECT_EQ(wide.width, 297);
  const SheetPlan deep = sheet_plan({0, 150, 0, 240}, Paper::a4);
  EXPECT_EQ(deep.sheets.size(), 1u);
  EXPECT_EQ(deep.width, 210);
}

TEST(Paper, OfTheBedsSizeIsOneSheet) {
  const SheetPlan plan = sheet_plan({-8, 312, -8, 264}, Paper::bed);
  ASSERT_EQ(plan.sheets.size(), 1u);
  EXPECT_EQ(plan.width, 320 + 2 * kPaperMargin + kPaperSide);
  EXPECT_EQ(plan.height, 272 + 2 * kPaperMargin + kPaperFoot);
  EXPECT_EQ(plan.sheets[0].shows, (Box{-8, 312, -8, 264}));
}

TEST(Paper, OfTheBedsSizeHoldsTheLinesToMeasure) {
  const SheetPlan plan = sheet_plan({0, 5, 0, 5}, Paper::bed);
  EXPECT_GE(plan.window.width(), 100);
  EXPECT_GE(plan.window.depth(), 100);
}

TEST(Paper, RefusesBedsThatNobodyWouldPrint) {
  EXPECT_NO_THROW(sheet_plan({0, 1900, 0, 1900}, Paper::a4));
  EXPECT_THROW(sheet_plan({0, 2500, 0, 2500}, Paper::a4), PaperRefused);
  EXPECT_THROW(sheet_plan({-1e6, 1e6, -1e6, 1e6}, Paper::a4), PaperRefused);
  EXPECT_THROW(sheet_plan({0, 5000, 0, 10}, Paper::bed), PaperRefused);
  try {
    sheet_plan({0, 2500, 0, 2500}, Paper::a4);
  } catch (const PaperRefused& refused) {
    EXPECT_STREQ(refused.what(),
                 "at true size (1:1) the bed needs 165 sheets of A4, and 100 are the most");
  }
}

// What must hold of any plan, whatever the bed and the paper.
class AnyPlan : public testing::Test {
 protected:
  static std::vector<std::pair<Box, SheetPlan>> plans() {
    std::mt19937 random(7);
    std::uniform_real_distribution<double> start(-300, 300), size(1, 1200);
    std::vector<std::pair<Box, SheetPlan>> out;
    for (int i = 0; i < 500; ++i) {
      const double x = start(random), y = start(random);
      const Box content{x, x + size(random), y, y + size(random)};
      for (const Paper paper : {Paper::a4, Paper::a3, Paper::letter, Paper::bed}) {
        out.emplace_back(content, sheet_plan(content, paper));
      }
    }
    return out;
  }
};

TEST_F(AnyPlan, ShowsAllOfTheBedAtTrueSize) {
  for (const auto& [content, plan] : plans()) {
    ASSERT_EQ(plan.sheets.size(), static_cast<std::size_t>(plan.columns * plan.rows));
    EXPECT_LE(plan.sheets.front().shows.x0, content.x0 + 1e-9);
    EXPECT_GE(plan.sheets.front().shows.y1, content.y1 - 1e-9);
    EXPECT_GE(plan.sheets.back().shows.x1, content.x1 - 1e-9);
    EXPECT_LE(plan.sheets.back().shows.y0, content.y0 + 1e-9);
    for (const Sheet& sheet : plan.sheets) {
      EXPECT_NEAR(sheet.shows.width(), plan.window.width(), 1e-9);
      EXPECT_NEAR(sheet.shows.depth(), plan.window.depth(), 1e-9);
    }
  }
}

TEST_F(AnyPlan, OverlapsNeighboursByTenMillimetresInOrder) {
  for (const auto& [content, plan] : plans()) {
    for (std::size_t i = 0; i < plan.sheets.size(); ++i) {
      const Sheet& sheet = plan.sheets[i];
      EXPECT_EQ(i, static_cast<std::size_t>((sheet.row - 1) * plan.columns + sheet.column - 1));
      if (sheet.column > 1) {
        EXPECT_NEAR(plan.sheets[i - 1].shows.x1 - sheet.shows.x0, 10, 1e-9);
      }
      if (sheet.row > 1) {
        const Sheet& behind = plan.sheets[i - static_cast<std::size_t>(plan.columns)];
        EXPECT_NEAR(sheet.shows.y1 - behind.shows.y0, 10, 1e-9);
      }
    }
  }
}

TEST_F(AnyPlan, NeedsEachOfItsSheets) {
  for (const auto& [content, plan] : plans()) {
    const double step_x = plan.window.width() - 10, step_y = plan.window.depth() - 10;
    if (plan.columns > 1) {
      EXPECT_GT(content.width(), (plan.columns - 1) * step_x + 10 - 1e-6);
    }
    if (plan.rows > 1) {
      EXPECT_GT(content.depth(), (plan.rows - 1) * step_y + 10 - 1e-6);
    }
  }
}

TEST_F(AnyPlan, KeepsThePrintersRimWhite) {
  for (const auto& [content, plan] : plans()) {
    EXPECT_GE(plan.window.x0, 10);
    EXPECT_GE(plan.window.y0, 10);
    EXPECT_LE(plan.window.x1, plan.width - 10);
    EXPECT_LE(plan.window.y1, plan.height - 10);
  }
}

TEST_F(AnyPlan, HasCrossesOnBothOfEachPairOfNeighbours) {
  for (const auto& [content, plan] : plans()) {
    const std::vector<Point> crosses = registration_points(plan);
    EXPECT_EQ(crosses.empty(), plan.sheets.size() == 1);
    for (const Point cross : crosses) {
      int sheets = 0;
      for (const Sheet& sheet : plan.sheets) sheets += within(sheet.shows, cross) ? 1 : 0;
      EXPECT_GE(sheets, 2);
    }
    for (const Sheet& a : plan.sheets) {
      for (const Sheet& b : plan.sheets) {
        if (std::abs(a.column - b.column) + std::abs(a.row - b.row) != 1) continue;
        int shared = 0;
        for (const Point cross : crosses) {
          shared += within(a.shows, cross) && within(b.shows, cross) ? 1 : 0;
        }
        EXPECT_GE(shared, 2);
      }
    }
  }
}

}  // namespace
}  // namespace leeway
