#include "formats/text/numbers.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

namespace leeway {
namespace {

TEST(Numbers, NeverShowMinusZero) {
  for (const double value : {-0.0, -4e-7}) {
    EXPECT_EQ(shortest(value), "0");
    EXPECT_EQ(decimal(value), "0");
    EXPECT_EQ(signed_amount(rounded(value)), "0");
    EXPECT_FALSE(std::signbit(rounded(value)));
  }
  EXPECT_EQ(decimal(-0.0004), "0");
}

TEST(Numbers, ForProgramsLoseTheNoiseOfDecimals) {
  EXPECT_EQ(shortest(0.1 + 0.2), "0.3");
  EXPECT_EQ(shortest(229.6 - 38.5), "191.1");
  EXPECT_EQ(shortest(-12.5), "-12.5");
  EXPECT_EQ(shortest(48300), "48300");
  EXPECT_EQ(shortest(1e-6), "0.000001");
  EXPECT_EQ(shortest(-0.05), "-0.05");
  EXPECT_EQ(rounded(0.1 + 0.2), 0.3);
}

TEST(Numbers, BeyondAnyMachineStayReadable) {
  EXPECT_EQ(std::stod(shortest(1e300)), 1e300);
  EXPECT_EQ(std::stod(shortest(-2.5e12)), -2.5e12);
  EXPECT_EQ(std::stod(decimal(1e300)), 1e300);
  EXPECT_EQ(std::stod(at_least(4e12)), 4e12);
}

TEST(Numbers, ForPeopleHaveThreeDecimalsAtMost) {
  EXPECT_EQ(decimal(67.5), "67.5");
  EXPECT_EQ(decimal(1.0 / 3), "0.333");
  EXPECT_EQ(decimal(-1.0 / 3, true), "-0.333333");
  EXPECT_EQ(pair({248.5, 8}), "248.5, 8");
}

TEST(Numbers, NeverUnderstateAShortfall) {
  EXPECT_EQ(at_least(12.5), "12.5");
  EXPECT_EQ(at_least(0.123), "0.123");
  EXPECT_EQ(at_least(0.123001), "0.124");
  EXPECT_EQ(at_least(0.000001), "0.000001");
  EXPECT_EQ(at_least(0.0004), "0.0004");
}

TEST(Numbers, NeverOverstateWhatIsLeft) {
  EXPECT_EQ(at_most(0.2), "0.2");
  EXPECT_EQ(at_most(0.199999), "0.199");
  EXPECT_EQ(at_most(0.000999), "0.000999");
  EXPECT_EQ(at_most(0.000001), "0.000001");
  EXPECT_EQ(at_most(0), "0");
}

TEST(Numbers, OfEitherSignAreNeverFlattered) {
  EXPECT_EQ(signed_amount(-1.0005), "-1.001");
  EXPECT_EQ(signed_amount(1.0005), "1");
  EXPECT_EQ(signed_amount(-std::numeric_limits<double>::infinity()), "none");
}

TEST(Numbers, PercentagesAreRoundedDown) {
  EXPECT_EQ(percent(1), "100");
  EXPECT_EQ(percent(0.99999), "99.9");
  EXPECT_EQ(percent(0.82), "82");
  EXPECT_EQ(percent(0.29), "29");
  EXPECT_EQ(percent(0.0004), "0");
}

}  // namespace
}  // namespace leeway
