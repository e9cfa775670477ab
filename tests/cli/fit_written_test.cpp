// `leeway fit --write`: what it writes passes `leeway check`.

#include <fmt/format.h>
#include <gtest/gtest.h>
#include <sys/wait.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>
#include <random>
#include <sstream>

#include "fewer.h"

namespace leeway {
namespace {

namespace fs = std::filesystem;

class FitWritten : public testing::Test {
 protected:
  void SetUp() override {
    std::string pattern = (fs::temp_directory_path() / "leeway-fit-XXXXXX").string();
    ASSERT_NE(::mkdtemp(pattern.data()), nullptr);
    folder_ = pattern;
    ASSERT_EQ(::setenv("LEEWAY_TEST_FOLDER", folder_.c_str(), 1), 0);
  }
  void TearDown() override { fs::remove_all(folder_); }

  // The exit status; standard output goes to "out" in the folder.
  int run(const std::string& words) const {
    const int status =
        std::system(fmt::format("'{}' {} > '{}' 2> '{}'", LEEWAY_BINARY, words,
                                (folder_ / "out").string(), (folder_ / "err").string())
                        .c_str());
    return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
  }
  std::string read(const std::string& name) const {
    std::ifstream file(folder_ / name);
    std::stringstream text;
    text << file.rdbuf();
    return text.str();
  }

  fs::path folder_;
};

// Points that no mesh mends are all that may fail.
TEST_F(FitWritten, EveryExamplePassesCheck) {
  std::size_t examples = 0;
  std::size_t clean = 0;
  for (const fs::directory_entry& entry : fs::directory_iterator(LEEWAY_SOURCE_DIR "/examples")) {
    if (entry.path().extension() != ".json") continue;
    ++examples;
    const std::string written = (folder_ / entry.path().filename()).string();
    const int status =
        run(fmt::format("fit '{}' --format json --write '{}'", entry.path().string(), written));
    const auto fitted = nlohmann::json::parse(read("out"));
    ASSERT_TRUE(fitted["feasible"].get<bool>()) << entry.path();
    const bool well = fitted["unmet"].empty() && fitted["moves"]["clear"] != false;
    EXPECT_EQ(status, well ? 0 : 1) << entry.path();
    const int checked = run(fmt::format("check '{}' --format json", written));
    EXPECT_EQ(checked, status) << entry.path() << "\n" << read("err");
    const auto result = nlohmann::json::parse(read("out"));
    for (const auto& point : result["points"]) {
      if (point.contains("column")) {
        EXPECT_EQ(point["verdict"], "reachable") << entry.path() << " " << point;
      }
    }
    if (checked == 0) ++clean;
  }
  EXPECT_GE(examples, 8u);
  EXPECT_GE(clean, 4u);
}

TEST_F(FitWritten, RandomSetupsPassCheck) {
  std::mt19937_64 engine(11);
  const auto between = [&](double low, double high) {
    return std::uniform_real_distribution<double>(low, high)(engine);
  };
  std::size_t fitted = 0;
  for (int i = 0; i < fewer(120); ++i) {
    const double width = between(120, 300);
    const double depth = between(100, 260);
    const std::string bed =
        i % 3 == 0
            ? fmt::format(R"({{"disc": {{"center": [{0:.6f}, {0:.6f}], "radius": {0:.6f}}}}})",
                          width / 2)
            : fmt::format(R"({{"rectangle": {{"x": [0, {:.3f}], "y": [0, {:.3f}]}}}})", width,
                          depth);
    const std::string text = fmt::format(
        R"({{ // random {0}
  "machine": {{"bed": {1}, "travel": {{"rectangle": {{"x": [{2:.4f}, {3:.4f}], "y": [-5, {4:.4f}]}}}},
    "obstacles": [{{"name": "peg", "shape": {{"disc": {{"center": [{5:.2f}, {6:.2f}], "radius": 6}}}},
                   "height": 9, "clearance": {7:.2f}}}],
    "head": [{{"name": "duct", "outline": {{"rectangle": {{"x": [-20, 20], "y": [-30, -10]}}}}, "underside": 3}}],
    "uncertainty": {{"travel": 0.1, "bed": {8:.3f}}}}},
  "probe": {{"offset": [{9:.5f}, {10:.5f}], "offset_uncertainty": [0.1, {11:.2f}], "edge_distance": 1}},
  "request": {{"grid": {{"columns": {12}, "rows": {13}, "margins": 3{14}}}}}
}})",
        i, bed, between(-10, 5), width + between(-5, 10), depth + between(-5, 10),
        between(0, width), between(0, depth), between(0, 2), between(0, 0.4), between(-50, 50),
        between(-50, 50), i % 2 == 0 ? 0.1 : 0.3, 2 + i % 6, 2 + i % 5,
        i % 4 == 0 ? R"(, "outside_bed": "skip")" : "");
    std::ofstream(folder_ / "given.json") << text;
    const std::string given = (folder_ / "given.json").string();
    const std::string written = (folder_ / "written.json").string();
    fs::remove(written);
    const std::string step = i % 5 == 0 ? " --step 0.05" : i % 7 == 0 ? " --uniform" : "";
    const int status = run(fmt::format("fit '{}' --write '{}'{}", given, written, step));
    ASSERT_TRUE(status == 0 || status == 1) << text << read("err");
    ASSERT_EQ(fs::exists(written), status == 0) << text;
    if (status == 1) continue;
    ++fitted;
    EXPECT_EQ(run(fmt::format("check '{}'", written)), 0) << text << read("out") << read("err");
  }
  EXPECT_GT(fitted, fewer(100u));
}

TEST_F(FitWritten, KeepsAFileUnlessForced) {
  const std::string given = LEEWAY_SOURCE_DIR "/examples/godwit-side-bracket.json";
  const std::string written = (folder_ / "kept.json").string();
  std::ofstream(written) << "mine";
  EXPECT_EQ(run(fmt::format("fit '{}' --write '{}'", given, written)), 2);
  EXPECT_EQ(read("kept.json"), "mine");
  EXPECT_EQ(run(fmt::format("fit '{}' --write '{}' --force", given, written)), 0);
  EXPECT_NE(read("kept.json"), "mine");
  EXPECT_EQ(run(fmt::format("check '{}'", written)), 0);
}

TEST_F(FitWritten, MayReplaceTheSetupItself) {
  const std::string own = (folder_ / "own.json").string();
  std::ofstream(own) << R"({"machine": {"bed": {"rectangle": {"x": [0, 100], "y": [0, 100]}},
    "travel": {"rectangle": {"x": [0, 100], "y": [0, 100]}}}, "probe": {"offset": [10, 0]},
    "request": {"grid": {"columns": 3, "rows": 3, "margins": 0}}})";
  EXPECT_EQ(run(fmt::format("check '{}'", own)), 1);
  EXPECT_EQ(run(fmt::format("fit '{0}' --write '{0}' --force", own)), 0);
  EXPECT_EQ(run(fmt::format("check '{}'", own)), 0);
}

}  // namespace
}  // namespace leeway
