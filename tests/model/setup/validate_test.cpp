#include "leeway/validate.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "leeway/limits.h"
#include "leeway/regions.h"
#include "model/every_number.h"

namespace leeway {
namespace {

constexpr double kNan = std::numeric_limits<double>::quiet_NaN();
constexpr double kInf = std::numeric_limits<double>::infinity();

// "out-of-range at probe.offset.x", sorted.
std::vector<std::string> told(const Setup& setup) {
  std::vector<std::string> all;
  for (const SetupFault& fault : validate(setup)) {
    all.push_back(std::string(code(fault)) + " at " + words(fault.place));
  }
  std::sort(all.begin(), all.end());
  return all;
}

using Told = std::vector<std::string>;

TEST(Validate, FindsNothingWrongWithSoundSetups) {
  EXPECT_EQ(told(godwit()), Told{});
  EXPECT_EQ(told(full_setup()), Told{});
  EXPECT_EQ(told(bare(square(100), Disc{{0, 0}, 90})), Told{});
}

TEST(Validate, EveryNumberThatIsNoneIsToldWhereItStands) {
  for (const SetupNumber& number : every_number()) {
    for (const double bad : {kNan, kInf, -kInf, 2e6, -2e6}) {
      leeway::Setup setup = full_setup();
      number.in(setup) = bad;
      const Told expected{"out-of-range at " + number.place};
      // An obstacle may be of unlimited height.
      const bool fine = bad == kInf && number.place == "machine.obstacles[1].height";
      EXPECT_EQ(told(setup), fine ? Told{} : expected) << bad;
    }
  }
}

TEST(Validate, LimitsAndRegionsRefuseEveryNumberThatIsNone) {
  for (const SetupNumber& number : every_number()) {
    leeway::Setup setup = full_setup();
    number.in(setup) = kNan;
    EXPECT_THROW(Limits{setup}, InvalidSetup) << number.place;
    EXPECT_THROW(MoveLimits{setup}, InvalidSetup) << number.place;
    EXPECT_THROW(Regions{setup}, InvalidSetup) << number.place;
  }
}

TEST(Validate, ADefaultSetupHasNeitherBedNorTravel) {
  const Told expected{"no-shape at machine.bed", "no-shape at machine.travel"};
  EXPECT_EQ(told(leeway::Setup{}), expected);
  EXPECT_THROW(Limits{leeway::Setup{}}, InvalidSetup);
  EXPECT_THROW(MoveLimits{leeway::Setup{}}, InvalidSetup);
  EXPECT_THROW(Regions{leeway::Setup{}}, InvalidSetup);
  leeway::Setup setup = godwit();
  setup.machine.bed = MultiPolygon{};
  EXPECT_EQ(told(setup), Told{"no-shape at machine.bed"});
}

TEST(Validate, AnExceptionCarriesTheFaultsAndSaysTheFirst) {
  leeway::Setup setup = godwit();
  setup.probe.offset = {kNan, kInf};
  try {
    Limits limits(setup);
    FAIL() << "taken";
  } catch (const Error& error) {
    EXPECT_STREQ(error.what(),
                 "the setup may not be used: out-of-range at probe.offset.x, and 1 more faults");
    EXPECT_EQ(dynamic_cast<const InvalidSetup&>(error).faults().size(), 2u);
  }
}

TEST(Validate, RingsMustBeSimple) {
  const auto bed = [](Ring outer, std::vector<Ring> holes = {}) {
    return told(bare(polygon(std::move(outer), std::move(holes)), square(300)));
  };
  const Ring frame{{0, 0}, {200, 0}, {200, 200}, {0, 200}};
  const Ring hole{{50, 50}, {60, 50}, {60, 60}};
  EXPECT_EQ(bed({{0, 0}, {200, 200}, {200, 0}, {0, 200}}),
            Told{"self-crossing at machine.bed[0].outer"});
  EXPECT_EQ(bed({{0, 0}, {200, 200}}), Told{"too-few-vertices at machine.bed[0].outer"});
  EXPECT_EQ(bed({}), Told{"too-few-vertices at machine.bed[0].outer"});
  EXPECT_EQ(bed({{0, 0}, {100, 0}, {200, 0}}), Told{"no-area at machine.bed[0].outer"});
  EXPECT_EQ(bed({{0, 0}, {200, 0}, {200, 0}, {200, 200}}),
            Told{"repeated-vertex at machine.bed[0].outer"});
  EXPECT_EQ(bed({{0, 0}, {200, 0}, {200, 200}, {0, 0}}),
            Told{"repeated-vertex at machine.bed[0].outer"});
  EXPECT_EQ(bed(frame, {hole}), Told{});
  EXPECT_EQ(bed(frame, {hole, {{190, 50}, {210, 50}, {210, 60}}}),
            Told{"hole-outside at machine.bed[0].holes[1]"});
  EXPECT_EQ(bed(frame, {{{0, 0}, {1, 1}}, hole, hole}),
            (Told{"holes-overlap at machine.bed[0].holes[2]",
                  "too-few-vertices at machine.bed[0].holes[0]"}));
}

TEST(Validate, PolygonsMustNotOverlap) {
  const Polygon a{{{0, 0}, {100, 0}, {100, 100}}, {}};
  const Polygon b{{{50, 10}, {150, 10}, {150, 90}}, {}};
  EXPECT_EQ(told(bare(MultiPolygon{a, b}, square(300))), Told{"polygons-overlap at machine.bed"});
}

TEST(Validate, AShapeHasAsManyVerticesAsAFileMayHold) {
  const auto circle = [](std::size_t count) {
    Ring ring;
    for (std::size_t i = 0; i < count; ++i) {
      const double angle =
          2 * 3.141592653589793 * static_cast<double>(i) / static_cast<double>(count);
      ring.push_back({100 * std::cos(angle), 100 * std::sin(angle)});
    }
    return ring;
  };
  EXPECT_EQ(told(bare(polygon(circle(kMostVertices)), square(300))), Told{});
  EXPECT_EQ(told(bare(polygon(circle(kMostVertices + 1)), square(300))),
            Told{"too-many-vertices at machine.bed"});
}

TEST(Validate, NamesAreNeededAndDiffer) {
  leeway::Setup setup = godwit();
  setup.machine.obstacles.push_back(setup.machine.obstacles.front());
  setup.machine.obstacles.push_back({"", square(1), 1, 0});
  setup.machine.head.push_back({"probe body", square(1), 1});
  setup.request.points = {
      {"grid 3,1", {1, 1}}, {"home", {1, 1}}, {"grid corner", {1, 1}}, {" ", {1, 1}}};
  setup.name = "  ";
  EXPECT_EQ(
      told(setup),
      (Told{"blank-name at machine.obstacles[2].name", "blank-name at name",
            "blank-name at request.points[3].name", "duplicate-name at machine.obstacles[1].name",
            "reserved-name at machine.head[1].name", "reserved-name at request.points[0].name",
            "reserved-name at request.points[1].name"}));
}

TEST(Validate, GridsHaveAnExtentAndNotTooManyPoints) {
  leeway::Setup setup = godwit();
  const auto with = [&](int columns, int rows, std::variant<Box, Margins> extent) {
    setup.request.grid = Grid{columns, rows, extent, Frame::probe, false};
    return told(setup);
  };
  EXPECT_EQ(with(0, -1, Box{0, 1, 0, 1}),
            (Told{"out-of-range at request.grid.columns", "out-of-range at request.grid.rows"}));
  EXPECT_EQ(with(5000, 5000, Box{0, 1, 0, 1}), Told{"too-many-points at request.grid"});
  EXPECT_EQ(with(2, 1, Box{5, 5, 7, 7}), Told{"equal-bounds at request.grid.extent.x"});
  EXPECT_EQ(with(1, 2, Box{5, 4, 7, 8}), Told{"turned-bounds at request.grid.extent.x"});
  EXPECT_EQ(with(2, 2, Margins{116.5, 116.5, 0, 0}), Told{"margins-meet at request.grid.extent"});
  EXPECT_EQ(with(1, 2, Margins{116.5, 116.5, 0, 0}), Told{});
  EXPECT_EQ(with(2, 2, Margins{kNan, 0, 0, kInf}),
            (Told{"out-of-range at request.grid.extent.back",
                  "out-of-range at request.grid.extent.left"}));
}

TEST(Validate, DiscsHaveARadius) {
  EXPECT_EQ(told(bare(Disc{{0, 0}, 0}, square(1))), Told{"out-of-range at machine.bed.radius"});
  leeway::Setup setup = godwit();
  setup.probe.spot = Disc{{0, 0}, -1};
  EXPECT_EQ(told(setup), Told{"out-of-range at probe.spot.radius"});
  setup.machine.obstacles[0].shape = Point{};
  EXPECT_EQ(told(setup),
            (Told{"no-shape at machine.obstacles[0].shape", "out-of-range at probe.spot.radius"}));
}

// What is no position, and one that is.
const std::vector<Point> kNowhere = {{kNan, 20},  {20, kNan},  {kNan, kNan}, {kInf, 20},
                                     {20, -kInf}, {1e300, 20}, {-1e10, 20}};

class NoPosition : public testing::Test {
 protected:
  const leeway::Setup setup_ = full_setup();
  const Limits limits_{setup_};
  const Point good_{120, 105};
};

TEST_F(NoPosition, IsUnreachableAlone) {
  for (const Point p : kNowhere) {
    const Finding finding = limits_.evaluate(p);
    EXPECT_EQ(finding.verdict, Verdict::unreachable);
    EXPECT_EQ(finding.leeway, -kInf);
    EXPECT_EQ(limits_.least_leeway(p), -kInf);
    EXPECT_EQ(limits_.on_bed(p), -kInf);
    for (std::size_t i = 0; i < limits_.size(); ++i) {
      EXPECT_EQ(limits_.reading(i, p).leeway, -kInf) << limits_.info(i).name;
    }
  }
}

TEST_F(NoPosition, IsUnreachableAmongOthersAndSpoilsNone) {
  // Longer than a block of positions, with one that is none in each place in turn.
  std::vector<Point> probes;
  for (int i = 0; i < 700; ++i) probes.push_back({-20 + 0.4 * i, -10 + 0.3 * i});
  for (std::size_t at = 0; at < probes.size(); at += 37) {
    std::vector<Point> some = probes;
    some[at] = kNowhere[at % kNowhere.size()];
    std::vector<Finding> findings(some.size());
    limits_.evaluate(some, findings);
    for (std::size_t i = 0; i < some.size(); ++i) {
      const Finding alone = limits_.evaluate(some[i]);
      EXPECT_EQ(findings[i].verdict, alone.verdict);
      EXPECT_EQ(findings[i].leeway, alone.leeway);
      EXPECT_EQ(findings[i].limit, alone.limit);
    }
    EXPECT_EQ(findings[at].verdict, Verdict::unreachable);
  }
}

TEST_F(NoPosition, StopsEveryMove) {
  const MoveLimits moves(setup_);
  for (const Point p : kNowhere) {
    MoveStop stop;
    EXPECT_TRUE(moves.blocked(p, good_, stop));
    EXPECT_EQ(stop.leeway, -kInf);
    EXPECT_TRUE(moves.blocked(good_, p, stop));
  }
}

TEST_F(NoPosition, IsNearNothing) {
  const MultiPolygon region{{{{0, 0}, {10, 0}, {10, 10}}, {}}};
  EXPECT_FALSE(closest_point(region, {kNan, 1}).has_value());
  EXPECT_FALSE(closest_point(region, {1, kInf}).has_value());
  EXPECT_TRUE(closest_point(region, {5, 20}).has_value());
}

}  // namespace
}  // namespace leeway
