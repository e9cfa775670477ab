#include "leeway/remarks.h"

#include <gtest/gtest.h>

#include "model/setups.h"

namespace leeway {
namespace {

std::vector<RemarkKind> kinds(const Setup& setup) {
  std::vector<RemarkKind> out;
  for (const Remark& remark : remarks(setup, check(Rig(setup)))) out.push_back(remark.kind);
  return out;
}

using Kinds = std::vector<RemarkKind>;

leeway::Setup usual() {
  leeway::Setup setup = bare(Box{0, 200, 0, 180}, Box{0, 200, 0, 180});
  setup.probe.offset = {-30, 10};
  setup.probe.spot = Disc{{0, 0}, 4};
  return setup;
}

TEST(Remarks, AUsualSetupHasNone) { EXPECT_EQ(kinds(usual()), Kinds{}); }

TEST(Remarks, AskForAnOffsetWhereTheProbeHasAnExtent) {
  leeway::Setup setup = usual();
  setup.probe.offset = {};
  EXPECT_EQ(kinds(setup), Kinds{RemarkKind::no_offset});
  setup.probe.spot = Point{};
  EXPECT_EQ(kinds(setup), Kinds{}) << "the nozzle itself may be the probe";
}

TEST(Remarks, AskAboutAProbeThatStaysDown) {
  leeway::Setup setup = usual();
  setup.probe.stowed = false;
  EXPECT_EQ(kinds(setup), Kinds{RemarkKind::down_unknown});
  setup.probe.body = ProbeBody{square(5), 0};
  EXPECT_EQ(kinds(setup), Kinds{});
  setup.probe.body->underside = -1;
  EXPECT_EQ(kinds(setup), Kinds{RemarkKind::scrapes});
  setup.probe.stowed = true;
  EXPECT_EQ(kinds(setup), Kinds{}) << "a pin that is stowed may reach below";
}

std::vector<std::string> overlapped(const Setup& setup) { return check(Rig(setup)).probe_overlaps; }

using Names = std::vector<std::string>;

// The duct is 30 to 50 to the left of the nozzle, the probe's body 10 wide.
TEST(ProbeInItsHead, IsToldFirst) {
  leeway::Setup setup = usual();
  setup.probe.offset = {-56, 0};
  setup.probe.body = ProbeBody{square(5), 1};
  setup.machine.head = {{"duct", Box{-50, -30, -10, 10}, 3}};
  EXPECT_EQ(overlapped(setup), Names{});
  setup.probe.offset.x = -55;
  EXPECT_EQ(overlapped(setup), Names{}) << "touching is no overlap";
  EXPECT_EQ(kinds(setup), Kinds{});
  setup.probe.offset.x = -54.9;
  EXPECT_EQ(overlapped(setup), Names{"duct"});
  EXPECT_EQ(kinds(setup), Kinds{RemarkKind::probe_in_head});
  EXPECT_TRUE(comes_first(RemarkKind::probe_in_head));
  setup.probe.offset.x = -4;
  EXPECT_EQ(overlapped(setup), Names{"nozzle"});
}

TEST(ProbeInItsHead, AskTopsAndUndersides) {
  leeway::Setup setup = usual();
  setup.probe.offset = {-40, 0};
  setup.probe.body = ProbeBody{square(5), 1};
  setup.machine.head = {{"duct", Box{-50, -30, -10, 10}, 30}};
  EXPECT_EQ(overlapped(setup), Names{"duct"}) << "no top: unlimited";
  setup.probe.body->top = 30;
  EXPECT_EQ(overlapped(setup), Names{}) << "the duct begins where the probe ends";
  setup.probe.body->top = 30.1;
  EXPECT_EQ(overlapped(setup), Names{"duct"});
  setup.machine.head[0].underside = 0;
  setup.machine.head[0].top = 1;
  EXPECT_EQ(overlapped(setup), Names{}) << "the probe begins where the duct ends";
}

TEST(ProbeInItsHead, IsTheSpotOrThePointWhereThereIsNoBody) {
  leeway::Setup setup = usual();
  setup.machine.head = {{"duct", Box{-50, -33, -10, 30}, 3}};
  EXPECT_EQ(overlapped(setup), Names{"duct"}) << "the spot";
  setup.probe.spot = Point{};
  EXPECT_EQ(overlapped(setup), Names{});
  setup.probe.offset.x = -34;
  EXPECT_EQ(overlapped(setup), Names{"duct"});
  setup.probe.offset = {};
  EXPECT_EQ(overlapped(setup), Names{}) << "the nozzle itself may be the probe";
}

TEST(Remarks, AskForUnits) {
  leeway::Setup setup = usual();
  setup.probe.offset = {-100, 10};
  EXPECT_EQ(kinds(setup), Kinds{}) << "half the bed";
  setup.probe.offset = {-100.1, 10};
  EXPECT_EQ(kinds(setup), Kinds{RemarkKind::long_offset});
  setup = usual();
  setup.probe.offset_uncertainty = {0.1, 5.1};
  EXPECT_EQ(kinds(setup), Kinds{RemarkKind::uncertainty});
  setup = bare(Box{0, 9, 0, 7}, Box{0, 9, 0, 7});
  EXPECT_EQ(kinds(setup), Kinds{RemarkKind::small_bed}) << "inches";
  setup = bare(Box{0, 2330, 0, 2070}, Box{0, 2330, 0, 2070});
  EXPECT_EQ(kinds(setup), Kinds{RemarkKind::large_bed});
}

TEST(Remarks, AskForTheZeroWhereTravelAndBedLieApart) {
  leeway::Setup setup = usual();
  setup.machine.travel = Box{-100, 100, 0, 180};
  EXPECT_EQ(kinds(setup), Kinds{}) << "half of it";
  setup.machine.travel = Box{-100, 99, 0, 180};
  EXPECT_EQ(kinds(setup), Kinds{RemarkKind::travel_off_bed});
}

TEST(Remarks, AskForTheZeroWhereMostOfAGridIsLeftOut) {
  leeway::Setup setup = usual();
  setup.request.grid = Grid{3, 1, Box{-90, 90, 50, 50}, Frame::probe, true};
  EXPECT_EQ(kinds(setup), Kinds{}) << "a third";
  setup.request.grid = Grid{2, 1, Box{-90, 90, 50, 50}, Frame::probe, true};
  EXPECT_EQ(kinds(setup), Kinds{RemarkKind::many_left_out});
  setup.machine.bed = Disc{{50, 50}, 60};
  EXPECT_EQ(kinds(setup), Kinds{}) << "half of it, as a round bed may have";
}

}  // namespace
}  // namespace leeway
