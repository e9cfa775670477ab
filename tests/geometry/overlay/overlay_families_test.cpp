// The cases in which overlay libraries were measured to lose regions.

#include <gtest/gtest.h>

#include <algorithm>
#include <set>

#include "geometry/overlay/overlay.h"
#include "geometry/overlay_cases.h"

namespace leeway {
namespace {

using testing::area_of;
using testing::AreaByBands;
using testing::Dice;
using testing::fault_of_form;
using testing::gon;
using testing::rectangle;
using testing::rounding_allowance;

// `slivers`: the area of strips too thin for the lattice that may have come or gone.
void expect_right(const Polygon& bed, const std::vector<Polygon>& obstacles, double slivers = 0) {
  const MultiPolygon united = unite(obstacles);
  const MultiPolygon left = subtract({bed}, united);
  const MultiPolygon common = intersect({bed}, united);
  std::vector<Polygon> given = obstacles;
  given.push_back(bed);
  const AreaByBands judge({bed}, obstacles);
  // What is subtracted was rounded before.
  const double before = slivers + rounding_allowance(united, given);
  EXPECT_NEAR(area_of(united), AreaByBands(obstacles, {}).united(), before);
  EXPECT_NEAR(area_of(left), judge.difference(), before + rounding_allowance(left, given));
  EXPECT_NEAR(area_of(common), judge.common(), before + rounding_allowance(common, given));
  for (const MultiPolygon& result : {united, left, common}) EXPECT_EQ(fault_of_form(result), "");
}

Polygon diamond(Point centre, double half) {
  return {{centre + Point{half, 0}, centre + Point{0, half}, centre - Point{half, 0},
           centre - Point{0, half}},
          {}};
}

// A bed of 230 x 210 with corners cut at 45 degrees.
Polygon chamfered(double cut) {
  return {{{cut, 0},
           {230 - cut, 0},
           {230, cut},
           {230, 210 - cut},
           {230 - cut, 210},
           {cut, 210},
           {0, 210 - cut},
           {0, cut}},
          {}};
}

TEST(OverlayChamfer, LosesNothingWhereverAnObstacleTouchesIt) {
  const double cut = 15;
  const Polygon bed = chamfered(cut);
  const double whole = area(bed);
  int placements = 0;
  for (double t = 0; t <= cut + 1e-9; t += 0.03) {
    const Point at = to_lattice(Point{t, cut - t});  // on the chamfer at the front left
    for (const double size : {2.0, 3.57}) {
      const Polygon outside = rectangle(at.x - size, at.x, at.y - size, at.y);
      EXPECT_EQ(subtract({bed}, {outside}), unite({bed}));
      const Polygon inside = rectangle(at.x, at.x + size, at.y, at.y + size);
      EXPECT_NEAR(area_of(subtract({bed}, {inside})), whole - size * size, 1e-6);
      // An edge of the diamond lies on the chamfer or goes beyond its end.
      const Polygon flush = diamond(at + Point{size, 0}, size);
      const AreaByBands judge({bed}, {flush});
      const MultiPolygon left = subtract({bed}, {flush});
      EXPECT_NEAR(area_of(left), judge.difference(), rounding_allowance(left, {bed, flush}));
      const Polygon flush_outside = diamond(at - Point{size, 0}, size);
      EXPECT_NEAR(area_of(subtract({bed}, {flush_outside})),
                  AreaByBands({bed}, {flush_outside}).difference(), 1e-6);
      placements += 4;
    }
  }
  EXPECT_GT(placements, 4000);
}

TEST(OverlayChamfer, LosesNothingWithManyObstaclesAlongIt) {
  for (unsigned seed = 1; seed <= 150; ++seed) {
    SCOPED_TRACE(seed);
    Dice dice(seed);
    const double cut = dice.roll(500, 4000) / 100.0;
    std::vector<Polygon> obstacles;
    for (int i = dice.roll(1, 14); i > 0; --i) {
      const double t = dice.roll(0, static_cast<int>(cut * 100)) / 100.0;
      const double half = dice.roll(1, 8) * 2.5;
      const Point at = to_lattice(dice.roll(0, 1) ? Point{t, cut - t} : Point{230 - t, cut - t});
      switch (dice.roll(0, 3)) {
        case 0:
          obstacles.push_back(rectangle(at.x, at.x + half, at.y, at.y + half));
          break;
        case 1:
          obstacles.push_back(rectangle(at.x - half, at.x, at.y - half, at.y));
          break;
        case 2:
          obstacles.push_back(diamond(at, half));
          break;
        default:
          obstacles.push_back(diamond(at + Point{half, 0}, half));
      }
    }
    expect_right(chamfered(cut), obstacles);
  }
}

// The area of a bed of whole micrometres that no box covers, by counting the cells between all
// coordinates: exact.
double uncovered(const Box& bed, const std::vector<Box>& boxes) {
  std::set<double> xs{bed.x0, bed.x1};
  std::set<double> ys{bed.y0, bed.y1};
  for (const Box& box : boxes) {
    xs.insert({box.x0, box.x1});
    ys.insert({box.y0, box.y1});
  }
  double sum = 0;
  for (auto x = xs.begin(); std::next(x) != xs.end(); ++x) {
    for (auto y = ys.begin(); std::next(y) != ys.end(); ++y) {
      const Box cell{*x, *std::next(x), *y, *std::next(y)};
      const auto covers = [&cell](const Box& box) {
        return box.x0 <= cell.x0 && cell.x1 <= box.x1 && box.y0 <= cell.y0 && cell.y1 <= box.y1;
      };
      if (covers(bed) && std::none_of(boxes.begin(), boxes.end(), covers)) {
        sum += cell.width() * cell.depth();
      }
    }
  }
  return sum;
}

std::vector<Polygon> polygons_of(const std::vector<Box>& boxes) {
  std::vector<Polygon> result;
  for (const Box& box : boxes) result.push_back(to_polygon(box));
  return result;
}

TEST(OverlayRectangles, LeaveExactlyTheUncoveredCells) {
  for (unsigned seed = 1; seed <= 600; ++seed) {
    SCOPED_TRACE(seed);
    Dice dice(seed);
    const Box bed{0, dice.roll(100, 300) * 1.0, 0, dice.roll(100, 300) * 1.0};
    // Few coordinates, so that many edges coincide.
    std::vector<double> xs{bed.x0, bed.x1};
    std::vector<double> ys{bed.y0, bed.y1};
    for (int i = 0; i < 8; ++i) {
      xs.push_back(dice.roll(-1000, static_cast<int>(bed.x1 * 100) + 1000) / 100.0);
      ys.push_back(dice.roll(-1000, static_cast<int>(bed.y1 * 100) + 1000) / 100.0);
    }
    const auto any = [&dice](const std::vector<double>& of) {
      return of[static_cast<std::size_t>(dice.roll(0, static_cast<int>(of.size()) - 1))];
    };
    std::vector<Box> boxes;
    for (int i = dice.roll(1, 30); i > 0; --i) {
      const auto [x0, x1] = std::minmax({any(xs), any(xs)});
      const auto [y0, y1] = std::minmax({any(ys), any(ys)});
      boxes.push_back(
          {x0, to_lattice(x1 + (x0 == x1 ? 7 : 0)), y0, to_lattice(y1 + (y0 == y1 ? 7 : 0))});
    }
    const double wanted = uncovered(bed, boxes);
    const MultiPolygon at_once = subtract({to_polygon(bed)}, unite(polygons_of(boxes)));
    EXPECT_NEAR(area_of(at_once), wanted, 1e-6);
    EXPECT_EQ(fault_of_form(at_once), "");
    MultiPolygon one_by_one{to_polygon(bed)};
    for (const Polygon& obstacle : polygons_of(boxes))
      one_by_one = subtract(one_by_one, {obstacle});
    EXPECT_NEAR(area_of(one_by_one), wanted, 1e-6);
  }
}

// Found by a search: Boost.Geometry 1.81 loses the greater part of the bed here, in whatever
// order, place or turn the operands are given.
TEST(OverlayRectangles, LeaveTheBedThatALibraryLoses) {
  const Box bed{0, 146, 0, 161};
  const Box hole{48.28, 79.02, 49.14, 95.85};
  const std::vector<Box> boxes{
      {2.27, 7.27, 103.69, 118.69},     {79.02, 134.16, 95.85, 105.85},
      {105.38, 125.38, 103.69, 108.69}, {34.16, 146, 108.69, 129.97},
      {91.69, 96.69, 36.61, 41.61},     {128.38, 138.38, 129.97, 136.97},
      {67.48, 82.48, 103.69, 123.69},   {67.48, 77.48, 129.97, 144.97},
      {67.48, 123.24, 153.47, 158.47},  {115.41, 130.41, 24.92, 29.92},
      {34.16, 44.16, 95.85, 110.85},    {125.38, 134.16, 36.61, 128.81},
      {128.38, 148.38, 36.61, 41.61},   {105.38, 110.38, 95.85, 129.97},
      {128.38, 148.38, 4.58, 24.58},    {67.48, 146, 108.69, 113.69},
      {48.28, 58.28, 129.97, 144.97},   {123.24, 134.16, 70.93, 80.93},
      {91.69, 96.69, 95.85, 100.85},    {79.02, 125.38, 36.61, 46.61},
      {91.69, 101.69, 103.69, 118.69},  {134.16, 146, 95.85, 102.85},
  };
  const Polygon with_hole{to_polygon(bed).outer, {to_polygon(hole).outer}};
  std::vector<Box> taken = boxes;
  taken.push_back(hole);
  EXPECT_NEAR(area_of(subtract({with_hole}, unite(polygons_of(boxes)))), uncovered(bed, taken),
              1e-6);
}

TEST(OverlayNearCopies, OfRectanglesAreUnitedExactly) {
  for (unsigned seed = 1; seed <= 400; ++seed) {
    SCOPED_TRACE(seed);
    Dice dice(seed);
    const Box bed{0, 200, 0, 180};
    std::vector<Box> boxes;
    for (int i = dice.roll(1, 8); i > 0; --i) {
      const double x = dice.roll(0, 40) * 5;
      const double y = dice.roll(0, 36) * 5;
      const Box box{x, x + dice.roll(1, 6) * 5, y, y + dice.roll(1, 6) * 5};
      const auto noisy = [&dice](double v) { return to_lattice(v + dice.roll(-2, 2) / 1000.0); };
      for (int copies = dice.roll(1, 4); copies > 0; --copies) {
        boxes.push_back({noisy(box.x0), noisy(box.x1), noisy(box.y0), noisy(box.y1)});
      }
    }
    const MultiPolygon left = subtract({to_polygon(bed)}, unite(polygons_of(boxes)));
    EXPECT_NEAR(area_of(left), uncovered(bed, boxes), 1e-6);
    EXPECT_EQ(fault_of_form(left), "");
  }
}

TEST(OverlayNearCopies, OfSlantedObstaclesAreUnited) {
  for (unsigned seed = 1; seed <= 120; ++seed) {
    SCOPED_TRACE(seed);
    Dice dice(seed);
    const auto point = [&dice](int x, int y) {
      return Point{x + dice.roll(0, 3000) / 100.0, y + dice.roll(0, 3000) / 100.0};
    };
    const Polygon bed{{point(0, 0), point(200, 0), point(200, 180), point(0, 180)}, {}};
    const Point e = bed.outer[1] - bed.outer[0];
    std::vector<Polygon> obstacles;
    double flush = 0;  // the length of all sides along the edge
    for (int i = dice.roll(1, 5); i > 0; --i) {
      // A parallelogram with a side on the slanted front edge, up to rounding.
      const Point at = bed.outer[0] + (dice.roll(0, 90) / 100.0) * e;
      const Point along = (dice.roll(3, 20) / 200.0) * e;
      const Point up = (dice.roll(0, 1) ? 1 : -1) * (dice.roll(2, 20) / 200.0) * Point{-e.y, e.x};
      for (int copies = dice.roll(1, 3); copies > 0; --copies) {
        const Point noise{dice.roll(-1, 1) / 1000.0, dice.roll(-1, 1) / 1000.0};
        Polygon obstacle{{at, at + along, at + along + up, at + up}, {}};
        for (Point& p : obstacle.outer) p = to_lattice(p + noise);
        obstacles.push_back(obstacle);
        flush += std::hypot(along.x, along.y);
      }
    }
    expect_right(bed, obstacles, 0.00075 * flush);
  }
}

TEST(OverlayGons, ThatTouchAreUnitedExactly) {
  for (const double phase : {0.0, 0.5}) {  // touching at vertices, touching at edges
    const Polygon one = gon({20, 20}, 10, 64, phase);
    double reach = 0;
    for (const Point p : one.outer) reach = std::max(reach, p.x - 20);
    std::vector<Polygon> grid;
    for (int i = 0; i < 3; ++i) {
      for (int j = 0; j < 4; ++j) {
        Polygon copy = one;
        for (Point& p : copy.outer) p = to_lattice(p + Point{2 * reach * i, 2 * reach * j});
        grid.push_back(copy);
      }
    }
    const MultiPolygon united = unite(grid);
    EXPECT_NEAR(area_of(united), 12 * area(one), 1e-6);
    const Polygon bed = rectangle(to_lattice(20 - reach), 100, 0, 120);
    const MultiPolygon left = subtract({bed}, united);
    EXPECT_NEAR(area_of(left), area(bed) - 12 * area(one), 1e-6);
    EXPECT_EQ(fault_of_form(left), "");
    EXPECT_NEAR(area_of(intersect({bed}, united)), 12 * area(one), 1e-6);
  }
}

TEST(OverlayGons, TangentInAllDirectionsAreUnited) {
  for (unsigned seed = 1; seed <= 60; ++seed) {
    SCOPED_TRACE(seed);
    Dice dice(seed);
    struct Circle {
      Point centre;
      double radius;
    };
    std::vector<Circle> circles{{{60, 50}, dice.roll(4, 20) / 2.0}};
    for (int i = dice.roll(1, 7); i > 0; --i) {
      const Circle& from =
          circles[static_cast<std::size_t>(dice.roll(0, static_cast<int>(circles.size()) - 1))];
      const double angle = std::acos(-1.0) * dice.roll(0, 31) / 16;
      const double radius = dice.roll(0, 2) ? dice.roll(4, 30) / 2.0 : from.radius;
      const double away = dice.roll(0, 1) ? from.radius + radius : std::abs(from.radius - radius);
      circles.push_back({from.centre + away * Point{std::cos(angle), std::sin(angle)}, radius});
    }
    std::vector<Polygon> obstacles;
    for (const Circle& circle : circles) obstacles.push_back(gon(circle.centre, circle.radius, 64));
    const bool round = dice.roll(0, 1) > 0;
    expect_right(round ? gon({60, 60}, 60, 64) : rectangle(0, 120, 0, 100), obstacles);
  }
}

}  // namespace
}  // namespace leeway
