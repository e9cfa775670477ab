// The files of tests/cases, and what ships: each is one named test.
//
// Beside faulty/NAME.json stands NAME.expected: a line for each fault, its code and the exact
// message. LEEWAY_APPROVE=1 writes those files anew; look at the difference before keeping it.

#include <gtest/gtest.h>

#include <cstdlib>
#include <fstream>

#include "formats/disk_files.h"

namespace leeway {
namespace {

const std::filesystem::path kFaulty = source_folder("tests/cases/faulty");
const std::filesystem::path kGood = source_folder("tests/cases/good");
const std::filesystem::path kExamples = source_folder("examples");
const std::filesystem::path kMachines = source_folder("profiles/machines");
const std::filesystem::path kProbes = source_folder("profiles/probes");

ReadSetup read_from(const std::filesystem::path& folder, const std::string& name) {
  return read_setup(file_from_disk(folder, name + ".json"), finder_in(folder));
}

bool approving() {
  const char* value = std::getenv("LEEWAY_APPROVE");
  return value != nullptr && std::string(value) == "1";
}

class FaultyFile : public testing::TestWithParam<std::string> {};

TEST_P(FaultyFile, TellsEveryFault) {
  const ReadSetup read = read_from(kFaulty, GetParam());
  EXPECT_FALSE(read.setup.has_value());
  const std::string told = messages(read.faults);
  EXPECT_NE(told, "");
  const std::filesystem::path expected = kFaulty / (GetParam() + ".expected");
  if (approving()) {
    std::ofstream(expected, std::ios::binary) << told;
    return;
  }
  const SourceFile file = file_from_disk(kFaulty, GetParam() + ".expected");
  ASSERT_EQ(file.problem, "") << expected;
  EXPECT_EQ(told, file.text);
}

INSTANTIATE_TEST_SUITE_P(Cases, FaultyFile, testing::ValuesIn(json_files(kFaulty)), test_name);

TEST(FaultyFiles, AreAtLeastFifty) { EXPECT_GE(json_files(kFaulty).size(), 50u); }

TEST(FaultyFiles, HaveNoExpectationsLeftOver) {
  for (const auto& entry : std::filesystem::directory_iterator(kFaulty)) {
    if (entry.path().extension() != ".expected") continue;
    EXPECT_TRUE(std::filesystem::exists(entry.path().parent_path() /
                                        (entry.path().stem().string() + ".json")))
        << entry.path();
  }
}

class GoodFile : public testing::TestWithParam<std::string> {};

TEST_P(GoodFile, ReadsWithoutFault) {
  const ReadSetup read = read_from(kGood, GetParam());
  EXPECT_EQ(messages(read.faults), "");
  EXPECT_TRUE(read.setup.has_value());
}

INSTANTIATE_TEST_SUITE_P(Cases, GoodFile, testing::ValuesIn(json_files(kGood)), test_name);

class ShippedExample : public testing::TestWithParam<std::string> {};

TEST_P(ShippedExample, ReadsWithoutFault) {
  const ReadSetup read = read_from(kExamples, GetParam());
  EXPECT_EQ(messages(read.faults), "");
  EXPECT_TRUE(read.setup.has_value());
}

INSTANTIATE_TEST_SUITE_P(Examples, ShippedExample, testing::ValuesIn(json_files(kExamples)),
                         test_name);

class ShippedMachine : public testing::TestWithParam<std::string> {};

TEST_P(ShippedMachine, ReadsWithoutFault) {
  const std::string setup =
      "{\"machine\": \"" + GetParam() + ".json\", \"probe\": {\"offset\": [0, 0]}}";
  const ReadSetup read = read_setup({"setup", "setup", setup, {}}, finder_in(kMachines));
  EXPECT_EQ(messages(read.faults), "");
}

INSTANTIATE_TEST_SUITE_P(Machines, ShippedMachine, testing::ValuesIn(json_files(kMachines)),
                         test_name);

class ShippedProbe : public testing::TestWithParam<std::string> {};

TEST_P(ShippedProbe, ReadsWithoutFault) {
  const std::string setup =
      "{\"machine\": {\"bed\": {\"disc\": {\"center\": [0, 0], \"radius\": 94.5}}, "
      "\"travel\": {\"disc\": {\"center\": [0, 0], \"radius\": 94.5}}}, "
      "\"probe\": {\"profile\": \"" +
      GetParam() + ".json\", \"offset\": [0, 0]}}";
  const ReadSetup read = read_setup({"setup", "setup", setup, {}}, finder_in(kProbes));
  EXPECT_EQ(messages(read.faults), "");
}

INSTANTIATE_TEST_SUITE_P(Probes, ShippedProbe, testing::ValuesIn(json_files(kProbes)), test_name);

}  // namespace
}  // namespace leeway
