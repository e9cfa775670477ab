// What happens when an overlay comes out wrong: the checks, the last resort.

#include <gtest/gtest.h>

#include <algorithm>
#include <limits>
#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

#include "geometry/overlay/overlay_boost.h"
#include "geometry/overlay/overlay_check.h"
#include "geometry/overlay/overlay_lattice.h"
#include "geometry/overlay/overlay_rings.h"
#include "geometry/overlay/overlay_steps.h"
#include "geometry/overlay/overlay_tangle.h"
#include "geometry/overlay_cases.h"

namespace leeway::overlay {
namespace {

using testing::area_of;
using testing::AreaByBands;
using testing::Dice;
using testing::fault_of_form;
using testing::gon;
using testing::rectangle;
using testing::rounding_allowance;

using Spoil = std::function<MultiPolygon(MultiPolygon)>;

// Boost.Geometry, but its first `times` answers are spoilt.
Engine spoilt(int times, Spoil spoil) {
  Engine engine = usual_engine();
  engine.attempt = [left = times, spoil = std::move(spoil)](
                       Operation operation, const MultiPolygon& a, const MultiPolygon& b) mutable {
    MultiPolygon answer = boost_overlay(operation, a, b);
    return left-- > 0 ? spoil(std::move(answer)) : answer;
  };
  return engine;
}

constexpr int kAlways = 1000;

MultiPolygon bed() {
  return {{rectangle(0, 200, 0, 180).outer, {rectangle(80, 90, 80, 90).outer}}};
}
MultiPolygon clips() { return {rectangle(-5, 20, 50, 70), rectangle(100, 130, 170, 190)}; }
double clipped_area() { return 200 * 180 - 100 - 20 * 20 - 30 * 10; }

struct Spoiling {
  const char* name;
  Spoil spoil;
};

std::vector<Spoiling> spoilings() {
  return {
      {"all is lost", [](const MultiPolygon&) { return MultiPolygon{}; }},
      {"a hole is lost",
       [](MultiPolygon m) {
         m[0].holes.clear();
         return m;
       }},
      {"a speck of 0.05 mm is lost",
       [](MultiPolygon m) {
         m[0].holes.push_back(
             {{150000, 100000}, {150000, 100050}, {150050, 100050}, {150050, 100000}});
         return m;
       }},
      {"a piece comes twice",
       [](MultiPolygon m) {
         m.push_back(
             {{{150000, 100000}, {151000, 100000}, {151000, 101000}, {150000, 101000}}, {}});
         return m;
       }},
      {"a hole is as large but elsewhere",
       [](MultiPolygon m) {
         for (Point& p : m[0].holes.at(0)) p.y += 1000;
         return m;
       }},
      {"a ring is turned round",
       [](MultiPolygon m) {
         std::reverse(m[0].outer.begin(), m[0].outer.end());
         return m;
       }},
      {"a vertex is not a number",
       [](MultiPolygon m) {
         m[0].outer[1].y = std::numeric_limits<double>::quiet_NaN();
         return m;
       }},
      {"it gives up",
       [](const MultiPolygon&) -> MultiPolygon { throw std::runtime_error("turns"); }},
  };
}

TEST(OverlayRetry, AcceptsARightFirstAnswer) {
  Engine engine = usual_engine();
  EXPECT_NEAR(area_of(subtract(bed(), clips(), engine)), clipped_area(), 1e-9);
  EXPECT_EQ(engine.rejected, 0u);
  EXPECT_EQ(engine.last_resorts, 0u);
}

TEST(OverlayRetry, AsksTheLastResortWhenTheFirstAnswerIsWrong) {
  for (const Spoiling& s : spoilings()) {
    SCOPED_TRACE(s.name);
    Engine engine = spoilt(kAlways, s.spoil);
    const MultiPolygon result = subtract(bed(), clips(), engine);
    EXPECT_NEAR(area_of(result), clipped_area(), 1e-9);
    EXPECT_EQ(fault_of_form(result), "");
    EXPECT_EQ(engine.rejected, 1u);
    EXPECT_EQ(engine.last_resorts, 1u);
  }
}

TEST(OverlayRetry, ReportsAFaultWhenTheLastResortIsWrongToo) {
  for (const Spoiling& s : spoilings()) {
    SCOPED_TRACE(s.name);
    Engine engine = spoilt(kAlways, s.spoil);
    engine.last_resort = [&s](Operation operation, const MultiPolygon& a, const MultiPolygon& b) {
      LatticeResult result = lattice_overlay(operation, a, b);
      result.polygons = s.spoil(std::move(result.polygons));
      return result;
    };
    EXPECT_THROW(subtract(bed(), clips(), engine), OverlayFault);
  }
}

TEST(OverlayRetry, SaysInTheFaultWhatFailedAndWhere) {
  Engine engine = spoilt(kAlways, [](const MultiPolygon&) { return MultiPolygon{}; });
  engine.last_resort = [](Operation, const MultiPolygon&, const MultiPolygon&) {
    return LatticeResult{};
  };
  const auto message = [](auto work) -> std::string {
    try {
      work();
    } catch (const OverlayFault& fault) {
      return fault.what();
    }
    return "no fault";
  };
  EXPECT_EQ(message([&] { subtract(bed(), clips(), engine); }),
            "overlay: no way of computing the difference of 1 and 2 polygons stood the check, "
            "x from 0 to 200 mm, y from 0 to 180 mm");
  EXPECT_EQ(message([&] { intersect(bed(), clips(), engine); }),
            "overlay: no way of computing the intersection of 1 and 2 polygons stood the check, "
            "x from -5 to 130 mm, y from 50 to 190 mm");
  EXPECT_EQ(message([&] {
              unite({rectangle(0, 2, 0, 2), rectangle(1, 3, 1, 3.5)}, engine);
            }),
            "overlay: no way of computing the union of 1 and 1 polygons stood the check, "
            "x from 0 to 3 mm, y from 0 to 3.5 mm");
}

TEST(OverlayRetry, ChecksUnionsAndIntersectionsToo) {
  for (const int times : {1, kAlways}) {
    Engine engine = spoilt(times, [](const MultiPolygon&) { return MultiPolygon{}; });
    EXPECT_NEAR(area_of(unite({rectangle(0, 2, 0, 2), rectangle(1, 3, 1, 3)}, engine)), 7, 1e-9);
    EXPECT_GE(engine.rejected, 1u);
    Engine other = spoilt(times, [](const MultiPolygon& m) { return MultiPolygon{m[0], m[0]}; });
    EXPECT_NEAR(area_of(intersect(bed(), clips(), other)), 700, 1e-9);
    EXPECT_GE(other.rejected, 1u);
  }
}

// A vertex 0.05 um above a slanted edge, which rounding would take below it.
TEST(OverlayRetry, SeesWhenRoundingTanglesRings) {
  const MultiPolygon before{
      {{{0, 0}, {1000, 1}, {1000, 500}, {0, 500}}, {{{400, 0.45}, {300, 200}, {500, 200}}}}};
  EXPECT_FALSE(untangled(before, rounded(before)));
  const MultiPolygon clear{
      {{{0, 0}, {1000, 1}, {1000, 500}, {0, 500}}, {{{400, 0.55}, {300, 200}, {500, 200}}}}};
  EXPECT_TRUE(untangled(clear, rounded(clear)));
  // Two rings may touch at a vertex, but a ring may not touch itself.
  const MultiPolygon touching{{{{0, 0}, {9, 0}, {4.5, 9}}, {}}, {{{4.5, 9}, {9, 20}, {0, 20}}, {}}};
  EXPECT_TRUE(untangled(touching, rounded(touching)));
  const MultiPolygon pinched{{{{0, 0}, {9, 0}, {5.2, 9.1}, {9, 20}, {0, 20}, {4.6, 9.2}}, {}}};
  EXPECT_FALSE(untangled(pinched, rounded(pinched)));
}

TEST(OverlayCheck, MeasuresTheWrongArea) {
  const MultiPolygon a{rectangle(0, 10, 0, 10)};
  const MultiPolygon b{{{{5, 5}, {15, 5}, {5, 15}}, {}}};
  const MultiPolygon common{rectangle(5, 10, 5, 10)};
  EXPECT_NEAR(wrong_area(Operation::intersect, a, b, common), 0, 1e-9);
  EXPECT_NEAR(wrong_area(Operation::intersect, a, b, {}), 25, 1e-9);
  EXPECT_NEAR(wrong_area(Operation::intersect, a, b, a), 75, 1e-9);
  EXPECT_NEAR(wrong_area(Operation::intersect, a, b, {common[0], common[0]}), 25, 1e-9);
  EXPECT_NEAR(wrong_area(Operation::unite, a, b, a), 25, 1e-9);
  EXPECT_NEAR(wrong_area(Operation::subtract, a, b, a), 25, 1e-9);
  EXPECT_NEAR(wrong_area(Operation::subtract, b, a, b), 25, 1e-9);
  EXPECT_NEAR(wrong_area(Operation::unite, {a[0], b[0], common[0]}, {}, a), 25, 1e-9);
}

// The last resort must be right by itself: nothing comes after it.
TEST(OverlayLattice, IsRightWithoutBoost) {
  for (unsigned seed = 1; seed <= 150; ++seed) {
    SCOPED_TRACE(seed);
    Dice dice(seed);
    std::vector<Polygon> parts;
    for (int i = dice.roll(2, 9); i > 0; --i) {
      const Point at{dice.roll(-20, 20) * 2.5, dice.roll(-20, 20) * 2.5};
      const double size = dice.roll(1, 6) * 2.5;
      switch (dice.roll(0, 3)) {
        case 0:
          parts.push_back(rectangle(at.x, at.x + size, at.y, at.y + size));
          break;
        case 1:
          parts.push_back(gon(at, size, 4));
          break;
        case 2:
          parts.push_back(gon(at, size, dice.roll(5, 40), dice.roll(0, 9) / 10.0));
          break;
        default:
          parts.push_back(
              {{at, to_lattice(at + Point{size, size / 3}), at + Point{-size, 2 * size}}, {}});
          parts.back().holes.push_back(gon(at + Point{0, size * 0.7}, size / 10, 6).outer);
      }
    }
    Engine engine = spoilt(kAlways, [](const MultiPolygon&) { return MultiPolygon{}; });
    const Polygon frame{{{-40, -45}, {40, -39}, {30, 45}, {-47, 20}}, {}};
    const MultiPolygon united = unite(parts, engine);
    const MultiPolygon left = subtract({frame}, united, engine);
    const MultiPolygon common = intersect({frame}, united, engine);
    std::vector<Polygon> given = parts;
    given.push_back(frame);
    const double before = rounding_allowance(united, given);
    EXPECT_NEAR(area_of(united), AreaByBands(parts, {}).united(), before);
    const AreaByBands judge({frame}, parts);
    EXPECT_NEAR(area_of(left), judge.difference(), before + rounding_allowance(left, given));
    EXPECT_NEAR(area_of(common), judge.common(), before + rounding_allowance(common, given));
    for (const MultiPolygon& result : {united, left, common}) EXPECT_EQ(fault_of_form(result), "");
  }
}

}  // namespace
}  // namespace leeway::overlay
