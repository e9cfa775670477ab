// Putting a mesh into the text of a setup.

#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "leeway/read_setup.h"
#include "leeway/rewrite_setup.h"

namespace leeway {
namespace {

FitMesh mesh() {
  FitMesh mesh;
  mesh.columns = 4;
  mesh.rows = 3;
  mesh.bounds = {5.5, 197, 10.25, 204.5};
  return mesh;
}

std::string same(const std::string& path) { return path; }

constexpr const char* kGrid =
    R"({"columns": 4, "rows": 3, "x": [5.5, 197], "y": [10.25, 204.5], "frame": "probe"})";

TEST(RewriteSetup, ReplacesTheGridAndNothingElse) {
  const std::string before = R"({
  // A comment that stays.
  "machine": {"travel": {"rectangle": {"x": [0, 1e2], "y": [0.00, 100]}}, "bed": 1},
  "request": {"home": {"at": [1.50, 2]}, "grid": )";
  const std::string after = R"(, "points": []} /* and this */
}
)";
  const Rewritten made =
      rewrite_grid(before + R"({"columns": 9, "margins": {"left": 1}})" + after, mesh(), same);
  EXPECT_EQ(made.text, before + kGrid + after);
  EXPECT_FALSE(made.comments_lost);
}

TEST(RewriteSetup, KeepsWhatBecomesOfPointsOffTheBed) {
  const Rewritten made =
      rewrite_grid(R"({"request": {"grid": {"outside_bed": "skip", "columns": 2}}})", mesh(), same);
  EXPECT_NE(made.text.find(R"("outside_bed": "skip"})"), std::string::npos);
}

TEST(RewriteSetup, TellsOfCommentsInsideTheGrid) {
  EXPECT_TRUE(rewrite_grid("{\"request\": {\"grid\": {\"columns\": 2 // two\n}}}", mesh(), same)
                  .comments_lost);
  EXPECT_FALSE(
      rewrite_grid(R"({"request": {"grid": {"frame": "a // b"}}})", mesh(), same).comments_lost);
}

TEST(RewriteSetup, AddsWhatIsMissing) {
  const auto parsed = [](const Rewritten& made) {
    return nlohmann::ordered_json::parse(made.text, nullptr, true, true);
  };
  for (const char* text :
       {"{\"machine\": 1}", "{\"machine\": 1, \"request\": {}}", "{\n  \"machine\": 1 // last\n}\n",
        "{\"machine\": 1, \"request\": {\"home\": 2}}",
        "{\"machine\": 1, \"request\": { /* x */ }}"}) {
    const auto json = parsed(rewrite_grid(text, mesh(), same));
    EXPECT_EQ(json["request"]["grid"]["columns"], 4) << text;
    EXPECT_EQ(json["machine"], 1) << text;
  }
}

TEST(RewriteSetup, MovesPathsOfProfiles) {
  const auto deeper = [](const std::string& path) { return "../" + path; };
  const Rewritten made = rewrite_grid(
      R"({"machine": "a.json", "probe": {"profile": "b.json"}, "request": {}})", mesh(), deeper);
  EXPECT_NE(made.text.find(R"("machine": "../a.json")"), std::string::npos);
  EXPECT_NE(made.text.find(R"("profile": "../b.json")"), std::string::npos);
  const Rewritten by_name =
      rewrite_grid(R"({"machine": {"name": "a"}, "probe": "b.json"})", mesh(), deeper);
  EXPECT_NE(by_name.text.find(R"("probe": "../b.json")"), std::string::npos);
  EXPECT_NE(by_name.text.find(R"({"name": "a"})"), std::string::npos);
}

TEST(RewriteSetup, ReadsTheTextOfAByteOrderMarkToo) {
  const Rewritten made = rewrite_grid("\xEF\xBB\xBF{\"request\": {\"grid\": 1}}", mesh(), same);
  EXPECT_EQ(made.text, "\xEF\xBB\xBF{\"request\": {\"grid\": " + std::string(kGrid) + "}}\n");
}

TEST(RewriteOffset, ReplacesBothAndNothingElse) {
  EXPECT_EQ(rewrite_offset(R"({"probe": {"offset": [1, 2] /* by ruler */, "edge_distance": 1.50,
    "offset_uncertainty": [0.3, 0.3]}})",
                           {-38.512, 12}, {0.061, 0.05})
                .text,
            R"({"probe": {"offset": [-38.512, 12] /* by ruler */, "edge_distance": 1.50,
    "offset_uncertainty": [0.061, 0.05]}})"
            "\n");
}

TEST(RewriteOffset, AddsWhatIsMissing) {
  EXPECT_EQ(rewrite_offset(R"({"probe": {"offset": [1, 2]}})", {3, 4}, {0.1, 0.2}).text,
            "{\"probe\": {\"offset_uncertainty\": [0.1, 0.2], \"offset\": [3, 4]}}\n");
  EXPECT_EQ(rewrite_offset(R"({"probe": {"profile": "a.json"}})", {3, 4}, {0.1, 0.2}).text,
            "{\"probe\": {\"offset\": [3, 4], \"offset_uncertainty\": [0.1, 0.2], \"profile\": "
            "\"a.json\"}}\n");
}

TEST(RewriteOffset, TurnsTheNameOfAProfileIntoAnObject) {
  EXPECT_EQ(rewrite_offset(R"({"probe": "a.json"})", {3, 4}, {0.1, 0.2}).text,
            "{\"probe\": {\"profile\": \"a.json\", \"offset\": [3, 4], \"offset_uncertainty\": "
            "[0.1, 0.2]}}\n");
}

TEST(RewriteOffset, WritesTheCoverageFactorAtItsPlace) {
  const std::string offset = R"("probe": {"offset": [3, 4], "offset_uncertainty": [0.1, 0.2]})";
  const std::string factor = "\"coverage_factor\": 2.58";
  EXPECT_EQ(
      rewrite_offset("{\"coverage_factor\": 2, " + offset + "}\n", {3, 4}, {0.1, 0.2}, 2.58).text,
      "{" + factor + ", " + offset + "}\n");
  EXPECT_EQ(
      rewrite_offset("{\n  " + offset + ",\n  \"request\": {}\n}\n", {3, 4}, {0.1, 0.2}, 2.58).text,
      "{\n  " + offset + ",\n  " + factor + ",\n  \"request\": {}\n}\n");
  // A profile's name becomes an object, and the factor still follows it.
  EXPECT_EQ(rewrite_offset(R"({"probe": "a.json", "request": {}})", {3, 4}, {0.1, 0.2}, 2.58).text,
            "{\"probe\": {\"profile\": \"a.json\", \"offset\": [3, 4], \"offset_uncertainty\": "
            "[0.1, 0.2]},\n  " +
                factor + ", \"request\": {}}\n");
}

}  // namespace
}  // namespace leeway
