// Coverage against leeway.

#include <gtest/gtest.h>

#include <array>
#include <cmath>

#include "leeway/bracket.h"
#include "leeway/coverage_map.h"
#include "model/setups.h"
#include "tasks/bracket/trade_off.h"

namespace leeway {
namespace {

BracketResult answer(const Setup& setup, BracketOptions options = {}) {
  return bracket(std::span(&setup, 1), options);
}

// A bed of 200 x 200 under a travel of 220 x 220, points to the right of the middle.
Setup to_the_right() {
  leeway::Setup setup = bare(Box{0, 200, 0, 200}, Box{-10, 210, -10, 210});
  setup.request.grid = Grid{3, 3, Box{60, 190, 30, 170}, Frame::probe, false};
  return setup;
}

// Worked by hand: the window is x -20..70, y -40..40. Within 10 of the nozzle all is covered; x
// beyond 10 costs a 200th a millimetre. The leeway to the left end is x + 20, so that it is 30
// where coverage ends to be full, and 40 at x = 20.
TEST(TradeOff, OfARectangularTravel) {
  const BracketResult r = answer(to_the_right());
  ASSERT_TRUE(r.trade_off);
  const auto& curve = r.trade_off->curve;
  EXPECT_EQ(curve.front().leeway, 30);
  EXPECT_EQ(curve.front().coverage, 1);
  EXPECT_EQ(curve.back().leeway, 40);
  EXPECT_NEAR(curve.back().coverage, 0.95, 1e-12);
  EXPECT_EQ(curve.size(), 101u);  // a tenth of a millimetre each
  for (const BracketTrade& trade : curve) {
    EXPECT_NEAR(trade.coverage, 1 - (trade.leeway - 30) / 200, 1e-9);
    EXPECT_NEAR(std::remainder(trade.leeway, 0.1), 0, 1e-9);
  }
  EXPECT_FALSE(r.trade_off->knee);  // a straight line
  EXPECT_EQ(r.best->offset, curve.back().offset);
  EXPECT_EQ(*r.best->coverage, curve.back().coverage);
}

TEST(TradeOff, NamesTheBestWithTheLeewayThatIsWanted) {
  BracketOptions options;
  options.leeway = 33.33;
  const BracketResult r = answer(to_the_right(), options);
  ASSERT_TRUE(r.asked);
  EXPECT_EQ(r.asked->trade.offset.x, 13.33);
  EXPECT_EQ(r.asked->trade.leeway, 33.33);
  EXPECT_TRUE(all_well(r));
  options.leeway = 40.001;
  const BracketResult too_much = answer(to_the_right(), options);
  EXPECT_FALSE(too_much.asked);
  EXPECT_FALSE(all_well(too_much));
}

TEST(TradeOff, TakesTheLeastCoverageOfAllSetups) {
  std::array setups{to_the_right(), to_the_right()};
  setups[1].machine.travel = Box{-10, 200, -10, 210};
  const BracketResult r = bracket(setups);
  for (const BracketTrade& trade : r.trade_off->curve) {
    const Steps x{trade.offset.x, trade.offset.x, 1};
    const Steps y{trade.offset.y, trade.offset.y, 1};
    EXPECT_NEAR(trade.coverage, common_coverage_map(setups, x, y).map->at(0, 0), 1e-12);
  }
}

// A window without area has its trade-off along it.
TEST(TradeOff, OfALine) {
  leeway::Setup setup = to_the_right();
  setup.machine.travel = Box{60.1, 190.1, -10, 210};
  const BracketResult r = answer(setup);
  ASSERT_TRUE(r.trade_off);
  EXPECT_EQ(r.trade_off->curve.size(), 1u);
  EXPECT_EQ(r.trade_off->curve[0].leeway, 0);
}

TEST(TradeOff, TheKneeIsWhereItBends) {
  std::vector<BracketTrade> curve;
  for (int i = 0; i <= 10; ++i) {
    const double leeway = i / 10.0;
    curve.push_back({{}, leeway, i <= 7 ? 0.9 - 0.01 * leeway : 0.893 - (leeway - 0.7)});
  }
  EXPECT_EQ(knee_of(curve), 7u);
  for (BracketTrade& trade : curve) trade.coverage = 1 - trade.leeway;
  EXPECT_EQ(knee_of(curve), 0u);
}

TEST(TradeOff, StopsWhenItIsToldTo) {
  const leeway::Setup setup = to_the_right();
  BracketOptions options;
  options.progress = [](double) { return false; };
  EXPECT_THROW(answer(setup, options), Stopped);
}

}  // namespace
}  // namespace leeway
