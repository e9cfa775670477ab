#include "formats/typed/typed_grids.h"

#include <gtest/gtest.h>

namespace leeway {
namespace {

TypedFit counts(const char* columns, const char* rows) {
  TypedFit typed;
  typed.columns = columns;
  typed.rows = rows;
  return typed;
}

TypedFit spacing(const char* text) {
  TypedFit typed;
  typed.spacing = text;
  return typed;
}

std::vector<double> spacings(const char* text) {
  std::vector<double> out;
  for (const GridWanted& grid : typed_grids(spacing(text)).wanted) out.push_back(*grid.spacing);
  return out;
}

using Values = std::vector<double>;

TEST(TypedGrids, AreSeveralOnlyWhereARangeIsTyped) {
  EXPECT_FALSE(asks_for_several(counts("5", "4")));
  EXPECT_TRUE(asks_for_several(counts("5", "3..9")));
  EXPECT_TRUE(asks_for_several(counts("3..9", "")));
  EXPECT_FALSE(asks_for_several(spacing("20")));
  EXPECT_TRUE(asks_for_several(spacing("20..50")));
}

TEST(TypedGrids, PairColumnsWithRows) {
  const ReadGrids read = typed_grids(counts("3..4", "5..6"));
  ASSERT_FALSE(read.fault);
  ASSERT_EQ(read.wanted.size(), 4u);
  EXPECT_EQ(read.wanted.front().columns, 3);
  EXPECT_EQ(read.wanted.front().rows, 5);
  EXPECT_EQ(read.wanted.back().columns, 4);
  EXPECT_EQ(read.wanted.back().rows, 6);
  EXPECT_FALSE(typed_grids(counts("3..4", "")).wanted.front().rows) << "as the request has it";
}

TEST(TypedGrids, StepThroughSpacings) {
  EXPECT_EQ(spacings("20..23"), (Values{20, 21, 22, 23}));
  EXPECT_EQ(spacings("20..30/5"), (Values{20, 25, 30}));
  EXPECT_EQ(spacings("20..29/5"), (Values{20, 25}));
  EXPECT_EQ(spacings("1..1.3/0.1"), (Values{1, 1.1, 1.2, 1.3})) << "0.3 is not a binary number";
  EXPECT_EQ(spacings("20..20/1e-300"), (Values{20}));
}

TEST(TypedGrids, RefuseWhatIsNoRange) {
  for (const char* text : {"9..3", "1..4", "3..", "..9", "3...9", "2.5..4", "3..9..12", "2..1e9"}) {
    const ReadGrids read = typed_grids(counts(text, "3"));
    ASSERT_TRUE(read.fault) << text;
    EXPECT_EQ(read.fault->field, "columns") << text;
    EXPECT_TRUE(read.wanted.empty()) << text;
  }
  for (const char* text : {"50..20", "0..5", "20..50/0", "20..50/-1", "20..50/x", "1..1e6/1e-6"}) {
    const ReadGrids read = typed_grids(spacing(text));
    ASSERT_TRUE(read.fault) << text;
    EXPECT_EQ(read.fault->field, "spacing") << text;
  }
  EXPECT_TRUE(typed_grids(counts("2..60", "2..60")).fault) << "more than can be compared";
  TypedFit both = counts("3..9", "");
  both.spacing = "20..50";
  EXPECT_TRUE(typed_grids(both).fault);
}

}  // namespace
}  // namespace leeway
