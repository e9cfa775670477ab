// Setups typed as options: what they amount to, and what is said of those that will not do.

#include "formats/typed/typed_setup.h"

#include <gtest/gtest.h>

#include "formats/typed/typed_shape.h"
#include "leeway/read_setup.h"
#include "leeway/write_setup.h"

namespace leeway {
namespace {

Shape shape_in(const char* text, TypedOrigin origin = TypedOrigin::usual) {
  const TypedShape read = typed_shape(text, origin);
  EXPECT_TRUE(read.shape) << text;
  return read.shape.value_or(Shape(Point{}));
}

TEST(TypedShape, TakesSizesBoundsDiscsAndText) {
  EXPECT_EQ(shape_in("230x210"), Shape(Box{0, 230, 0, 210}));
  EXPECT_EQ(shape_in("230 X 210 mm @ -5, -2"), Shape(Box{-5, 225, -2, 208}));
  EXPECT_EQ(shape_in("-5..239,-2..211"), Shape(Box{-5, 239, -2, 211}));
  EXPECT_EQ(shape_in("round:94.5"), Shape(Disc{{0, 0}, 94.5}));
  EXPECT_EQ(shape_in("round:3@26.5,188"), Shape(Disc{{26.5, 188}, 3}));
  EXPECT_EQ(shape_in("polygon ((0 0, 9 0, 0 9, 0 0))"),
            Shape(MultiPolygon{{{{0, 0}, {9, 0}, {0, 9}}, {}}}));
}

// What says itself where it is stays there.
TEST(TypedShape, TheOriginPlacesWhatIsOnlyASize) {
  EXPECT_EQ(shape_in("230x210", TypedOrigin::centre), Shape(Box{-115, 115, -105, 105}));
  EXPECT_EQ(shape_in("round:90", TypedOrigin::centre), Shape(Disc{{0, 0}, 90}));
  EXPECT_EQ(shape_in("230x210", TypedOrigin::corner), Shape(Box{0, 230, 0, 210}));
  EXPECT_EQ(shape_in("round:90", TypedOrigin::corner), Shape(Disc{{90, 90}, 90}));
  for (const TypedOrigin origin : {TypedOrigin::corner, TypedOrigin::centre}) {
    EXPECT_EQ(shape_in("230x210@-5,-2", origin), Shape(Box{-5, 225, -2, 208}));
    EXPECT_EQ(shape_in("round:3@1,2", origin), Shape(Disc{{1, 2}, 3}));
    EXPECT_EQ(shape_in("0..9,0..8", origin), Shape(Box{0, 9, 0, 8}));
  }
}

TEST(TypedShape, RefusesTheRest) {
  for (const char* text : {"",
                           "230",
                           "x",
                           "230x",
                           "230x210@",
                           "230x210@5",
                           "230x210@5,6,7",
                           "round:",
                           "round:x",
                           "round:3@",
                           "@1,2",
                           "0..9",
                           "0:9,0:8",
                           "POLYGON",
                           "POLYGON EMPTY",
                           "POINT (1 2)",
                           "POLYGON ((0 0, 9 0, 0 9))",
                           "1..2,3..4@5,6",
                           "nan x 3",
                           "1e999x3"}) {
    EXPECT_FALSE(typed_shape(text).shape) << text;
  }
  EXPECT_EQ(typed_shape("0:9,0:8").hint, "; did you mean \"0..9,0..8\"?");
}

TypedNumbers everything() {
  TypedNumbers typed;
  typed.bed = "233x207";
  typed.travel = "-5..239,-2..211";
  typed.offset = "-38.5,12";
  typed.uncertainty = "0.15,0.2";
  typed.spot = "4";
  typed.edge_distance = "1";
  typed.trigger_height = "2";
  typed.travel_height = "8 mm";
  typed.grid = "5x4";
  typed.margins = "20";
  typed.skip_outside = true;
  typed.home = "115,105";
  typed.name = "Godwit \"typed\"";
  typed.obstacles = {"front clip=30x10@100,-6@6+1", "screw=round:3@26.5,188@0.5",
                     "handle=POLYGON ((230 90, 240 90, 240 110, 230 90))@20"};
  typed.parts = {"fan duct=44x22@-22,-30@3", "cable=-5..5,10..20@0.5"};
  return typed;
}

TEST(TypedSetup, HoldsWhatWasTyped) {
  const TypedSetup typed = typed_setup(everything());
  ASSERT_TRUE(typed.faults.empty()) << typed.faults.front().says;
  const ReadSetup read = read_setup({"typed", "typed", typed.text, ""}, {});
  ASSERT_TRUE(read.setup);
  const leeway::Setup& setup = *read.setup;
  EXPECT_EQ(setup.name, "Godwit \"typed\"");
  ASSERT_EQ(setup.machine.obstacles.size(), 3u);
  EXPECT_EQ(setup.machine.obstacles[0].name, "front clip");
  EXPECT_EQ(setup.machine.obstacles[0].shape, Shape(Box{100, 130, -6, 4}));
  EXPECT_EQ(setup.machine.obstacles[0].height, 6);
  EXPECT_EQ(setup.machine.obstacles[0].clearance, 1);
  EXPECT_EQ(setup.machine.obstacles[1].shape, Shape(Disc{{26.5, 188}, 3}));
  EXPECT_EQ(setup.machine.obstacles[1].height, 0.5);
  EXPECT_EQ(setup.machine.obstacles[1].clearance, 0);
  ASSERT_EQ(setup.machine.head.size(), 2u);
  EXPECT_EQ(setup.machine.head[0].outline, Shape(Box{-22, 22, -30, -8}));
  EXPECT_EQ(setup.machine.head[0].underside, 3);
  EXPECT_EQ(setup.machine.head[1].underside, 0.5);
  EXPECT_EQ(setup.probe.offset_uncertainty, (Point{0.15, 0.2}));
  EXPECT_EQ(setup.probe.trigger_height, 2);
  EXPECT_EQ(setup.probe.travel_height, 8);
  EXPECT_TRUE(setup.request.grid->skip_outside_bed);
  EXPECT_EQ(setup.request.home->at, (Point{115, 105}));
  // Comments stand between, and nothing else.
  std::string without_comments;
  for (std::size_t at = 0; at < typed.text.size();) {
    const std::size_t end = typed.text.find('\n', at) + 1;
    const std::string line = typed.text.substr(at, end - at);
    const std::size_t first = line.find_first_not_of(' ');
    if (line.compare(first, 2, "//") != 0) without_comments += line;
    at = end;
  }
  EXPECT_EQ(read_setup({"bare", "bare", without_comments, ""}, {}).setup->name, setup.name);
  EXPECT_EQ(commented_setup(setup), typed.text) << "read and written again it is the same";
}

TEST(TypedSetup, IsTidyAndSaysWhatIsNotStated) {
  TypedNumbers typed;
  typed.bed = "200x100";
  typed.travel = "220x120@-10,-10";
  typed.offset = "-30,0";
  typed.grid = "3x2";
  typed.bounds = "10..150,10..90";
  EXPECT_EQ(
      typed_setup(typed).text,
      R"(// Lengths are in mm, in the coordinates that the controller shows for the nozzle: x to the
// right, y to the back. Every key is described in profiles/README.md.
// Not stated yet:
//   obstacles on the bed, parts of the head, the offset's uncertainty, the height of moves.
{
  "format": "leeway-setup-1",
  "name": "This setup",
  "machine": {
    // what prints stand on
    "bed": {"rectangle": {"x": [0, 200], "y": [0, 100]}},
    // where the nozzle may be sent: as far as the machine really goes
    "travel": {"rectangle": {"x": [-10, 210], "y": [-10, 110]}}
  },
  "probe": {
    // from nozzle to probe: to the left and to the front are negative
    "offset": [-30, 0]
  },
  "request": {
    // the points that are wanted
    "grid": {"columns": 3, "rows": 2, "x": [10, 150], "y": [10, 90], "frame": "probe"}
  }
}
)");
}

std::vector<std::string> faults_of(const TypedNumbers& typed) {
  std::vector<std::string> out;
  for (const TypedFault& fault : typed_setup(typed).faults) {
    out.push_back(std::string(fault.field) + " " + fault.says);
  }
  return out;
}

TEST(TypedSetup, TellsWhatWillNotDo) {
  TypedNumbers typed = everything();
  typed.obstacles = {"clip", "clip=3x3", "clip=3x3@1,2", "clip=3x3@a", "clip=3x3@1+", "=3x3@1@2"};
  typed.parts = {"duct=3x3", "duct=what@3", "duct=3x3@1+1"};
  EXPECT_EQ(faults_of(typed).size(), 9u);
  typed = everything();
  typed.obstacles = {"clip=3x3@-1"};
  EXPECT_EQ(faults_of(typed),
            (std::vector<std::string>{"obstacle \"clip\", height: found the number -1; allowed: a "
                                      "number of mm from 0 to at most 1e6 mm"}));
  typed = everything();
  typed.grid = typed.margins = "";
  EXPECT_EQ(faults_of(typed), (std::vector<std::string>{"skip-outside grid"}));
}

// An origin that places nothing would be taken in silence.
TEST(TypedSetup, AnOriginPlacesSomething) {
  TypedNumbers typed = everything();
  typed.origin = "centre";
  const TypedSetup placed = typed_setup(typed);
  ASSERT_TRUE(placed.faults.empty());
  EXPECT_NE(placed.text.find(R"("bed": {"rectangle": {"x": [-116.5, 116.5])"), std::string::npos);
  typed.bed = "0..233,0..207";
  EXPECT_EQ(faults_of(typed),
            (std::vector<std::string>{
                "origin nothing is left to place: bed and travel say where they are"}));
  typed.origin = "middle";
  EXPECT_EQ(faults_of(typed).size(), 1u);
}

}  // namespace
}  // namespace leeway
