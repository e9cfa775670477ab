#include <gtest/gtest.h>

#include "formats/check_cases.h"

namespace leeway {
namespace {

constexpr const char* kHeader =
    "name,column,row,probe_x,probe_y,nozzle_x,nozzle_y,verdict,limit,leeway,guard,nearest_x,"
    "nearest_y\r";

TEST(CheckCsv, HasALineForEachPoint) {
  const std::vector<std::string> lines = lines_of(written(write_check_csv, side_bracket()));
  ASSERT_EQ(lines.size(), 26u);
  EXPECT_EQ(lines[0], kHeader);
  EXPECT_EQ(lines[5],
            "\"grid 5,1\",5,1,210,20,248.5,8,unreachable,travel right,-9.5,0.2,200.3,20\r");
}

TEST(CheckCsv, HasALineForEachLimitOnRequest) {
  const leeway::Setup setup = one_point({50, 20});
  const std::vector<std::string> lines =
      lines_of(written(write_check_csv, setup, {.all_limits = true}));
  ASSERT_EQ(lines.size(), 1 + Limits(setup).size());
  EXPECT_EQ(lines[7], "spot mark,,,50,20,50,20,reachable,bed front,20,0,50,20\r");
}

TEST(CheckCsv, LeavesEmptyWhatHasNoNumber) {
  leeway::Setup setup = one_point({50, 50});
  setup.probe.spot = Box{-80, 80, -1, 1};
  const std::vector<std::string> lines = lines_of(written(write_check_csv, setup));
  EXPECT_EQ(lines[1], "spot mark,,,50,50,50,50,unreachable,bed left,,0,,\r");
}

TEST(CheckCsv, KeepsHostileNamesInOneField) {
  leeway::Setup setup = one_point({50, 50});
  setup.request.points[0].name = kHostileName;
  const std::vector<std::string> lines = lines_of(written(write_check_csv, setup));
  ASSERT_EQ(lines.size(), 2u);
  EXPECT_EQ(lines[1].rfind("\"'=1|2\"\"<b>,`x`?[31m?*_  ](http://x) \xC3\xA9 ?\",,,50,50,", 0), 0u)
      << lines[1];
}

TEST(CheckCsv, WithoutPointsIsItsHeader) {
  leeway::Setup setup = one_point({50, 50});
  setup.request.points.clear();
  EXPECT_EQ(written(write_check_csv, setup), std::string(kHeader).append("\n"));
}

}  // namespace
}  // namespace leeway
