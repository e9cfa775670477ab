// What `bracket` reads and writes.

#include <gtest/gtest.h>

#include <algorithm>
#include <nlohmann/json.hpp>
#include <set>

#include "formats/drawing/heat_colours.h"
#include "formats/text/numbers.h"
#include "formats/text/wkt.h"
#include "leeway/read_candidates.h"
#include "leeway/write_bracket.h"
#include "model/setups.h"

namespace leeway {
namespace {

SourceFile file(std::string text) {
  SourceFile source;
  source.name = "candidates.csv";
  source.text = std::move(text);
  return source;
}

using Setups = std::vector<Setup>;

SourceFile no_file(std::string_view path, std::string_view) {
  SourceFile source;
  source.name = path;
  source.problem = "there is none";
  return source;
}

TEST(ReadCandidates, InAnyOrderOfColumns) {
  const ReadCandidates read =
      read_candidates(file("# brackets\ny;x;name\n12,5;-38;\"side; arm\"\n0;40;right\n"), no_file);
  ASSERT_TRUE(read.faults.empty());
  ASSERT_EQ(read.candidates.size(), 2u);
  EXPECT_EQ(read.candidates[0].name, "side; arm");
  EXPECT_EQ(read.candidates[0].offset, (Point{-38, 12.5}));
}

TEST(ReadCandidates, MayBringTheirOwnProbe) {
  const auto finder = [](std::string_view path, std::string_view) {
    SourceFile source;
    source.name = source.identity = path;
    source.text = path == "pin.json" ? R"({"format": "leeway-probe-1", "trigger_height": 3})"
                                     : R"({"format": "leeway-probe-1", "trigger": 3})";
    return source;
  };
  const ReadCandidates read =
      read_candidates(file("name,x,y,probe\na,1,2,pin.json\nb,1,3,\nc,1,4,pin.json\n"), finder);
  ASSERT_EQ(read.candidates.size(), 3u);
  EXPECT_EQ(read.candidates[0].probe->trigger_height, 3);
  EXPECT_EQ(read.candidates[0].probe->name, "pin.json");
  EXPECT_FALSE(read.candidates[1].probe);
  EXPECT_EQ(read.candidates[2].probe, read.candidates[0].probe);
  // The faults of a probe file are its own, told once.
  const auto faulty =
      read_candidates(file("name,x,y,probe\na,1,2,bad.json\nb,1,3,bad.json\n"), finder).faults;
  ASSERT_EQ(faulty.size(), 1u);
  EXPECT_EQ(faulty[0].code, "unknown-key");
  EXPECT_EQ(faulty[0].file, "bad.json");
  const auto none = read_candidates(file("name,x,y,probe\na,1,2,no.json\n"), no_file).faults;
  ASSERT_EQ(none.size(), 1u);
  EXPECT_EQ(none[0].code, "cannot-read");
  EXPECT_EQ(none[0].column, 7);
}

TEST(ReadCandidates, TellsEveryFault) {
  const ReadCandidates read =
      read_candidates(file("name,x,y\na,1,2\na,3,far\n,1,2\nb,1\nc,1e9,0\n"), no_file);
  EXPECT_TRUE(read.candidates.empty());
  std::vector<std::string> codes;
  for (const Fault& fault : read.faults) codes.push_back(fault.code);
  EXPECT_EQ(codes, (std::vector<std::string>{"duplicate-name", "not-a-number", "empty-name",
                                             "wrong-fields", "not-a-number"}));
  EXPECT_EQ(read_candidates(file("name,x\na,1\n"), no_file).faults.front().code, "missing-column");
  EXPECT_EQ(read_candidates(file(""), no_file).faults.front().code, "no-candidates");
}

BracketReport report_of(const Setups& setups) {
  BracketReport report;
  report.setups = setups;
  report.window = bracket(setups);
  report.map = coverage_map(setups.front(), {-40, 20, 31}, {-20, 30, 26});
  report.candidates = rank_candidates(setups, {{"<b>&", {-38.5, 12}}, {"other", {0, 34}}});
  return report;
}

template <typename Write>
std::string text_of(const BracketReport& report, Write write) {
  std::string text;
  write(report, [&](std::string_view piece) { text += piece; });
  return text;
}

TEST(WriteBracket, JsonHoldsTheWindowAsItIs) {
  const Setups setups{godwit()};
  const BracketReport report = report_of(setups);
  const auto json = nlohmann::json::parse(text_of(report, write_bracket_json));
  EXPECT_EQ(json["format"], "leeway-bracket-2");
  EXPECT_EQ(json["window"]["empty"], false);
  // The WKT reads back as the region that it is.
  MultiPolygon region;
  ASSERT_FALSE(parse_wkt(json["window"]["wkt"].get<std::string>(), region));
  EXPECT_EQ(region, report.window->window.region);
  EXPECT_EQ(json["map"]["x"].size(), 31u);
  ASSERT_EQ(json["map"]["coverage"].size(), 26u);
  EXPECT_EQ(json["map"]["coverage"][0].size(), 31u);
  EXPECT_NEAR(json["map"]["coverage"][3][5].get<double>(), report.map->at(5, 3), 1e-6);
  EXPECT_EQ(json["candidates"].size(), 2u);
  EXPECT_EQ(json["nearest"]["move"][0].get<double>(), 9.7);
}

TEST(WriteBracket, CsvHasALineAnOffset) {
  const Setups setups{godwit()};
  const std::string csv = text_of(report_of(setups), write_bracket_csv);
  EXPECT_EQ(std::count(csv.begin(), csv.end(), '\n'), 1 + 31 * 26);
  EXPECT_EQ(csv.substr(0, 14), "x,y,coverage\r\n");
}

TEST(WriteBracket, TheMapEscapesNamesAndIsTheSameTwice) {
  Setups setups{godwit()};
  setups[0].name = "a <script>\"&\x01\xE2\x80\xAE";
  const BracketReport report = report_of(setups);
  const std::string svg = text_of(report, write_bracket_svg);
  EXPECT_EQ(svg, text_of(report, write_bracket_svg));
  EXPECT_EQ(svg.find("<script>"), std::string::npos);
  EXPECT_NE(svg.find("&lt;b&gt;&amp;"), std::string::npos);
  EXPECT_EQ(svg.find("nan"), std::string::npos);
}

TEST(WriteBracket, WhatTheMapTellsThePointerIsWhatIsThere) {
  const Setups setups{godwit()};
  const BracketReport report = report_of(setups);
  const std::string svg = text_of(report, write_bracket_svg);
  std::set<std::string> told;
  const std::string_view open = "<title>";
  for (std::size_t at = svg.find(open, svg.find("\"tips\"")); at != std::string::npos;
       at = svg.find(open, at + 1)) {
    told.insert(svg.substr(at + open.size(), svg.find('<', at + 1) - at - open.size()));
  }
  std::set<std::string> true_ones;
  const CoverageMap& map = *report.map;
  for (int y = 0; y < map.y.count; ++y) {
    for (int x = 0; x < map.x.count; ++x) {
      if (!map.is_open(x, y)) continue;
      true_ones.insert(pair({map.x.at(x), map.y.at(y)}) + ": " + percent(map.at(x, y)) +
                       " % of the printable area");
    }
  }
  EXPECT_GT(told.size(), 20u);
  EXPECT_TRUE(std::includes(true_ones.begin(), true_ones.end(), told.begin(), told.end()));
}

// Every number in words that could be wrong by a sign.
TEST(WriteBracket, TextNamesTheMove) {
  const Setups setups{godwit()};
  const std::string text = text_of(report_of(setups), write_bracket_text);
  EXPECT_NE(text.find("move the probe 9.7 to the\nright"), std::string::npos) << text;
}

// The published table's own entries.
TEST(HeatColours, AreThoseOfTheTable) {
  EXPECT_EQ(heat_colour(0), "#00204c");
  EXPECT_EQ(heat_colour(64 / 255.0), "#414d6b");
  EXPECT_EQ(heat_colour(128 / 255.0), "#7c7b78");
  EXPECT_EQ(heat_colour(192 / 255.0), "#bdaf6e");
  EXPECT_EQ(heat_colour(1), "#ffe945");
  EXPECT_EQ(heat_colour(7), "#ffe945");
}

}  // namespace
}  // namespace leeway
