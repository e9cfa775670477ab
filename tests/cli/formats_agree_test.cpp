// The real command's JSON and CSV, held against each other, point by point.

#include <gtest/gtest.h>

#include <cstdio>
#include <filesystem>
#include <memory>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

namespace {

using Json = nlohmann::json;

std::string output_of(const std::string& arguments) {
  const std::string command = "'" LEEWAY_BINARY "' " + arguments;
  const std::unique_ptr<std::FILE, int (*)(std::FILE*)> pipe(popen(command.c_str(), "r"), pclose);
  std::string text;
  char piece[4096];
  while (const std::size_t got = std::fread(piece, 1, sizeof piece, pipe.get())) {
    text.append(piece, got);
  }
  return text;
}

// RFC 4180: fields in quotes may hold commas, line breaks and doubled quotes.
std::vector<std::vector<std::string>> records_of(const std::string& csv) {
  std::vector<std::vector<std::string>> records(1, std::vector<std::string>(1));
  bool quoted = false;
  for (std::size_t i = 0; i < csv.size(); ++i) {
    std::string& field = records.back().back();
    if (csv[i] == '"') {
      if (quoted && csv.substr(i + 1, 1) == "\"") {
        field += csv[++i];
      } else {
        quoted = !quoted;
      }
    } else if (!quoted && csv[i] == ',') {
      records.back().emplace_back();
    } else if (!quoted && csv.compare(i, 2, "\r\n") == 0) {
      ++i;
      records.emplace_back(1);
    } else {
      field += csv[i];
    }
  }
  records.pop_back();
  return records;
}

// Whether a field of CSV says what a value of JSON says; null is an empty field.
bool agree(const std::string& field, const Json& value) {
  if (value.is_null()) return field.empty();
  if (value.is_string()) return field == value;
  std::size_t read = 0;
  return !field.empty() && std::stod(field, &read) == value && read == field.size();
}

void expect_agreement(const std::vector<std::string>& record, const Json& point,
                      const Json& limit) {
  const Json none = {nullptr, nullptr};
  const Json& nearest = point["nearest"].is_null() ? none : point["nearest"];
  const auto or_none = [&](const char* key) { return point.value(key, Json(nullptr)); };
  const std::vector<Json> values = {point["name"],      or_none("column"), or_none("row"),
                                    point["probe"][0],  point["probe"][1], point["nozzle"][0],
                                    point["nozzle"][1], point["verdict"],  limit["limit"],
                                    limit["leeway"],    limit["guard"],    nearest[0],
                                    nearest[1]};
  ASSERT_EQ(record.size(), values.size());
  for (std::size_t i = 0; i < values.size(); ++i) {
    EXPECT_TRUE(agree(record[i], values[i])) << record[i] << " is not " << values[i];
  }
}

std::vector<std::string> setups() {
  std::vector<std::string> paths;
  for (const auto& entry : std::filesystem::directory_iterator(LEEWAY_SOURCE_DIR "/examples")) {
    if (entry.path().extension() == ".json") paths.push_back(entry.path().string());
  }
  for (const char* name : {"inline", "negative", "marginal", "large-grid", "nothing-asked"}) {
    paths.push_back(std::string(LEEWAY_SOURCE_DIR "/tests/cli/files/") + name + ".json");
  }
  return paths;
}

TEST(Formats, OfOneRunHoldTheSameNumbers) {
  ASSERT_GE(setups().size(), 10u);
  for (const std::string& path : setups()) {
    SCOPED_TRACE(path);
    const Json json = Json::parse(output_of("check '" + path + "' --format json"));
    const auto records = records_of(output_of("check '" + path + "' --format csv"));
    ASSERT_EQ(records.size(), json["points"].size() + 1);
    for (std::size_t i = 0; i < json["points"].size(); ++i) {
      expect_agreement(records[i + 1], json["points"][i], json["points"][i]);
    }
  }
}

TEST(Formats, OfOneRunHoldTheSameLimits) {
  for (const std::string& path : setups()) {
    SCOPED_TRACE(path);
    const Json json = Json::parse(output_of("check '" + path + "' --format json --all-limits"));
    const auto records = records_of(output_of("check '" + path + "' --format csv --all-limits"));
    std::size_t at = 1;
    for (const Json& point : json["points"]) {
      for (const Json& limit : point["limits"]) {
        ASSERT_LT(at, records.size());
        expect_agreement(records[at++], point, limit);
      }
    }
    EXPECT_EQ(at, records.size());
  }
}

TEST(Formats, CountWhatTheyList) {
  for (const std::string& path : setups()) {
    SCOPED_TRACE(path);
    const Json json = Json::parse(output_of("check '" + path + "' --format json"));
    std::size_t reachable = 0;
    for (const Json& point : json["points"]) {
      if (point["verdict"] != "reachable") continue;
      ++reachable;
      EXPECT_EQ(point["nearest"], point["probe"]);
      EXPECT_GE(point["leeway"], point["guard"]);
    }
    EXPECT_EQ(json["counts"]["points"], json["points"].size());
    EXPECT_EQ(json["counts"]["reachable"], reachable);
  }
}

}  // namespace
