// Minkowski sums before a judge: CGAL 5.5, 2D Minkowski Sums (Wein, Baram, Flato, Fogel, Hemmer,
// Morr), by its method of convolution with exact numbers. It has nothing in common with a union of
// sums of pieces.

#include <gtest/gtest.h>

#include <cmath>
#include <cstdint>
#include <iostream>
#include <string>
#include <utility>
#include <vector>

#include "geometry/convex/minkowski.h"
#include "geometry/convex/sum.h"
#include "geometry/plane/polygons.h"
#include "geometry/random_polygons.h"
#include "judges/cgal.h"

namespace leeway {
namespace {

enum class Kind { convex, simple, holed };

Polygon random_polygon(testing::Random& random, Kind kind, const testing::Placing& placing) {
  if (kind == Kind::simple) {
    return {testing::random_ring(random, random.whole(4, 9), random.whole(5, 14), placing), {}};
  }
  for (;;) {
    if (kind == Kind::convex) {
      Ring points;
      for (int k = random.whole(3, 9); k > 0; --k) {
        points.push_back(placing({random.whole(0, 8), random.whole(0, 8)}));
      }
      const Ring hull = convex_hull(points);
      if (hull.size() > 2) return {hull, {}};
    } else {
      testing::MosaicMaker maker(random, random.whole(3, 6), random.whole(3, 6), 75, false);
      for (const Polygon& part : maker.make(placing).polygons) {
        if (!part.holes.empty()) return part;
      }
    }
  }
}

// Two on one lattice, or on two of their own, or the second so small that holes of the first stay
// (a whole number of its steps fills them exactly), or the mirror image of the first, which meets
// it in every way there is. Small polygons, many pairs: these try more coincidences.
std::pair<Polygon, Polygon> random_pair(testing::Random& random, Kind first, Kind second) {
  const testing::Placing placing =
      random.chance(50) ? testing::Placing{{3000, 0}, {0, 3000}} : testing::random_placing(random);
  const Polygon a = random_polygon(random, first, placing);
  if (random.chance(20)) return {a, mirrored({a})[0]};
  if (random.chance(30)) return {a, random_polygon(random, second, placing)};
  if (random.chance(40))
    return {a, random_polygon(random, second, testing::random_placing(random))};
  const int step = random.whole(1, 4) * 125;
  return {a, random_polygon(random, second, {{step, 0}, {0, step}})};
}

struct Tally {
  int pairs = 0;
  int with_holes = 0;
  int outlines = 0;      // by the convolution
  int exact_unions = 0;  // whose union on the lattice is the exact sum, nothing rounded
};

void compare(const Polygon& a, const Polygon& b, Tally& tally) {
  const judges::ExactSet wanted = judges::cgal_minkowski_sum(a, b);
  const judges::ExactSet pieces =
      judges::union_of(sum_pieces(convex_pieces({a}), convex_pieces({b})));
  EXPECT_EQ(judges::area_of_difference(pieces, wanted), 0) << "the pieces are not the sum";

  // Where edges of pieces cross between lattice points the overlay rounds, by less than a
  // micrometre: that moves the boundary, and makes or loses no more than a strip along it.
  const MultiPolygon sum = minkowski_sum({a}, {b});
  const double off = judges::area_of_difference(judges::exact(sum), wanted);
  EXPECT_LE(off, 0.001 * judges::perimeter(sum)) << "the union is not the sum";
  // The outline by the convolution: nothing is rounded to micrometres, but parts that touch, or all
  // but do, become one.
  const SharedSum convolved = sum_of({a}, {b});
  ASSERT_TRUE(convolved);
  if (!convolved->outline.empty()) {
    ++tally.outlines;
    double area_of_outline = 0;
    for (const Polygon& polygon : convolved->outline) area_of_outline += area(polygon);
    EXPECT_NEAR(area_of_outline, judges::area_of_difference(wanted, judges::union_of({})),
                1e-6 * judges::perimeter(sum))
        << "the outline is not the sum's";
  }
  ++tally.pairs;
  tally.with_holes += !sum.empty() && !sum[0].holes.empty();
  tally.exact_unions += off == 0;
}

void compare_many(Kind first, Kind second, int pairs, std::uint32_t usual_seed) {
  const std::uint32_t seed = testing::seed_or(usual_seed);
  testing::Random random(seed);
  Tally tally;
  for (int i = 0; i < pairs && !::testing::Test::HasFailure(); ++i) {
    SCOPED_TRACE("LEEWAY_SEED=" + std::to_string(seed) + ", pair " + std::to_string(i));
    const auto [a, b] = random_pair(random, first, second);
    compare(a, b, tally);
  }
  std::cout << tally.pairs << " pairs, seed " << seed << ": " << tally.with_holes
            << " sums with holes, " << tally.outlines << " outlines, " << tally.exact_unions
            << " unions without any rounding\n";
  EXPECT_EQ(tally.pairs, pairs);
  EXPECT_GT(tally.outlines, pairs * 9 / 10);
}

TEST(MinkowskiBeforeCgal, ConvexAndConvex) { compare_many(Kind::convex, Kind::convex, 1000, 501); }
TEST(MinkowskiBeforeCgal, ConvexAndSimple) { compare_many(Kind::convex, Kind::simple, 1000, 502); }
TEST(MinkowskiBeforeCgal, SimpleAndSimple) { compare_many(Kind::simple, Kind::simple, 1000, 503); }
TEST(MinkowskiBeforeCgal, HoledAndConvex) { compare_many(Kind::holed, Kind::convex, 1000, 504); }
TEST(MinkowskiBeforeCgal, HoledAndSimple) { compare_many(Kind::holed, Kind::simple, 600, 505); }
TEST(MinkowskiBeforeCgal, HoledAndHoled) { compare_many(Kind::holed, Kind::holed, 400, 506); }

// The judge itself: a sum that lacks a piece, or is off by one micrometre, does not pass.
TEST(MinkowskiBeforeCgal, WouldNoticeAFault) {
  const Polygon frame{{{0, 0}, {9, 0}, {9, 9}, {0, 9}}, {{{3, 3}, {6, 3}, {6, 6}, {3, 6}}}};
  const Polygon square{{{0, 0}, {1, 0}, {1, 1}, {0, 1}}, {}};
  const judges::ExactSet wanted = judges::cgal_minkowski_sum(frame, square);
  std::vector<Ring> pieces = sum_pieces(convex_pieces({frame}), {square.outer});
  EXPECT_EQ(judges::area_of_difference(judges::union_of(pieces), wanted), 0);
  pieces.pop_back();
  EXPECT_GT(judges::area_of_difference(judges::union_of(pieces), wanted), 1);
  MultiPolygon sum = minkowski_sum({frame}, {square});
  EXPECT_EQ(judges::area_of_difference(judges::exact(sum), wanted), 0);
  sum[0].outer[0].x += 0.001;
  EXPECT_GT(judges::area_of_difference(judges::exact(sum), wanted), 0.001);
}

}  // namespace
}  // namespace leeway
