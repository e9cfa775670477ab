#include "leeway/cover.h"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "tasks/cover/arc.h"

namespace leeway {
namespace {

// A bed of 200 by 200 with a clip of 10 by 10, 6 high, at the middle of its front; a duct 3 above
// the nozzle, 20 to the left of it; the grid at 20 to 180.
Setup print_machine() {
  Setup setup;
  setup.machine.bed = Box{0, 200, 0, 200};
  setup.machine.travel = Box{-5, 205, -2, 210};
  setup.machine.obstacles = {{"clip", Box{100, 110, 0, 10}, 6, 1}};
  setup.machine.head = {{"duct", Box{-25, -15, -5, 5}, 3}};
  setup.probe.offset = {10, 0};
  setup.request.grid = Grid{5, 5, Box{20, 180, 20, 180}};
  return setup;
}

CoverResult cover_of(const Setup& setup, const std::vector<PrintedMove>& moves,
                     const CoverOptions& options = {}) {
  const Rig rig(setup);
  PrintCover cover(rig, options);
  for (const PrintedMove& move : moves) cover.add(move);
  return cover.finish();
}

CoverResult cover_of(const Setup& setup, const Shape& area) {
  const Rig rig(setup);
  CoverOptions options;
  options.width = 0;
  PrintCover cover(rig, options);
  cover.add(area);
  return cover.finish();
}

PrintedMove straight(Point from, Point to, double height) {
  return {from, to, height, height, std::nullopt, false, 1};
}

TEST(Cover, TellsHowFarAPrintGoesPastTheMeshBounds) {
  // 0.2 of the line lies beside the path.
  const CoverResult edge = cover_of(print_machine(), {straight({20.2, 20.2}, {179.8, 179.8}, 0.2)});
  EXPECT_TRUE(all_inside(edge));
  const CoverResult past = cover_of(print_machine(), {straight({18, 30}, {150, 181.5}, 0.2)});
  EXPECT_FALSE(inside_mesh(past));
  EXPECT_DOUBLE_EQ(*past.past.left, 2.2);
  EXPECT_DOUBLE_EQ(*past.past.back, 1.7);
  EXPECT_FALSE(past.past.right || past.past.front);
  EXPECT_TRUE(past.stops.empty());
}

TEST(Cover, TellsWhatTheHeadComesTooNearToAtThatHeight) {
  // The duct reaches from 15 to 25 to the left of the nozzle and comes over the clip.
  const auto over = [](double height) {
    return cover_of(print_machine(), {straight({125, 30}, {125, 12}, height)}).stops;
  };
  ASSERT_EQ(over(0.2).size(), 1U);
  EXPECT_EQ(over(0.2)[0].limit.name, "duct over clip");
  // The duct's front is at y 7 then, and the clip's back at 10, where 1 is wanted.
  EXPECT_NEAR(over(0.2)[0].leeway, -4, 1e-6);
  EXPECT_EQ(over(2.99).size(), 1U);
  EXPECT_TRUE(over(3).empty());
  // The nozzle itself: in the middle of a move, where neither end is too near.
  const auto across = [](double height) {
    return cover_of(print_machine(), {straight({80, 5}, {150, 5}, height)}).stops;
  };
  ASSERT_EQ(across(3).size(), 1U);
  EXPECT_EQ(across(3)[0].limit.name, "nozzle over clip");
  EXPECT_LE(across(3)[0].leeway, -5.9);
  EXPECT_TRUE(across(6).empty());
}

TEST(Cover, KeepsTheLineOnTheBedAndTheNozzleInItsTravel) {
  const auto at = [](double x) {
    return cover_of(print_machine(), {straight({x, 50}, {x, 60}, 1)}).stops;
  };
  EXPECT_TRUE(at(0.2).empty());
  ASSERT_EQ(at(0.1).size(), 1U);
  EXPECT_NEAR(at(0.1)[0].leeway, -0.1, 1e-6);
  auto setup = print_machine();
  setup.machine.travel = Box{3, 205, -2, 210};
  const CoverResult left = cover_of(setup, {straight({1, 50}, {1, 60}, 1)});
  ASSERT_FALSE(left.stops.empty());
  EXPECT_EQ(left.stops[0].limit.name, "travel left");
}

TEST(Cover, LooksAtTheWholeOfAnArea) {
  EXPECT_TRUE(all_inside(cover_of(print_machine(), Box{20, 80, 20, 180})));
  EXPECT_TRUE(cover_of(print_machine(), Box{0, 80, 0, 200}).stops.empty());
  // Nothing of its edge is near to the clip.
  auto setup = print_machine();
  setup.machine.head.clear();
  setup.machine.obstacles[0].shape = Disc{{100, 100}, 2};
  const CoverResult inside = cover_of(setup, Disc{{90, 100}, 40});
  ASSERT_EQ(inside.stops.size(), 1U);
  EXPECT_EQ(inside.stops[0].limit.name, "nozzle over clip");
  EXPECT_TRUE(inside_mesh(inside));
  const MultiPolygon with_hole{{{{30, 30}, {170, 30}, {170, 170}, {30, 170}},
                                {{{90, 90}, {110, 90}, {110, 110}, {90, 110}}}}};
  EXPECT_TRUE(all_inside(cover_of(setup, with_hole)));
}

// The limits of straight moves between limits of points, against every point of the way: what a
// move is refused for is there, and what it is not refused for is not.
TEST(Cover, MovesAgreeWithTheirPoints) {
  std::mt19937 roll(5);
  const auto any = [&roll] { return static_cast<double>(roll() % 2100) / 10 - 5; };
  auto setup = print_machine();
  setup.machine.bed = MultiPolygon{{{{0, 0}, {200, 0}, {200, 200}, {90, 120}, {0, 200}}, {}}};
  int refused = 0;
  for (int i = 0; i < 60; ++i) {
    const Point from{any(), any()};
    const Point to{any(), any()};
    const bool way = !cover_of(setup, {straight(from, to, 1)}).stops.empty();
    bool points = false;
    for (int k = 0; k <= 2000 && !points; ++k) {
      const Point p = from + (k / 2000.0) * (to - from);
      const double across = p.x < 90 ? 200 - p.x * 80 / 90 : 120 + (p.x - 90) * 80 / 110;
      const auto near = [](Point q, double x0, double x1, double y0, double y1) {
        return std::hypot(std::max({x0 - q.x, 0.0, q.x - x1}),
                          std::max({y0 - q.y, 0.0, q.y - y1})) < 1;
      };
      points = p.x < 0.2 || p.x > 199.8 || p.y < 0.2 || p.y > across || near(p, 100, 110, 0, 10) ||
               near(p, 115, 135, -5, 15);
    }
    refused += way ? 1 : 0;
    EXPECT_TRUE(way || !points) << i;
  }
  EXPECT_GT(refused, 10);
  EXPECT_LT(refused, 58);
}

TEST(Cover, FindsTheSmallestGridThatCanBeEntered) {
  CoverOptions options;
  options.around = 5;
  const CoverResult result =
      cover_of(print_machine(), {straight({50, 60}, {90.123, 80}, 0.2)}, options);
  ASSERT_TRUE(result.grid);
  EXPECT_EQ(*result.grid->numbers.probe, (Box{44.8, 95.33, 54.8, 85.2}));
  EXPECT_FALSE(result.grid_lacks.left || result.grid_lacks.right);
  auto asked = print_machine();
  asked.request.grid->extent = *result.grid->numbers.probe;
  const CheckResult checked = check(Rig(asked));
  for (const CheckedPoint& point : checked.points) {
    EXPECT_EQ(point.finding.verdict, Verdict::reachable);
  }
  // The probe gets no further than 5 on the left: what it cannot is told.
  const CoverResult cut = cover_of(print_machine(), {straight({2, 60}, {90, 80}, 0.2)}, options);
  ASSERT_TRUE(cut.grid);
  EXPECT_GT(*cut.grid_lacks.left, 7);
}

// A disc of an arc's own: its box against points of the circle, every tenth of a degree.
TEST(Cover, BoxesOfArcsAreTheirs) {
  std::mt19937 roll(3);
  for (int i = 0; i < 200; ++i) {
    const double from = static_cast<double>(roll() % 3600) / 10;
    const double sweep = static_cast<double>(roll() % 3590 + 5) / 10;
    const auto on = [](double degrees) {
      const double a = degrees * std::acos(-1.0) / 180;
      return Point{10 + 7 * std::cos(a), 20 + 7 * std::sin(a)};
    };
    const bool clockwise = roll() % 2 == 0;
    const double to = clockwise ? from - sweep : from + sweep;
    const PrintedMove move{on(from), on(to), 0, 0, Point{10, 20}, clockwise, 1};
    Box wanted{1e9, -1e9, 1e9, -1e9};
    for (int k = 0; k <= 7200; ++k) {
      const Point p = on(from + (to - from) * k / 7200);
      wanted = {std::min(wanted.x0, p.x), std::max(wanted.x1, p.x), std::min(wanted.y0, p.y),
                std::max(wanted.y1, p.y)};
    }
    const Box box = box_of(move);
    EXPECT_NEAR(box.x0, wanted.x0, 1e-5);
    EXPECT_NEAR(box.x1, wanted.x1, 1e-5);
    EXPECT_NEAR(box.y0, wanted.y0, 1e-5);
    EXPECT_NEAR(box.y1, wanted.y1, 1e-5);
    for (const Point p : chords_of(move, 0.001)) {
      EXPECT_NEAR(std::hypot(p.x - 10, p.y - 20), 7, 1e-9);
    }
  }
}

}  // namespace
}  // namespace leeway
