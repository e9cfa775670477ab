// The tables of results in profiles/README.md, held against what the real command writes.

#include <gtest/gtest.h>

#include <cstdio>
#include <fstream>
#include <memory>
#include <nlohmann/json.hpp>
#include <set>
#include <sstream>
#include <string>
#include <vector>

namespace {

using Json = nlohmann::json;
using Keys = std::set<std::string>;

Json result_of(const std::string& arguments) {
  const std::string command =
      "cd '" LEEWAY_SOURCE_DIR "' && '" LEEWAY_BINARY "' " + arguments + " --format json";
  const std::unique_ptr<std::FILE, int (*)(std::FILE*)> pipe(popen(command.c_str(), "r"), pclose);
  std::string text;
  char piece[4096];
  while (const std::size_t got = std::fread(piece, 1, sizeof piece, pipe.get())) {
    text.append(piece, got);
  }
  return Json::parse(text);
}

void collect_names(const Json& value, Keys& names) {
  if (!value.is_structured()) return;
  for (const auto& [key, below] : value.items()) {
    if (value.is_object()) names.insert(key);
    // The keys of a change are JSON Pointers.
    if (key != "change") collect_names(below, names);
  }
}

// The section of profiles/README.md with that heading.
std::string section(const std::string& heading) {
  std::ifstream file(LEEWAY_SOURCE_DIR "/profiles/README.md");
  std::ostringstream all;
  all << file.rdbuf();
  const std::string text = all.str();
  const std::size_t begin = text.find("\n### " + heading + "\n");
  EXPECT_NE(begin, std::string::npos) << heading;
  return text.substr(begin, text.find("\n##", begin + 1) - begin);
}

Keys words_in_backticks(const std::string& text) {
  Keys words;
  for (std::size_t at = text.find('`'); at != std::string::npos; at = text.find('`', at + 1)) {
    const std::size_t end = text.find('`', at + 1);
    words.insert(text.substr(at + 1, end - at - 1));
    at = end;
  }
  return words;
}

Keys first_column(const std::string& text) {
  Keys keys;
  std::istringstream lines(text);
  for (std::string line; std::getline(lines, line);) {
    if (line.rfind("| `", 0) == 0) keys.insert(line.substr(3, line.find('`', 3) - 3));
  }
  return keys;
}

struct Runs {
  const char* command;
  std::vector<std::string> arguments;
};

const Runs kRuns[] = {
    {"check",
     {"examples/godwit-side-bracket.json --all-limits", "examples/dunlin-contact-pin.json",
      "tests/cli/files/nothing-works.json"}},
    {"fit",
     {"examples/dunlin-contact-pin.json", "examples/godwit-side-bracket.json",
      "examples/godwit-front-probe.json",
      "tests/cli/files/nothing-works.json --columns 3 --rows 3"}},
    {"explain",
     {"examples/godwit-side-bracket.json", "examples/godwit-all-well.json --answer probe-right",
      "examples/godwit-all-well.json examples/godwit-side-bracket.json"}},
    {"bracket",
     {"examples/godwit-new-bracket.json --candidates examples/brackets.csv "
      "--map -40..40/5,-20..20/3",
      "examples/godwit-all-well.json --leeway 2 --tolerance 0.3,0.1 --map points",
      "examples/plover-round.json"}},
    {"cover",
     {"examples/godwit-side-bracket.json tests/cli/files/cover-wide.ngc",
      "examples/curlew-clips.json --rectangle 0,0,200,200"}},
    {"measure", {"examples/godwit-readings.csv", "tests/cli/files/loose-bracket.csv"}},
};

TEST(DocumentedResults, HaveEveryKeyOfTheJson) {
  for (const Runs& runs : kRuns) {
    Keys top, names;
    for (const std::string& arguments : runs.arguments) {
      const Json result = result_of(std::string(runs.command) + " " + arguments);
      for (const auto& [key, value] : result.items()) top.insert(key);
      collect_names(result, names);
    }
    const std::string written = section(std::string("Of ") + runs.command);
    EXPECT_EQ(first_column(written), top) << runs.command;
    const Keys words = words_in_backticks(written);
    for (const std::string& name : names) {
      EXPECT_TRUE(words.count(name)) << runs.command << ": " << name << " is not described";
    }
  }
}

}  // namespace
