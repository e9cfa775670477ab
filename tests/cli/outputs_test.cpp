// What one run writes: every file of it or none, and nothing left behind.

#include <fcntl.h>
#include <gtest/gtest.h>
#include <unistd.h>

#include <csignal>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <stdexcept>

#include "cli/failure.h"
#include "cli/output_file.h"

namespace {
void (*before_renaming)() = nullptr;
}  // namespace

// In place of the C library's: the moment at which a file takes its name.
extern "C" int rename(const char* from, const char* to) noexcept {
  if (before_renaming != nullptr) before_renaming();
  return ::renameat(AT_FDCWD, from, AT_FDCWD, to);
}

namespace leeway {
namespace {

namespace fs = std::filesystem;

class OutputsOfARun : public testing::Test {
 protected:
  void SetUp() override {
    std::string pattern = (fs::temp_directory_path() / "leeway-out-XXXXXX").string();
    ASSERT_NE(::mkdtemp(pattern.data()), nullptr);
    folder_ = pattern;
    put("kept", "old setup");
    put("result", "old result");
  }
  void TearDown() override {
    before_renaming = nullptr;
    fs::remove_all(folder_);
  }

  std::string path(const std::string& name) const { return (folder_ / name).string(); }
  void put(const std::string& name, const std::string& text) const {
    std::ofstream(folder_ / name) << text;
  }
  std::string get(const std::string& name) const {
    std::ifstream file(folder_ / name);
    std::stringstream text;
    text << file.rdbuf();
    return text.str();
  }
  std::size_t files() const {
    return static_cast<std::size_t>(
        std::distance(fs::directory_iterator(folder_), fs::directory_iterator()));
  }
  void expect_nothing_happened() const {
    EXPECT_EQ(get("kept"), "old setup");
    EXPECT_EQ(files(), 2u);
  }
  // A run that writes both files.
  void write_both(const std::function<void()>& meanwhile = [] {}) const {
    Outputs outputs;
    Output& result = outputs.open(path("result"));
    outputs.keep(path("kept"), "new setup");
    outputs.finish([&] {
      result.write("new result");
      meanwhile();
    });
  }

  fs::path folder_;
};
using OutputsOfARunDeathTest = OutputsOfARun;

TEST_F(OutputsOfARun, AreAllWritten) {
  write_both();
  EXPECT_EQ(get("kept"), "new setup");
  EXPECT_EQ(get("result"), "new result");
  EXPECT_EQ(files(), 2u);
}

TEST_F(OutputsOfARun, StayAsTheyWereWhenTheResultCannotBeFound) {
  EXPECT_THROW(write_both([] { throw std::runtime_error("no result"); }), std::runtime_error);
  expect_nothing_happened();
  EXPECT_EQ(get("result"), "old result");
}

TEST_F(OutputsOfARun, StayAsTheyWereWhenTheLastCannotTakeItsName) {
  EXPECT_THROW(write_both([&] {
                 fs::remove(folder_ / "result");
                 fs::create_directory(folder_ / "result");
               }),
               OutputFault);
  expect_nothing_happened();
}

TEST_F(OutputsOfARun, DoNotLeaveANewFileWhenTheLastCannotTakeItsName) {
  fs::remove(folder_ / "kept");
  EXPECT_THROW(write_both([&] {
                 fs::remove(folder_ / "result");
                 fs::create_directory(folder_ / "result");
               }),
               OutputFault);
  EXPECT_FALSE(fs::exists(folder_ / "kept"));
  EXPECT_EQ(files(), 1u);
}

TEST_F(OutputsOfARun, AreNotTouchedWhereADeviceIsFull) {
  if (::access("/dev/full", W_OK) != 0) GTEST_SKIP() << "there is no /dev/full";
  Outputs outputs;
  Output& result = outputs.open("/dev/full");
  outputs.keep(path("kept"), "new setup");
  EXPECT_THROW(outputs.finish([&] { result.write("new result"); }), OutputFault);
  EXPECT_EQ(get("kept"), "old setup");
}

TEST_F(OutputsOfARunDeathTest, LeaveNothingBehindWhateverTheSignal) {
  for (const int signal : {SIGHUP, SIGINT, SIGQUIT, SIGABRT, SIGUSR1, SIGUSR2, SIGALRM, SIGTERM,
                           SIGXCPU, SIGVTALRM, SIGPROF}) {
    const auto run = [&] {
      std::signal(signal, SIG_DFL);
      write_both([&] { std::raise(signal); });
    };
    EXPECT_EXIT(run(), testing::KilledBySignal(signal), "");
    expect_nothing_happened();
    EXPECT_EQ(get("result"), "old result");
  }
}

// At the worst moment: the first file has its name, the second does not.
TEST_F(OutputsOfARunDeathTest, AreAllWrittenBeforeASignalBetweenThemEndsTheRun) {
  before_renaming = [] { std::raise(SIGTERM); };
  const auto run = [&] {
    std::signal(SIGTERM, SIG_DFL);
    write_both();
  };
  EXPECT_EXIT(run(), testing::KilledBySignal(SIGTERM), "");
  EXPECT_EQ(get("kept"), "new setup");
  EXPECT_EQ(get("result"), "new result");
  EXPECT_EQ(files(), 2u);
}

// Files that are finished leave their place to others.
TEST_F(OutputsOfARun, MayComeOneRunAfterAnother) {
  for (int i = 0; i < 20; ++i) write_both();
  EXPECT_EQ(files(), 2u);
}

}  // namespace
}  // namespace leeway
