// Setups that make pictures ugly: what must hold of each, at any width. To be looked at, not only
// counted: tests/cases/ugly/pictures.sh draws them.

#include <gtest/gtest.h>

#include <cmath>
#include <cstdio>

#include "formats/check_cases.h"
#include "formats/disk_files.h"
#include "formats/svg_parser.h"
#include "formats/text/names.h"
#include "leeway/draw.h"
#include "leeway/read_setup.h"

namespace leeway {
namespace {

struct UglyCase {
  std::string name;
  Setup setup;
};

std::vector<UglyCase> ugly_cases() {
  const auto root = source_folder("");
  std::vector<UglyCase> all;
  for (const std::string& name : json_files(root / "tests/cases/ugly")) {
    const ReadSetup read =
        read_setup(file_from_disk(root, "tests/cases/ugly/" + name + ".json"), finder_in(root));
    if (!read.setup) throw std::runtime_error(messages(read.faults));
    all.push_back({name, *read.setup});
  }
  return all;
}

struct UglyPicture {
  std::vector<SvgElement> elements;
  std::string text;  // all of it
};

UglyPicture ugly_picture(const Setup& setup, const DrawOptions& options, double width) {
  const Rig rig(setup);
  CheckOptions wanted;
  wanted.regions = RegionsWanted::none;
  EmbedOptions embed;
  embed.width = width;
  std::string svg;
  write_plan_element(check(rig, wanted), rig, options, embed,
                     [&](std::string_view piece) { svg += piece; });
  UglyPicture picture{parse_svg(svg), ""};
  for (const SvgElement& element : picture.elements) {
    if (element.name == "text") picture.text += element.text + " ";
  }
  return picture;
}

// A line that leads from a label crosses no text but, at its beginning, its own.
void expect_leads_cross_no_text(const UglyPicture& picture, const std::string& what) {
  std::vector<Box> texts;
  for (const SvgElement& element : picture.elements) {
    if (element.name == "text") texts.push_back(text_box(element));
  }
  for (const SvgElement& element : picture.elements) {
    Point from, to;
    if (!element.has_class("lead")) continue;
    ASSERT_EQ(
        std::sscanf(element.get("d").c_str(), "M%lf %lfL%lf %lf", &from.x, &from.y, &to.x, &to.y),
        4);
    for (const Box& text : texts) {
      for (int i = 0; i <= 100; ++i) {
        const Point p = from + (i / 100.0) * (to - from);
        EXPECT_FALSE(overlap(text, {p.x - 0.1, p.x + 0.1, p.y - 0.1, p.y + 0.1})) << what;
      }
    }
  }
}

void expect_good(const Setup& setup, const DrawOptions& options, double width,
                 const std::string& what) {
  const UglyPicture picture = ugly_picture(setup, options, width);
  for (const std::string& fault : text_faults(picture.elements)) ADD_FAILURE() << what << fault;
  expect_leads_cross_no_text(picture, what);
  EXPECT_EQ(picture.text.find("\xEF\xBF\xBD"), std::string::npos) << what;
}

TEST(UglyPlans, KeepTextsApartAndLeadsOffThemAtAnyWidth) {
  const std::vector<UglyCase> all = ugly_cases();
  EXPECT_GE(all.size(), 10u);
  for (const UglyCase& one : all) {
    for (const double width : {360.0, 800.0, 1280.0}) {
      const std::string what = one.name + ", " + std::to_string(static_cast<int>(width)) + ": ";
      expect_good(one.setup, {}, width, what);
      DrawOptions options;
      const Box bed = bounding_box(one.setup.machine.bed);
      for (const double part : {0.02, 0.5, 0.97}) {
        options.head =
            place_head(Rig(one.setup), {bed.x0 + part * bed.width(), bed.y0 + 0.1 * bed.depth()});
        expect_good(one.setup, options, width, what + "with its head: ");
      }
    }
  }
}

// Beside its mark, by a number in the key, or among what found no place.
TEST(UglyPlans, TellOfEachObstacle) {
  for (const UglyCase& one : ugly_cases()) {
    const UglyPicture picture = ugly_picture(one.setup, {}, 800);
    for (const Obstacle& obstacle : one.setup.machine.obstacles) {
      // Lines are broken at blanks.
      const std::string name = one_line(obstacle.name);
      const std::string word = name.substr(name.rfind(' ') + 1);
      EXPECT_NE(picture.text.find(word), std::string::npos) << one.name << ": " << obstacle.name;
    }
  }
}

TEST(UglyPlans, SayWhereNothingIsReachable) {
  std::size_t nowhere = 0;
  for (const UglyCase& one : ugly_cases()) {
    const bool empty = Rig(one.setup).regions().get(RegionKind::reachable).empty();
    const UglyPicture picture = ugly_picture(one.setup, {}, 800);
    EXPECT_EQ(picture.text.find("The probe can be nowhere: ") != std::string::npos, empty)
        << one.name;
    EXPECT_EQ(picture.text.find("The probe can be nowhere ") != std::string::npos, empty)
        << one.name << ": on the plan";
    EXPECT_EQ(picture.text.find("reachable: nowhere") != std::string::npos, empty) << one.name;
    nowhere += empty;
  }
  EXPECT_GE(nowhere, 2u);
}

}  // namespace
}  // namespace leeway
