#include <gtest/gtest.h>

#include <filesystem>
#include <limits>
#include <set>

#include "fewer.h"
#include "formats/check_cases.h"
#include "formats/disk_files.h"
#include "formats/svg_parser.h"
#include "judges/random_setup.h"
#include "leeway/draw.h"
#include "leeway/read_setup.h"

namespace leeway {
namespace {

namespace fs = std::filesystem;

CheckResult checked(const Rig& rig) {
  CheckOptions options;
  options.regions = RegionsWanted::none;
  return check(rig, options);
}

HeadPlace head_at(const Setup& setup, Point probe) { return place_head(Rig(setup), probe); }

std::string drawn(const Setup& setup, const DrawOptions& options = {}) {
  const Rig rig(setup);
  std::string text;
  write_plan_svg(checked(rig), rig, options, [&](std::string_view piece) { text += piece; });
  return text;
}

std::vector<SvgElement> with_class(const std::vector<SvgElement>& all, const std::string& name) {
  std::vector<SvgElement> found;
  for (const SvgElement& element : all) {
    if (element.has_class(name)) found.push_back(element);
  }
  return found;
}

std::string all_text(const std::vector<SvgElement>& elements) {
  std::string text;
  for (const SvgElement& element : elements) {
    if (element.name == "text") text += element.text + "\n";
  }
  return text;
}

void expect_no_faults(const std::string& svg, const std::string& what) {
  std::vector<SvgElement> elements;
  ASSERT_NO_THROW(elements = parse_svg(svg)) << what;
  for (const std::string& fault : text_faults(elements)) ADD_FAILURE() << what << ": " << fault;
}

std::vector<std::pair<std::string, Setup>> examples() {
  std::vector<std::pair<std::string, Setup>> all;
  const fs::path root = source_folder("");
  for (const std::string& name : json_files(root / "examples")) {
    const ReadSetup read =
        read_setup(file_from_disk(root, "examples/" + name + ".json"), finder_in(root));
    if (!read.setup) throw std::runtime_error(messages(read.faults));
    all.emplace_back(name, *read.setup);
  }
  return all;
}

TEST(Plan, IsSvgWithTitleAndDescription) {
  const auto elements = parse_svg(drawn(side_bracket()));
  const SvgElement& root = elements.front();
  EXPECT_EQ(root.name, "svg");
  EXPECT_EQ(root.get("xmlns"), "http://www.w3.org/2000/svg");
  EXPECT_EQ(root.get("role"), "img");
  EXPECT_EQ(root.get("aria-labelledby"), elements[1].get("id") + " " + elements[2].get("id"));
  EXPECT_EQ(elements[1].name, "title");
  EXPECT_EQ(elements[1].text, "Plan of Godwit, side bracket");
  EXPECT_EQ(elements[2].name, "desc");
}

TEST(Plan, HasAnElementForEachPointWithItsVerdictInShapeAndClass) {
  const leeway::Setup setup = side_bracket();
  const Rig rig(setup);
  const CheckResult result = checked(rig);
  const auto elements = parse_svg(drawn(setup));
  const auto points = with_class(elements, "point");
  ASSERT_EQ(points.size(), result.points.size());
  std::set<std::string> shapes[3];
  for (std::size_t i = 0; i < points.size(); ++i) {
    EXPECT_EQ(points[i].get("id"), "p-" + std::to_string(i));
    EXPECT_TRUE(points[i].has_class(word(result.points[i].finding.verdict)));
  }
  for (const SvgElement& mark : with_class(elements, "mark")) {
    const std::string data = mark.get("d");
    const std::string shape = data.substr(data.find('m'));
    shapes[mark.has_class("reachable") ? 0 : mark.has_class("marginal") ? 1 : 2].insert(shape);
  }
  for (const std::string& circle : shapes[0]) EXPECT_EQ(shapes[2].count(circle), 0u);
}

// The probe at 20, 20 and 210, 190 are 190 and 170 mm apart in x and y: the same scale, y up.
TEST(Plan, IsTrueToScaleWithTheBackAtTheTop) {
  std::vector<Point> at;
  for (const SvgElement& element : parse_svg(drawn(side_bracket()))) {
    Point p;
    if (element.has_class("mark") && element.above.size() == 3 &&
        std::sscanf(element.get("d").c_str(), "M%lf %lfm", &p.x, &p.y) == 2) {
      at.push_back(p);
    }
  }
  ASSERT_EQ(at.size(), 25u);
  const Point way = at.back() - at.front();
  EXPECT_GT(way.x, 0);
  EXPECT_LT(way.y, 0);
  EXPECT_NEAR(way.x / 190, -way.y / 170, 1e-3);
}

TEST(Plan, NamesObstaclesWithTheirHeights) {
  leeway::Setup setup = side_bracket();
  setup.machine.obstacles.push_back(clip({100, 130, -6, 4}, 6, 1));
  setup.machine.obstacles.push_back({"post", Disc{{10, 200}, 5}, kUnlimitedHeight, 0});
  const std::string text = all_text(parse_svg(drawn(setup)));
  EXPECT_NE(text.find("clip, height 6\n"), std::string::npos);
  EXPECT_NE(text.find("post, any height\n"), std::string::npos);
}

TEST(Plan, HasItsPartsAndNoDateUnlessAsked) {
  const leeway::Setup setup = side_bracket();
  const std::string svg = drawn(setup);
  const auto elements = parse_svg(svg);
  for (const char* part : {"bed", "printable", "sure", "reach", "travel", "mesh-bounds", "arrow",
                           "uncovered", "bar", "legend"}) {
    EXPECT_FALSE(with_class(elements, part).empty()) << part;
  }
  const std::string text = all_text(elements);
  for (const char* words : {"x -38.5\n", "y 12\n", "uncovered 20\n", "mesh bounds as asked for\n",
                            "5 unreachable\n", "x in mm (front, where the operator stands)\n"}) {
    EXPECT_NE(text.find(words), std::string::npos) << words;
  }
  DrawOptions options;
  options.date = "2031-02-03";
  EXPECT_EQ(svg.find("2031"), std::string::npos);
  EXPECT_NE(all_text(parse_svg(drawn(setup, options))).find("2031-02-03\n"), std::string::npos);
}

TEST(Plan, DrawsTheHeadWhereAsked) {
  leeway::Setup setup = side_bracket();
  setup.machine.head.push_back({"fan duct", Box{-22, 22, -30, -8}, 3});
  setup.probe.body = ProbeBody{Box{-9, 9, -9, 9}, 1};
  DrawOptions options;
  options.head = head_at(setup, {210, 20});
  const auto elements = parse_svg(drawn(setup, options));
  const std::string text = all_text(elements);
  EXPECT_NE(text.find("9.5 short\n"), std::string::npos) << text;
  EXPECT_NE(text.find("Head at grid 5,1, probe 210, 20, nozzle 248.5, 8"), std::string::npos);
  EXPECT_NE(text.find("fan duct\n"), std::string::npos);
  EXPECT_NE(text.find("probe body\n"), std::string::npos);
  EXPECT_FALSE(with_class(elements, "short").empty());
  EXPECT_FALSE(with_class(elements, "spot").empty());
  options.head = head_at(setup, {115, 105});
  EXPECT_NE(all_text(parse_svg(drawn(setup, options))).find(" of leeway\n"), std::string::npos);
}

TEST(Plan, IsTheSameTwice) {
  for (const auto& [name, setup] : examples()) {
    EXPECT_EQ(drawn(setup), drawn(setup)) << name;
  }
}

TEST(Plan, KeepsTextsApartOnTheExamples) {
  int seen = 0;
  for (const auto& [name, setup] : examples()) {
    expect_no_faults(drawn(setup), name);
    const Rig rig(setup);
    for (const CheckedPoint& point : checked(rig).points) {
      DrawOptions options;
      options.head = head_at(setup, point.probe);
      options.date = "2031-02-03";
      expect_no_faults(drawn(setup, options), name + " at " + point_name(setup, point));
      ++seen;
    }
  }
  EXPECT_GT(seen, 100);
}

// Guards cost the regions most of their time, and labels do not care.
judges::RandomSetupOptions options_of(std::uint64_t seed) {
  judges::RandomSetupOptions options;
  options.uncertainties = seed % 10 == 0;
  return options;
}

TEST(Plan, KeepsTextsApartOnRandomSetups) {
  for (std::uint64_t seed = 1; seed <= fewer(1000u); ++seed) {
    leeway::Setup setup = judges::random_setup(seed, options_of(seed));
    std::size_t number = 0;
    for (Obstacle& obstacle : setup.machine.obstacles) {
      obstacle.name += std::string(seed * ++number % 37, 'w') + " of some name";
    }
    const Box bed = bounding_box(setup.machine.bed);
    const auto part = [&](int i) {
      return Point{bed.x0 + bed.width() * 0.01 * static_cast<double>((seed * 7 + 13 * i) % 120),
                   bed.y0 + bed.depth() * 0.01 * static_cast<double>((seed * 11 + 29 * i) % 120)};
    };
    for (int i = 0; i < static_cast<int>(seed % 12); ++i) {
      setup.request.points.push_back({"point number " + std::to_string(i), part(i), Frame::probe});
    }
    DrawOptions options;
    if (seed % 2 == 0) options.head = head_at(setup, part(77));
    expect_no_faults(drawn(setup, options), "seed " + std::to_string(seed));
  }
}

TEST(Plan, StaysInThePictureAtAnySize) {
  for (const double size : {0.5, 30.0, 2e3, 2e4}) {
    for (const double aspect : {1.0, 40.0, 0.02}) {
      leeway::Setup setup;
      setup.machine.bed = Box{-size, size, -size * aspect, 0};
      setup.machine.travel = setup.machine.bed;
      setup.probe.offset = {0.1 * size, -0.02 * size};
      setup.request.points.push_back({"here", {0, -0.5 * size * aspect}, Frame::probe});
      expect_no_faults(drawn(setup), std::to_string(size) + " x " + std::to_string(aspect));
    }
  }
}

// The offset is drawn in the picture, whatever it is.
TEST(Plan, HoldsTheOffsetHoweverFarItLeads) {
  leeway::Setup setup = side_bracket();
  for (const Point offset : {Point{-38.5, 12}, Point{400, -300}, Point{-9e5, 9e5}, Point{}}) {
    setup.probe.offset = offset;
    const auto elements = parse_svg(drawn(setup));
    const auto nozzle = with_class(elements, "nozzle");
    ASSERT_EQ(nozzle.size(), 1u);
    EXPECT_GT(std::stod(nozzle[0].get("cx")), 50);
    EXPECT_LT(std::stod(nozzle[0].get("cx")), 780);
    EXPECT_GT(std::stod(nozzle[0].get("cy")), 50);
    EXPECT_LT(std::stod(nozzle[0].get("cy")), 800);
  }
}

// Of more points than a picture can show apart, one of each place is drawn.
TEST(Plan, StaysSmallHoweverManyThePoints) {
  leeway::Setup setup = side_bracket();
  setup.request.grid->columns = 2;
  setup.request.grid->rows = 300'000;
  EXPECT_LT(drawn(setup).size(), 1'000'000u);
}

TEST(Plan, LeavesOutNamesOfLatticePointsAndShrinksTheirMarks) {
  leeway::Setup setup = side_bracket();
  setup.request.grid->columns = 25;
  setup.request.grid->rows = 25;
  const std::string svg = drawn(setup);
  expect_no_faults(svg, "25 x 25");
  EXPECT_EQ(all_text(parse_svg(svg)).find("grid 3,3"), std::string::npos);
}

TEST(Plan, DrawsManyPointsAsOnePathAVerdict) {
  leeway::Setup setup = side_bracket();
  setup.request.grid->columns = 100;
  setup.request.grid->rows = 100;
  setup.request.points.push_back({"mark", {50, 50}, Frame::probe});
  const std::string svg = drawn(setup);
  const auto elements = parse_svg(svg);
  EXPECT_LT(elements.size(), 400u);
  EXPECT_EQ(with_class(elements, "point").size(), 1u);  // the named one
  EXPECT_EQ(with_class(elements, "point")[0].get("id"), "p-10000");
  expect_no_faults(svg, "100 x 100");
}

TEST(Plan, MakesHostileNamesHarmless) {
  leeway::Setup setup = side_bracket();
  const std::string hostile = std::string(kHostileName) +
                              "<script>alert(1)</script>]]>&amp;\"' onload=x \x01\x1b[31m "
                              "\xE2\x80\xAE"
                              "abc \xFF\xFE";
  setup.name = hostile;
  setup.machine.name = hostile;
  setup.machine.obstacles.push_back({hostile, Box{100, 130, -6, 4}, 6, 1});
  setup.machine.head.push_back({hostile, Box{-22, 22, -30, -8}, 3});
  setup.request.points.push_back({hostile, {50, 50}, Frame::probe});
  DrawOptions options;
  options.date = hostile;
  options.head = head_at(setup, {115, 20});
  const std::string svg = drawn(setup, options);
  expect_no_faults(svg, "hostile");
  EXPECT_EQ(svg.find("<script"), std::string::npos);
  EXPECT_EQ(svg.find("\xE2\x80\xAE"), std::string::npos);
  EXPECT_EQ(svg.find('\x1b'), std::string::npos);
  const std::set<std::string> known{"svg",  "title", "desc",   "style",   "rect", "g",
                                    "path", "text",  "circle", "pattern", "defs", "clipPath"};
  for (const SvgElement& element : parse_svg(svg)) {
    EXPECT_EQ(known.count(element.name), 1u) << element.name;
    for (const auto& [name, value] : element.attributes) {
      EXPECT_NE(name.rfind("on", 0), 0u) << name;
      EXPECT_NE(name, "style");
      EXPECT_NE(name, "href");
    }
  }
}

TEST(Plan, IsDrawnOfSetupsWithHardlyAnything) {
  leeway::Setup bare;
  bare.machine.bed = Box{0, 100, 0, 100};
  bare.machine.travel = Box{0, 100, 0, 100};
  expect_no_faults(drawn(bare), "bare");
  leeway::Setup nowhere = one_point({50, 50});
  nowhere.machine.travel = Box{500, 600, 500, 600};  // nothing is reachable, nothing printable
  expect_no_faults(drawn(nowhere), "nowhere");
  leeway::Setup narrow = side_bracket();
  narrow.request.grid->extent = Margins{100, 100, 103, 103, Margins::From::bed};
  expect_no_faults(drawn(narrow), "margins that nearly meet");
  leeway::Setup single = side_bracket();
  single.request.grid->columns = 1;
  single.request.grid->rows = 1;
  expect_no_faults(drawn(single), "a single point");
}

TEST(PlanElement, FitsIntoAPage) {
  leeway::Setup setup = side_bracket();
  const Rig rig(setup);
  EmbedOptions embed;
  embed.prefix = "here-";
  embed.title = false;
  embed.legend = false;
  std::string svg;
  write_plan_element(checked(rig), rig, {}, embed, [&](std::string_view piece) { svg += piece; });
  EXPECT_EQ(svg.rfind("<svg ", 0), 0u);
  EXPECT_EQ(svg.find("<style"), std::string::npos);
  const auto elements = parse_svg(svg);
  EXPECT_TRUE(with_class(elements, "legend").empty());
  EXPECT_TRUE(with_class(elements, "title").empty());
  std::set<std::string> ids;
  for (const SvgElement& element : elements) {
    const std::string id = element.get("id");
    if (id.empty()) continue;
    EXPECT_TRUE(ids.insert(id).second) << id;
    EXPECT_TRUE(id.rfind("here-", 0) == 0 || id.rfind("p-", 0) == 0) << id;
  }
  EXPECT_EQ(with_class(elements, "point").size(), 25u);
}

TEST(PlanSvg, RefusesAHeadThatStandsNowhere) {
  leeway::Setup setup;
  setup.machine.bed = setup.machine.travel = Box{0, 100, 0, 100};
  const double inf = std::numeric_limits<double>::infinity();
  for (const double bad : {std::numeric_limits<double>::quiet_NaN(), inf, -inf, 1.1e6}) {
    for (const Point at : {Point{bad, 1}, Point{1, bad}}) {
      DrawOptions options;
      options.head = head_at(setup, at);
      EXPECT_THROW(drawn(setup, options), InvalidPlace);
      const Rig rig(setup);
      EXPECT_THROW(write_plan_element(checked(rig), rig, options, {}, [](std::string_view) {}),
                   InvalidPlace);
    }
  }
}

}  // namespace
}  // namespace leeway
