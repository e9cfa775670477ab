// What a setup means once it is read. What is refused, and in which words, stands in
// tests/cases/faulty.

#include "leeway/read_setup.h"

#include <gtest/gtest.h>

#include <cmath>

#include "formats/disk_files.h"

namespace leeway {
namespace {

const std::string kMachine =
    R"({"bed": {"rectangle": {"x": [0, 233], "y": [0, 207]}},
        "travel": {"disc": {"center": [115, 105], "radius": 140.5}}})";

std::string setup_with(const std::string& probe, const std::string& rest = "") {
  return "{\"machine\": " + kMachine + ", \"probe\": " + probe + rest + "}";
}

Setup sound(const std::string& text, const std::map<std::string, std::string>& others = {}) {
  ReadSetup read = read_text(text, others);
  EXPECT_EQ(messages(read.faults), "");
  return read.setup ? *read.setup : Setup{};
}

std::vector<std::string> codes(const ReadSetup& read) {
  std::vector<std::string> result;
  for (const Fault& fault : read.faults) result.push_back(fault.code);
  return result;
}

using Codes = std::vector<std::string>;

TEST(ReadSetup, NeedsOnlyMachineAndOffset) {
  const auto setup = sound(setup_with("{\"offset\": [-38.5, 12]}"));
  EXPECT_EQ(std::get<Box>(setup.machine.bed), (Box{0, 233, 0, 207}));
  EXPECT_EQ(std::get<Disc>(setup.machine.travel), (Disc{{115, 105}, 140.5}));
  EXPECT_EQ(setup.probe.offset, (Point{-38.5, 12}));
}

TEST(ReadSetup, HasTheDocumentedDefaults) {
  const auto setup = sound(
      "{\"machine\": {\"bed\": {\"disc\": {\"center\": [0, 0], \"radius\": 94.5}},"
      "\"travel\": {\"disc\": {\"center\": [0, 0], \"radius\": 95}},"
      "\"obstacles\": [{\"name\": \"post\", \"shape\": {\"disc\": {\"center\": [0, 0], \"radius\": "
      "1}}}],"
      "\"head\": [{\"name\": \"duct\", \"outline\": {\"disc\": {\"center\": [0, 0], \"radius\": "
      "1}}}]},"
      "\"probe\": {\"offset\": [1, 2], \"body\": {\"outline\": {\"disc\": {\"center\": [0, 0], "
      "\"radius\": 1}}}},"
      "\"request\": {\"grid\": {\"columns\": 2, \"rows\": 3, \"margins\": 20},"
      "\"points\": [{\"name\": \"a\", \"at\": [3, 4]}], \"home\": {\"at\": [5, 6]}}}");
  EXPECT_EQ(setup.name, "");
  EXPECT_EQ(setup.coverage_factor, 2);
  EXPECT_EQ(setup.machine.print_inset, 0);
  EXPECT_EQ(setup.machine.travel_uncertainty, 0);
  EXPECT_EQ(setup.machine.bed_uncertainty, 0);
  EXPECT_EQ(setup.machine.obstacles.at(0).height, kUnlimitedHeight);
  EXPECT_EQ(setup.machine.obstacles.at(0).clearance, 0);
  EXPECT_EQ(setup.machine.head.at(0).underside, 0);
  EXPECT_EQ(std::get<Point>(setup.probe.spot), (Point{0, 0}));
  EXPECT_EQ(setup.probe.offset_uncertainty, (Point{0, 0}));
  EXPECT_EQ(setup.probe.edge_distance, 0);
  EXPECT_EQ(setup.probe.trigger_height, 0);
  EXPECT_FALSE(setup.probe.travel_height);
  EXPECT_EQ(setup.probe.body.value().underside, 0);
  const Grid& grid = setup.request.grid.value();
  EXPECT_EQ(grid.frame, Frame::probe);
  EXPECT_FALSE(grid.skip_outside_bed);
  EXPECT_EQ(std::get<Margins>(grid.extent).from, Margins::From::bed);
  EXPECT_EQ(setup.request.points.at(0).frame, Frame::probe);
  EXPECT_EQ(setup.request.home.value().frame, Frame::nozzle);
}

TEST(ReadSetup, ReadsEveryKey) {
  const auto folder = source_folder("tests/cases/good");
  const ReadSetup read = read_setup(file_from_disk(folder, "everything.json"), finder_in(folder));
  ASSERT_TRUE(read.setup) << messages(read.faults);
  const auto& setup = *read.setup;
  EXPECT_EQ(setup.name, "Godwit, \xC3\xBC\xF0\x9F\x98\x80 \"quoted\"");
  EXPECT_EQ(setup.coverage_factor, 2.5);
  const Machine& machine = setup.machine;
  EXPECT_EQ(machine.name, "Godwit");
  const auto& bed = std::get<MultiPolygon>(machine.bed);
  EXPECT_EQ(bed.at(0).outer.size(), 4u);
  EXPECT_EQ(bed.at(0).holes.size(), 2u);
  EXPECT_EQ(bed.at(0).holes.at(1).size(), 3u);
  EXPECT_EQ(std::get<MultiPolygon>(machine.travel).at(0).outer.size(), 4u);
  ASSERT_EQ(machine.obstacles.size(), 3u);
  EXPECT_EQ(machine.obstacles[0].name, "front clip");
  EXPECT_EQ(machine.obstacles[0].height, 6);
  EXPECT_EQ(machine.obstacles[0].clearance, 1);
  EXPECT_EQ(machine.obstacles[2].height, 0);
  EXPECT_EQ(machine.head.at(0).underside, 3);
  EXPECT_EQ(machine.travel_uncertainty, 0.1);
  EXPECT_EQ(machine.bed_uncertainty, 0.2);
  const Probe& probe = setup.probe;
  EXPECT_EQ(probe.name, "pin");
  EXPECT_EQ(probe.offset_uncertainty, (Point{0.15, 0}));
  EXPECT_EQ(std::get<Disc>(probe.spot).radius, 4);
  EXPECT_EQ(probe.edge_distance, 1);
  EXPECT_EQ(probe.trigger_height, 2);
  EXPECT_EQ(probe.travel_height, 8);
  EXPECT_EQ(probe.body.value().underside, -1);
  const Grid& grid = setup.request.grid.value();
  EXPECT_EQ(grid.columns, 5);
  EXPECT_EQ(grid.rows, 5);
  EXPECT_EQ(grid.frame, Frame::nozzle);
  EXPECT_TRUE(grid.skip_outside_bed);
  const auto& margins = std::get<Margins>(grid.extent);
  EXPECT_EQ(margins.from, Margins::From::travel);
  EXPECT_EQ(margins.left, -2);
  EXPECT_EQ(margins.right, 20);
  EXPECT_EQ(margins.front, 0);
  EXPECT_EQ(margins.back, 10);
  ASSERT_EQ(setup.request.points.size(), 3u);
  EXPECT_EQ(setup.request.points[1].name, "grid");
  EXPECT_EQ(setup.request.points[1].frame, Frame::nozzle);
  EXPECT_FALSE(std::signbit(setup.request.points[2].at.y));
  EXPECT_EQ(setup.request.home.value().frame, Frame::probe);
}

TEST(ReadSetup, KeepsDecimalsAsTyped) {
  const auto setup = sound(setup_with("{\"offset\": [229.6, -38.500000000000001]}"));
  EXPECT_EQ(setup.probe.offset.x, 229.6);
  EXPECT_EQ(setup.probe.offset.y, -38.5);
}

TEST(ReadSetup, GoesByItsMachinesNameWhereItHasNone) {
  const std::map<std::string, std::string> files = {
      {"godwit", "{\"format\": \"leeway-machine-1\", \"name\": \"Godwit\"," + kMachine.substr(1)}};
  EXPECT_EQ(sound("{\"machine\": \"godwit\", \"probe\": {\"offset\": [0, 0]}}", files).name,
            "Godwit");
  EXPECT_EQ(
      sound("{\"name\": \"mine\", \"machine\": \"godwit\", \"probe\": {\"offset\": [0, 0]}}", files)
          .name,
      "mine");
}

const std::string kProbeStart = "{\"format\": \"leeway-probe-1\", ";

TEST(ReadSetup, ReplacesWholeKeysOfAProfile) {
  const std::map<std::string, std::string> files = {
      {"base", kProbeStart +
                   "\"name\": \"base\", \"edge_distance\": 1, \"offset_uncertainty\": [0.1, 0.2],"
                   "\"trigger_height\": 4,"
                   "\"body\": {\"outline\": {\"disc\": {\"center\": [0, 0], \"radius\": 1}}, "
                   "\"underside\": 3}}"},
      {"pin", kProbeStart + "\"profile\": \"base\", \"trigger_height\": 5, \"travel_height\": 6}"}};
  const Probe probe =
      sound(setup_with("{\"profile\": \"pin\", \"offset\": [1, 2], \"travel_height\": 7, "
                       "\"body\": {\"outline\": {\"disc\": {\"center\": [0, 0], \"radius\": 2}}}}"),
            files)
          .probe;
  EXPECT_EQ(probe.name, "base");
  EXPECT_EQ(probe.offset, (Point{1, 2}));
  EXPECT_EQ(probe.offset_uncertainty, (Point{0.1, 0.2}));
  EXPECT_EQ(probe.edge_distance, 1);
  EXPECT_EQ(probe.trigger_height, 5);
  EXPECT_EQ(probe.travel_height, 7);
  EXPECT_EQ(probe.body.value().underside, 0);
}

TEST(ReadSetup, TakesAnOffsetFromAProfile) {
  const std::map<std::string, std::string> files = {{"pin", kProbeStart + "\"offset\": [3, 4]}"}};
  EXPECT_EQ(sound(setup_with("\"pin\""), files).probe.offset, (Point{3, 4}));
  EXPECT_EQ(sound(setup_with("{\"profile\": \"pin\"}"), files).probe.offset, (Point{3, 4}));
}

TEST(ReadSetup, AsksTheFinderForThePathAndTheFileItStandsIn) {
  std::vector<std::pair<std::string, std::string>> asked;
  const FileFinder finder = [&](std::string_view path, std::string_view from) {
    asked.emplace_back(path, from);
    const bool last = path == "b.json";
    return SourceFile{
        "shown/" + std::string(path),
        std::string(path),
        last ? kProbeStart + "\"offset\": [0, 0]}" : kProbeStart + "\"profile\": \"b.json\"}",
        {}};
  };
  const ReadSetup read =
      read_setup({"here/setup.json", "id", setup_with("\"a.json\""), {}}, finder);
  EXPECT_TRUE(read.setup) << messages(read.faults);
  EXPECT_EQ(asked, (std::vector<std::pair<std::string, std::string>>{{"a.json", "here/setup.json"},
                                                                     {"b.json", "shown/a.json"}}));
}

TEST(ReadSetup, FindsACycleByIdentityNotByName) {
  const FileFinder finder = [](std::string_view path, std::string_view) {
    return SourceFile{std::string(path), "the same", kProbeStart + "\"profile\": \"other\"}", {}};
  };
  const ReadSetup read = read_setup({"s", "setup", setup_with("\"one\""), {}}, finder);
  EXPECT_EQ(codes(read), Codes{"refers-to-itself"});
}

TEST(ReadSetup, EndsAChainOfProfilesThatNeverRepeats) {
  int count = 0;
  const FileFinder finder = [&](std::string_view, std::string_view) {
    const std::string name = std::to_string(++count);
    return SourceFile{name, name, kProbeStart + "\"profile\": \"next\"}", {}};
  };
  const ReadSetup read = read_setup({"s", "setup", setup_with("\"one\""), {}}, finder);
  EXPECT_EQ(codes(read), Codes{"chain-too-long"});
  EXPECT_LT(count, 20);
}

TEST(ReadSetup, TellsFaultsOfFilesWithoutIdentity) {
  const FileFinder finder = [](std::string_view path, std::string_view) {
    return SourceFile{std::string(path), {}, "[" + std::string(path), {}};
  };
  const ReadSetup read =
      read_setup({"-", {}, "{\"machine\": \"m\", \"probe\": \"p\"}", {}}, finder);
  EXPECT_EQ(codes(read), (Codes{"not-json", "not-json"}));
}

TEST(ReadSetup, TellsWhyTheSetupItselfCannotBeRead) {
  const ReadSetup read = read_setup({"gone.json", {}, {}, "no such file"}, finder_among({}));
  EXPECT_EQ(messages(read.faults),
            "cannot-read | gone.json: found a file that cannot be read: no such file\n");
}

TEST(ReadSetup, RefusesFilesBeyondTheLimitAndTakesThoseUpToIt) {
  std::string text = setup_with("{\"offset\": [0, 0]}");
  text.resize(kLargestFile, ' ');
  EXPECT_TRUE(read_text(text).setup);
  EXPECT_EQ(codes(read_text(text + " ")), Codes{"file-too-large"});
  const std::map<std::string, std::string> files = {{"pin", text + " "}};
  EXPECT_EQ(codes(read_text(setup_with("\"pin\""), files)), Codes{"file-too-large"});
}

std::string comb(std::size_t vertices) {
  std::string points;
  for (std::size_t i = 0; i + 2 < vertices; ++i) {
    points += "[" + std::to_string(i) + ", " + std::to_string(10 * (i % 2)) + "],";
  }
  return "{\"polygon\": {\"outer\": [" + points + "[20000, -5], [-5, -5]]}}";
}

TEST(ReadSetup, TakesShapesUpToTheLimitOfVertices) {
  const auto with = [](const std::string& spot) {
    return setup_with("{\"offset\": [0, 0], \"spot\": " + spot + "}");
  };
  EXPECT_EQ(std::get<MultiPolygon>(sound(with(comb(kMostVertices))).probe.spot)[0].outer.size(),
            kMostVertices);
  EXPECT_EQ(codes(read_text(with(comb(kMostVertices + 1)))), Codes{"too-many-vertices"});
}

TEST(ReadSetup, SurvivesLargeHostileFiles) {
  std::string numbers = "[0";
  while (numbers.size() + 4 < kLargestFile) numbers += ",0,0";
  EXPECT_EQ(codes(read_text(numbers + "]")), Codes{"wrong-type"});
  std::string points = "{\"machine\": {\"bed\": {\"polygon\": {\"outer\": [[0]";
  for (int i = 0; i < 500000; ++i) points += ",[0]";
  const ReadSetup read = read_text(points + "]}}}}");
  EXPECT_EQ(read.faults.size(), 1001u);
  EXPECT_EQ(read.faults.back().code, "more-faults");
}

TEST(ReadSetup, TellsFaultsInTheOrderOfTheFilesAndTheirLines) {
  const auto folder = source_folder("tests/cases/faulty");
  const ReadSetup read =
      read_setup(file_from_disk(folder, "file-profile-faults.json"), finder_in(folder));
  std::vector<std::string> files;
  int line = 0;
  for (const Fault& fault : read.faults) {
    if (files.empty() || files.back() != fault.file) {
      files.push_back(fault.file);
      line = 0;
    }
    EXPECT_GE(fault.line, line);
    line = fault.line;
  }
  EXPECT_EQ(files,
            (std::vector<std::string>{"file-profile-faults.json", "parts/faulty-machine.json",
                                      "parts/faulty-probe.json"}));
}

}  // namespace
}  // namespace leeway
