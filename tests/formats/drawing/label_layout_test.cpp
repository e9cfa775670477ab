#include "formats/drawing/label_layout.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <random>

namespace leeway {
namespace {

bool overlap(const Box& a, const Box& b) {
  return a.x0 < b.x1 && b.x0 < a.x1 && a.y0 < b.y1 && b.y0 < a.y1;
}

bool inside(const Box& a, const Box& b) {
  return a.x0 >= b.x0 && a.x1 <= b.x1 && a.y0 >= b.y0 && a.y1 <= b.y1;
}

const Box kPicture{0, 800, 0, 600};

TEST(Labels, StandRightOfTheirPlaceWhereNothingIsInTheWay) {
  const auto placed = place_labels({{"clip", {100, 100}, 6}}, {}, {}, kPicture);
  ASSERT_EQ(placed.size(), 1u);
  EXPECT_EQ(placed[0].box.x0, 106);
  EXPECT_LT(placed[0].box.y0, 100);
  EXPECT_GT(placed[0].box.y1, 100);
  EXPECT_FALSE(placed[0].far);
}

TEST(Labels, GoToTheOtherSideAtTheEdge) {
  const auto placed = place_labels({{"a long name", {790, 100}, 6}}, {}, {}, kPicture);
  ASSERT_EQ(placed.size(), 1u);
  EXPECT_LT(placed[0].box.x1, 790);
}

TEST(Labels, AreLeftOutWhereThereIsNoRoom) {
  EXPECT_TRUE(place_labels({{"clip", {100, 100}}}, {kPicture}, {}, kPicture).empty());
  EXPECT_TRUE(place_labels({{"clip", {5, 5}}}, {}, {}, {0, 20, 0, 20}).empty());
  EXPECT_TRUE(place_labels({{"clip", {5, 5}}}, {}, {}, {0, -1, 0, 0}).empty());
}

TEST(Labels, AvoidLinesIfTheyCan) {
  const Box line{100, 200, 99, 101};
  const auto placed = place_labels({{"clip", {100, 100}, 6}}, {}, {line}, kPicture);
  ASSERT_EQ(placed.size(), 1u);
  EXPECT_FALSE(overlap(placed[0].box, line));
  // Not at the price of being left out.
  EXPECT_EQ(place_labels({{"clip", {100, 100}, 6}}, {}, {kPicture}, kPicture).size(), 1u);
}

TEST(Labels, TakeTheFirstOfTheirPlacesThatIsFree) {
  Label label{"20", {0, 0}};
  label.places = {{100, 100}, {300, 300}};
  label.around = false;
  const auto placed = place_labels({label}, {{90, 110, 90, 110}}, {}, kPicture);
  ASSERT_EQ(placed.size(), 1u);
  EXPECT_NEAR((placed[0].box.x0 + placed[0].box.x1) / 2, 300, 1e-9);
  EXPECT_TRUE(place_labels({label}, {kPicture}, {}, kPicture).empty());
}

TEST(Labels, KeepOffEachOtherAndWhatIsTakenInRandomPictures) {
  std::size_t all = 0;
  std::size_t found = 0;
  for (unsigned seed = 1; seed <= 1000; ++seed) {
    std::mt19937 random(seed);
    const auto number = [&](double low, double high) {
      return low + (high - low) * static_cast<double>(random()) / 4294967296.0;
    };
    const Box within{number(-50, 50), number(100, 900), number(-50, 50), number(100, 900)};
    const auto place = [&] {
      return Point{number(within.x0 - 20, within.x1 + 20), number(within.y0 - 20, within.y1 + 20)};
    };
    std::vector<Box> taken;
    for (int i = static_cast<int>(number(0, 80)); i > 0; --i) {
      const Point p = place();
      taken.push_back({p.x, p.x + number(0, 40), p.y, p.y + number(0, 40)});
    }
    std::vector<Label> labels;
    for (int i = static_cast<int>(number(1, 40)); i > 0; --i) {
      Label label{std::string(static_cast<std::size_t>(number(0, 30)), 'n'), place(), number(0, 9),
                  number(9, 16)};
      label.bold = number(0, 1) < 0.2;
      label.half = {number(0, 20), number(0, 20)};
      if (number(0, 1) < 0.3) label.places = {place(), place()};
      labels.push_back(label);
    }
    const auto placed = place_labels(labels, taken, taken, within);
    all += labels.size();
    found += placed.size();
    for (std::size_t i = 0; i < placed.size(); ++i) {
      ASSERT_TRUE(inside(placed[i].box, within)) << seed;
      const Label& label = labels[placed[i].label];
      const double end = placed[i].base.x + text_width(label.text, label.size);
      ASSERT_LE(end, placed[i].box.x1) << seed;
      for (const Box& box : taken) ASSERT_FALSE(overlap(placed[i].box, box)) << seed;
      for (std::size_t j = i + 1; j < placed.size(); ++j) {
        ASSERT_FALSE(overlap(placed[i].box, placed[j].box)) << seed;
        ASSERT_LT(placed[i].label, placed[j].label) << seed;
      }
    }
  }
  EXPECT_GT(found * 2, all);  // it does place them
}

double distance(const Box& a, const Box& b) {
  return std::hypot(std::max({0.0, b.x0 - a.x1, a.x0 - b.x1}),
                    std::max({0.0, b.y0 - a.y1, a.y0 - b.y1}));
}

Box mark_of(const Label& label) {
  return {label.at.x - label.half.x, label.at.x + label.half.x, label.at.y - label.half.y,
          label.at.y + label.half.y};
}

// Of what is looked at in fine steps, no part of a line lies in a box.
bool crosses(const PlacedLabel& led, const Box& box) {
  for (int i = 0; i <= 500; ++i) {
    const Point p = led.lead_from + (i / 500.0) * (led.lead_to - led.lead_from);
    if (distance(box, {p.x, p.x, p.y, p.y}) == 0) return true;
  }
  return false;
}

// Each names its thing: nearer to its own mark than to any other's, or a line leads to it that
// crosses no label.
void expect_named(const std::vector<Label>& labels, const std::vector<PlacedLabel>& placed,
                  const std::vector<Box>& others, const std::string& what) {
  for (const PlacedLabel& one : placed) {
    const Box own = mark_of(labels[one.label]);
    if (!one.far) {
      const double mine = distance(own, one.box);
      for (std::size_t i = 0; i < labels.size(); ++i) {
        if (i == one.label) continue;
        ASSERT_GT(distance(mark_of(labels[i]), one.box), mine) << what << ", label " << one.label;
      }
      for (const Box& other : others) ASSERT_GT(distance(other, one.box), mine) << what;
      continue;
    }
    const Point to = one.lead_to;
    ASSERT_LT(distance(own, {to.x, to.x, to.y, to.y}), 1e-9) << what << ", label " << one.label;
    for (const PlacedLabel& other : placed) {
      if (other.label == one.label) continue;
      ASSERT_FALSE(crosses(one, other.box)) << what << ", " << one.label << ", " << other.label;
    }
  }
}

TEST(Labels, OfClipsSideBySideNeverStandUnderTheNextOne) {
  std::vector<Label> labels;
  for (int i = 0; i < 4; ++i) {
    Label label{"a clip with a long name", {100.0 + 34 * i, 580}, 4};
    label.half = {12, 15};
    label.solid = true;
    label.places = {label.at};
    labels.push_back(label);
  }
  const auto placed = place_labels(labels, {}, {}, kPicture);
  EXPECT_GE(placed.size(), 3u);  // what finds no place is listed
  expect_named(labels, placed, {}, "clips");
}

TEST(Labels, ThatAreShortStandOnWhatTheyName) {
  Label label{"12", {100, 100}, 4};
  label.half = {14, 12};
  label.solid = true;
  label.places = {label.at};
  const auto placed = place_labels({label}, {}, {}, kPicture);
  ASSERT_EQ(placed.size(), 1u);
  EXPECT_TRUE(inside(placed[0].box, mark_of(label)));
  // A mark beside it that no label names is none of its own.
  const Box beside{130, 140, 95, 105};
  Label named{"12", {100, 100}, 4};
  named.half = {3, 3};
  const auto off = place_labels({named}, {}, {}, kPicture, {beside});
  ASSERT_EQ(off.size(), 1u);
  EXPECT_LT(distance(off[0].box, mark_of(named)), distance(off[0].box, beside));
}

TEST(Labels, NameTheirThingInRandomPictures) {
  std::size_t led = 0;
  std::size_t found = 0;
  for (unsigned seed = 1; seed <= 600; ++seed) {
    std::mt19937 random(seed);
    const auto number = [&](double low, double high) {
      return low + (high - low) * static_cast<double>(random()) / 4294967296.0;
    };
    std::vector<Label> labels;
    // Sizes of their own, so that no two are the same mark.
    for (int i = static_cast<int>(number(2, 30)); i > 0; --i) {
      const Point at{number(30, 770), number(30, 570)};
      Label label{std::string(static_cast<std::size_t>(number(1, 24)), 'n'), at, number(2, 7)};
      label.half = {number(13, 30), number(13, 30)};
      label.solid = number(0, 1) < 0.5;
      if (number(0, 1) < 0.3) label.places = {label.at};
      labels.push_back(label);
    }
    std::vector<Box> others;
    for (int i = static_cast<int>(number(0, 40)); i > 0; --i) {
      const Point p{number(10, 780), number(10, 580)};
      others.push_back({p.x, p.x + 9, p.y, p.y + 9});
    }
    const auto placed = place_labels(labels, others, {}, kPicture, others);
    expect_named(labels, placed, others, "seed " + std::to_string(seed));
    found += placed.size();
    for (const PlacedLabel& one : placed) led += one.far;
  }
  EXPECT_GT(found, 3000u);
  EXPECT_GT(led, 300u);
}

TEST(TextWidth, IsGenerousAndCutsToFit) {
  EXPECT_EQ(text_width("", 12), 0);
  EXPECT_GT(text_width("mm", 12), text_width("il", 12));
  EXPECT_GE(text_width("\xE6\xBC\xA2", 12), 12);  // a wide character fills its square
  EXPECT_EQ(cut_to_width("clip", 12, 100), "clip");
  const std::string cut = cut_to_width("a very long name of a clip", 12, 80);
  EXPECT_LE(text_width(cut, 12), 80);
  EXPECT_EQ(cut.substr(0, 3), "a v");  // in the middle
  EXPECT_EQ(cut.substr(cut.size() - 3), "lip");
}

}  // namespace
}  // namespace leeway
