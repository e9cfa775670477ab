#include <gtest/gtest.h>

#include "cli/commands/check_command.h"

namespace leeway {
namespace {

CheckResult result_of(std::vector<Verdict> verdicts, std::size_t skipped = 0) {
  CheckResult result;
  result.counts.skipped = skipped;
  for (const Verdict verdict : verdicts) {
    CheckedPoint point;
    point.finding.verdict = verdict;
    result.points.push_back(point);
    result.verdict = std::max(result.verdict.value_or(verdict), verdict);
  }
  return result;
}

TEST(ExitStatus, IsZeroOnlyWhenEveryPointIsReachable) {
  EXPECT_EQ(exit_status(result_of({Verdict::reachable, Verdict::reachable})), 0);
  EXPECT_EQ(exit_status(result_of({Verdict::reachable}, 4)), 0);
  EXPECT_EQ(exit_status(result_of({Verdict::reachable, Verdict::marginal})), 1);
  EXPECT_EQ(exit_status(result_of({Verdict::reachable, Verdict::unreachable})), 1);
}

TEST(ExitStatus, IsOneWhenAllPointsWereLeftOut) { EXPECT_EQ(exit_status(result_of({}, 4)), 1); }

TEST(ExitStatus, WithoutARequestSaysWhetherAnythingWouldWork) {
  CheckResult result;
  result.regions.push_back({RegionKind::reachable, 1, Box{0, 1, 0, 1}, std::nullopt});
  EXPECT_EQ(exit_status(result), 0);
  result.regions[0] = {RegionKind::reachable, 0, std::nullopt, "the bed is too small"};
  EXPECT_EQ(exit_status(result), 1);
}

}  // namespace
}  // namespace leeway
