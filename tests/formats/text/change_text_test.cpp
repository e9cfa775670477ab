// Changes of a setup as JSON: a file that is edited as they say reads as the setup that is changed.

#include "formats/text/change_text.h"

#include <gtest/gtest.h>

#include <nlohmann/json.hpp>
#include <set>

#include "leeway/read_setup.h"

namespace leeway {
namespace {

using Json = nlohmann::json;

const char* const kOfBounds = R"({"columns": 3, "rows": 4, "x": [10, 90], "y": [20, 80]})";
const char* const kOfMargins =
    R"({"columns": 3, "rows": 4, "margins": {"left": 1, "right": 2, "front": 3, "back": 4}})";

Json file_with(const char* grid) {
  return Json::parse(std::string(R"({"format": "leeway-setup-1", "name": "Sanderling",
    "machine": {"name": "Sanderling", "bed": {"rectangle": {"x": [0, 100], "y": [0, 100]}},
                "travel": {"rectangle": {"x": [-5, 105], "y": [-5, 105]}}},
    "probe": {"offset": [-20, 5], "edge_distance": 1, "trigger_height": 1},
    "coverage_factor": 2,
    "request": {"points": [{"name": "first", "at": [30, 30]}, {"name": "second", "at": [40, 40]}],
                "home": {"at": [50, 50]}, "grid": )") +
                     grid + "}}");
}

Setup read(const Json& file) {
  const ReadSetup read =
      read_setup({"setup.json", "setup.json", file.dump(), ""},
                 [](std::string_view, std::string_view) { return SourceFile(); });
  for (const Fault& fault : read.faults) ADD_FAILURE() << fault.pointer << " in " << file.dump();
  return read.setup.value_or(Setup());
}

// One by one: as a braced list they take the compiler a minute.
template <class... Kinds>
Changes listed(const Kinds&... changes) {
  Changes out;
  (out.emplace_back(changes), ...);
  return out;
}

// One of each kind; those of a grid's margins apart, as a grid has either.
Changes for_bounds() {
  return listed(CoverageFactor{3}, BedShape{Disc{{50, 50}, 50}},
                TravelShape{Box{-10, 110, -20, 120}}, ProbeOffset{{12.5, -7}},
                OffsetUncertainty{{0.2, 0.25}}, BedUncertainty{0.125}, TravelUncertainty{0.375},
                SpotShape{Disc{{0, 0}, 2.5}}, EdgeDistance{2.25}, GridColumns{5}, GridRows{6},
                GridAlongX{15.5, 85}, GridAlongY{25, 75.125}, GridFrame{Frame::nozzle},
                PointPlace{1, {33, 44}}, PointFrame{1, Frame::nozzle}, HomePlace{{45, 55}},
                HomeFrame{Frame::probe});
}

Changes for_margins() {
  return listed(GridMargins{7.5}, GridMargin{GridSide::left, 11}, GridMargin{GridSide::right, 12},
                GridMargin{GridSide::front, 13}, GridMargin{GridSide::back, 14},
                GridMarginsFrom{Margins::From::travel});
}

void expect_the_same(const char* grid, const Changes& changes, std::set<std::size_t>& kinds) {
  const Json file = file_with(grid);
  const Setup before = read(file);
  for (const Change& change : changes) {
    kinds.insert(change.index());
    const JsonEdit edit = json_edit(change);
    Json edited = file;
    edited[Json::json_pointer(edit.pointer)] = Json::parse(edit.value);
    const Setup after = applied({change}, before);
    EXPECT_FALSE(after == before) << edit.pointer;
    EXPECT_TRUE(after == read(edited)) << edit.pointer << " to " << edit.value;
  }
}

TEST(ChangeText, EveryKindByItsPointerIsTheSameAsTyped) {
  std::set<std::size_t> kinds;
  expect_the_same(kOfBounds, for_bounds(), kinds);
  expect_the_same(kOfMargins, for_margins(), kinds);
  EXPECT_EQ(kinds.size(), std::variant_size_v<Change>);
}

TEST(ChangeText, MarginsAndBoundsTakeEachOthersPlace) {
  const leeway::Setup margins = read(file_with(kOfMargins));
  const leeway::Setup bounds = applied({GridAlongX{20, 30}}, margins);
  EXPECT_EQ(std::get<Box>(bounds.request.grid->extent), (Box{20, 30, 3, 96}));
  const leeway::Setup again =
      applied({GridMargins{5}, GridMarginsFrom{Margins::From::travel}}, bounds);
  EXPECT_EQ(std::get<Margins>(again.request.grid->extent),
            (Margins{5, 5, 5, 5, Margins::From::travel}));
}

TEST(ChangeText, SeveralChangesAreOneObject) {
  const leeway::Setup setup = read(file_with(kOfMargins));
  EXPECT_EQ(json_changes({ProbeOffset{{1, 2}}, PointFrame{1, Frame::nozzle}}, setup),
            R"({"/probe/offset":[1,2],"/request/points/1/frame":"nozzle"})");
  EXPECT_EQ(json_changes({}, setup), "{}");
}

}  // namespace
}  // namespace leeway
