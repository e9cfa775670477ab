#pragma once
// Source files for the tests, from disk and from memory.

#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <map>
#include <sstream>
#include <string>
#include <string_view>
#include <vector>

#include "leeway/read_setup.h"

namespace leeway {

inline std::filesystem::path source_folder(const std::string& below) {
  return std::filesystem::path(LEEWAY_SOURCE_DIR) / below;
}

inline SourceFile file_from_disk(const std::filesystem::path& folder, const std::string& name) {
  SourceFile file;
  file.name = name;
  std::error_code ignored;
  file.identity = std::filesystem::weakly_canonical(folder / name, ignored).string();
  std::ifstream stream(folder / name, std::ios::binary);
  if (!stream) {
    file.problem = "no such file";
    return file;
  }
  std::ostringstream text;
  text << stream.rdbuf();
  file.text = text.str();
  return file;
}

// Finds files below a folder; names are told relative to it.
inline FileFinder finder_in(const std::filesystem::path& folder) {
  return [folder](std::string_view path, std::string_view from) {
    const auto beside = std::filesystem::path(std::string(from)).parent_path();
    return file_from_disk(folder, (beside / std::string(path)).lexically_normal().generic_string());
  };
}

// Finds files by name among texts.
inline FileFinder finder_among(const std::map<std::string, std::string>& texts) {
  return [texts](std::string_view path, std::string_view) {
    const auto found = texts.find(std::string(path));
    if (found == texts.end()) return SourceFile{std::string(path), {}, {}, "no such file"};
    return SourceFile{found->first, found->first, found->second, {}};
  };
}

inline ReadSetup read_text(const std::string& text,
                           const std::map<std::string, std::string>& others = {}) {
  return read_setup({"setup.json", "setup.json", text, {}}, finder_among(others));
}

inline std::string messages(const std::vector<Fault>& faults) {
  std::string lines;
  for (const Fault& fault : faults) lines += fault.code + " | " + message(fault) + "\n";
  return lines;
}

// The names of the JSON files of a folder, without the ending, in order. A folder without any
// fails the test run: its cases would otherwise pass by not being there.
inline std::vector<std::string> json_files(const std::filesystem::path& folder) {
  std::vector<std::string> names;
  for (const auto& entry : std::filesystem::directory_iterator(folder)) {
    if (entry.path().extension() == ".json") names.push_back(entry.path().stem().string());
  }
  std::sort(names.begin(), names.end());
  if (names.empty()) throw std::runtime_error("no case files in " + folder.string());
  return names;
}

// A file's name as the name of a test.
inline std::string test_name(const testing::TestParamInfo<std::string>& info) {
  std::string name = info.param;
  for (char& c : name) {
    if (!std::isalnum(static_cast<unsigned char>(c))) c = '_';
  }
  return name;
}

}  // namespace leeway
