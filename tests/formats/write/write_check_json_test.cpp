#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "formats/check_cases.h"

namespace leeway {
namespace {

using Json = nlohmann::ordered_json;

Json parsed(const Setup& setup, WriteOptions options = {}) {
  return Json::parse(written(write_check_json, setup, options));
}

std::vector<std::string> keys_of(const Json& object) {
  std::vector<std::string> keys;
  for (const auto& [key, value] : object.items()) keys.push_back(key);
  return keys;
}

TEST(CheckJson, HasALineAPoint) {
  // By hand: the nozzle at 210 + 38.5, 20 - 12; the travel ends at 239, guard 2 x 0.1; the nearest
  // point is 239 - 38.5 less that guard.
  const std::vector<std::string> lines = lines_of(written(write_check_json, side_bracket()));
  const std::string line =
      "    {\"name\":\"grid 5,1\",\"column\":5,\"row\":1,\"probe\":[210,20],\"nozzle\":[248.5,8],"
      "\"verdict\":\"unreachable\",\"limit\":\"travel right\",\"leeway\":-9.5,\"guard\":0.2,"
      "\"nearest\":[200.3,20]},";
  EXPECT_EQ(std::count(lines.begin(), lines.end(), line), 1);
}

TEST(CheckJson, HasTheKeysOfTheDesignInItsOrder) {
  const Json json = parsed(side_bracket());
  EXPECT_EQ(keys_of(json),
            (std::vector<std::string>{"format", "setup", "verdict", "counts", "regions", "coverage",
                                      "points", "moves", "remarks"}));
  EXPECT_EQ(json["format"], "leeway-check-2");
  EXPECT_EQ(json["setup"], "Godwit, side bracket");
  EXPECT_EQ(json["verdict"], "unreachable");
  EXPECT_EQ(json["counts"].dump(),
            "{\"points\":25,\"reachable\":20,\"marginal\":0,\"unreachable\":5,\"skipped\":0}");
  EXPECT_EQ(keys_of(json["regions"]), (std::vector<std::string>{"bed", "printable", "sensing",
                                                                "within_limits", "reachable"}));
  EXPECT_EQ(json["regions"]["bed"].dump(),
            "{\"area\":48231,\"bounds\":{\"x\":[0,233],\"y\":[0,207]}}");
  EXPECT_EQ(json["coverage"]["uncovered"].dump(),
            "{\"left\":20,\"right\":23,\"front\":20,\"back\":17}");
  EXPECT_EQ(json["points"].size(), 25u);
  EXPECT_EQ(json["moves"].dump(),
            "{\"judged\":true,\"clear\":true,\"blocked\":[],\"least_height\":2}");
}

TEST(CheckJson, GivesNoColumnToPointsOutsideTheLattice) {
  const Json point = parsed(one_point({50, 50}))["points"][0];
  EXPECT_EQ(keys_of(point), (std::vector<std::string>{"name", "probe", "nozzle", "verdict", "limit",
                                                      "leeway", "guard", "nearest"}));
  EXPECT_EQ(point["nearest"], point["probe"]);
}

TEST(CheckJson, ListsEveryLimitOnRequest) {
  const leeway::Setup setup = one_point({50, 20});
  const Json limits = parsed(setup, {.all_limits = true})["points"][0]["limits"];
  ASSERT_EQ(limits.size(), Limits(setup).size());
  EXPECT_EQ(limits[6].dump(), "{\"limit\":\"bed front\",\"leeway\":20,\"guard\":0}");
}

TEST(CheckJson, WritesNullWhereThereIsNone) {
  leeway::Setup setup = one_point({50, 50});
  setup.probe.spot = Box{-80, 80, -1, 1};  // wider than the bed
  const Json json = parsed(setup);
  EXPECT_TRUE(json["coverage"].is_null());
  EXPECT_TRUE(json["points"][0]["leeway"].is_null());
  EXPECT_TRUE(json["points"][0]["nearest"].is_null());
  EXPECT_TRUE(json["regions"]["reachable"]["bounds"].is_null());
  EXPECT_EQ(json["regions"]["reachable"]["area"], 0);
  EXPECT_FALSE(json["regions"]["reachable"]["empty"].get<std::string>().empty());
  setup.request.points.clear();
  EXPECT_TRUE(parsed(setup)["verdict"].is_null());
}

TEST(CheckJson, NamesPartAndObstacleOfABlockedMove) {
  leeway::Setup setup = one_point({50, 50});
  setup.request.points.clear();
  Grid grid;
  grid.columns = 2;
  grid.rows = 1;
  grid.extent = Box{20, 80, 50, 50};
  setup.request.grid = grid;
  setup.machine.obstacles.push_back(clip({45, 55, 40, 60}, 6, 1));
  setup.machine.head.push_back({"duct", Box{-2, 2, -2, 2}, 1});
  setup.probe.travel_height = 5.5;
  const Json moves = parsed(setup)["moves"];
  EXPECT_EQ(moves["judged"], true);
  EXPECT_EQ(moves["clear"], false);
  EXPECT_EQ(moves["least_height"], 6);
  ASSERT_EQ(moves["blocked"].size(), 1u);
  EXPECT_EQ(
      keys_of(moves["blocked"][0]),
      (std::vector<std::string>{"from", "to", "limit", "part", "obstacle", "leeway", "guard"}));
  EXPECT_EQ(moves["blocked"][0]["from"], "grid 1,1");
  EXPECT_EQ(moves["blocked"][0]["obstacle"], "clip");
  EXPECT_LT(moves["blocked"][0]["leeway"].get<double>(), 0);
}

TEST(CheckJson, KeepsHostileNamesAndIsPureAscii) {
  leeway::Setup setup = one_point({50, 50});
  setup.name = "\x1b[31m\xE2\x80\xAE\"\n";
  setup.request.points[0].name = kHostileName;
  const std::string text = written(write_check_json, setup);
  for (const char c : text) EXPECT_TRUE((c >= ' ' && c < 0x7f) || c == '\n') << static_cast<int>(c);
  const Json json = Json::parse(text);
  EXPECT_EQ(json["setup"], setup.name);
  const std::string name = json["points"][0]["name"];
  EXPECT_TRUE(holds(name, "=1|2\"<b>,`x`\x1b[31m\xE2\x80\xAE*_\r\n](http://x) \xC3\xA9"));
}

TEST(CheckJson, PrintsTheFewestDigits) {
  leeway::Setup setup = one_point({85.632911, 201.107996});
  setup.machine.bed = Box{0, 300, 0, 300};
  setup.machine.travel = Box{0, 300, 0, 300};
  EXPECT_TRUE(holds(written(write_check_json, setup), "\"probe\":[85.632911,201.107996],"));
}

TEST(CheckJson, NeverShowsMinusZero) {
  leeway::Setup setup = one_point({0, 0});
  setup.probe.offset = {-0.0, -0.0};
  EXPECT_FALSE(holds(written(write_check_json, setup), "-0,"));
  EXPECT_FALSE(holds(written(write_check_json, setup), "-0.0"));
}

}  // namespace
}  // namespace leeway
