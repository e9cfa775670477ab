// Random edits of good files: whatever comes out must be read as a setup or told to be at fault,
// never crash, and every fault must point into its file.

#include <gtest/gtest.h>

#include <algorithm>
#include <random>

#include "formats/disk_files.h"
#include "formats/text/utf8.h"

namespace leeway {
namespace {

constexpr unsigned kSeed = 2718281828;
constexpr int kRounds = 40000;

using Random = std::mt19937;

std::size_t below(Random& random, std::size_t limit) { return random() % limit; }

// Pieces of the format itself, and of what does not belong there.
const std::vector<std::string> kPieces = {"{",
                                          "}",
                                          "[",
                                          "]",
                                          ",",
                                          ":",
                                          "\"",
                                          "null",
                                          "true",
                                          "NaN",
                                          "1e999",
                                          "-",
                                          "0",
                                          "1e6",
                                          "-1",
                                          "\\",
                                          "\\u0000",
                                          "\xFF",
                                          "\n",
                                          "//",
                                          "/*",
                                          "\"x\"",
                                          "[0, 0]",
                                          "{}",
                                          "[]",
                                          "\"wkt\"",
                                          "\"profile\"",
                                          "\"rectangle\"",
                                          "\"disc\"",
                                          "\"format\"",
                                          "\"offset\"",
                                          "\"POLYGON ((0 0, 9 0, 9 9, 0 0))\"",
                                          "\"parts/pin.json\""};

void edit(std::string& text, Random& random) {
  if (text.empty()) return;
  const std::size_t at = below(random, text.size());
  const std::size_t length = 1 + below(random, random() % 4 == 0 ? 60 : 3);
  switch (random() % 6) {
    case 0:
      text.erase(at, length);
      return;
    case 1:
      text.insert(at, kPieces[below(random, kPieces.size())]);
      return;
    case 2:
      text[at] = static_cast<char>(random());
      return;
    case 3:
      text.insert(at, text.substr(below(random, text.size()), length));
      return;
    case 4: {
      // A digit becomes another, so that the file stays JSON and numbers go wrong.
      const std::size_t digit = text.find_first_of("0123456789", at);
      if (digit != std::string::npos) text[digit] = static_cast<char>('0' + random() % 10);
      return;
    }
    default:
      text.replace(at, length, kPieces[below(random, kPieces.size())]);
  }
}

std::vector<SourceFile> seeds() {
  std::vector<SourceFile> files;
  for (const std::string folder : {"tests/cases/good", "examples"}) {
    for (const std::string& name : json_files(source_folder(folder))) {
      files.push_back(file_from_disk(source_folder(folder), name + ".json"));
    }
  }
  return files;
}

// A second look at where lines end, simpler than the reader's own.
std::vector<std::size_t> line_lengths(const std::string& text) {
  std::vector<std::size_t> lengths = {0};
  for (std::size_t i = 0; i < text.size(); ++i) {
    const bool pair = text[i] == '\r' && i + 1 < text.size() && text[i + 1] == '\n';
    if (text[i] == '\n' || (text[i] == '\r' && !pair)) {
      lengths.push_back(0);
    } else {
      ++lengths.back();
    }
  }
  return lengths;
}

void expect_sound(const Fault& fault, const std::string& text) {
  EXPECT_NE(fault.code, "");
  EXPECT_NE(fault.found, "");
  const std::string line = message(fault);
  EXPECT_EQ(first_not_utf8(line), std::string::npos);
  EXPECT_TRUE(std::none_of(line.begin(), line.end(),
                           [](char c) { return static_cast<unsigned char>(c) < 0x20; }));
  if (fault.file != "setup.json" || fault.code == "empty-file" || fault.code == "more-faults")
    return;
  const std::vector<std::size_t> lengths = line_lengths(text);
  ASSERT_GE(fault.line, 1);
  ASSERT_LE(static_cast<std::size_t>(fault.line), lengths.size());
  EXPECT_GE(fault.column, 1);
  EXPECT_LE(static_cast<std::size_t>(fault.column),
            lengths[static_cast<std::size_t>(fault.line - 1)] + 1);
  EXPECT_TRUE(fault.pointer.empty() || fault.pointer[0] == '/');
}

TEST(Mutations, AreReadOrToldToBeAtFault) {
  const std::vector<SourceFile> files = seeds();
  const auto folder = source_folder("tests/cases/good");
  // Profiles are read once: the disk is not what is tested here.
  std::map<std::string, SourceFile> known;
  const FileFinder finder = [&](std::string_view path, std::string_view from) {
    const std::string name(path);
    if (first_not_utf8(name) != std::string::npos) return SourceFile{name, {}, {}, "bad name"};
    const auto found = known.find(name);
    if (found != known.end()) return found->second;
    return known[name] = finder_in(folder)(path, from);
  };
  Random random(kSeed);
  int read_well = 0;
  for (int round = 0; round < kRounds; ++round) {
    std::string text = files[below(random, files.size())].text;
    for (std::size_t n = 1 + below(random, 3); n > 0; --n) edit(text, random);
    SCOPED_TRACE("round " + std::to_string(round) + "\n" + text);
    const ReadSetup read = read_setup({"setup.json", "setup.json", text, {}}, finder);
    ASSERT_EQ(read.setup.has_value(), read.faults.empty());
    for (const Fault& fault : read.faults) expect_sound(fault, text);
    read_well += read.setup ? 1 : 0;
    if (HasFailure()) return;
  }
  // Both kinds have to occur, or the edits test nothing.
  EXPECT_GT(read_well, kRounds / 50);
  EXPECT_LT(read_well, kRounds / 2);
}

}  // namespace
}  // namespace leeway
