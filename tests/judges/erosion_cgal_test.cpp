// Erosion before a judge: CGAL 5.5, 2D Minkowski Sums with exact numbers. The positions at which a
// polygonal spot fits onto a polygonal bed, as the regions have them.

#include <gtest/gtest.h>

#include <cmath>
#include <iostream>

#include "geometry/plane/polygons.h"
#include "geometry/random_polygons.h"
#include "judges/cgal.h"
#include "model/regions/region_draft.h"

namespace leeway {
namespace {

MultiPolygon eroded(const Polygon& bed, const Polygon& spot) {
  SweptSets swept_sets;
  RegionDraft draft;
  shrink(MultiPolygon{bed}, MultiPolygon{spot}, {}, swept_sets, draft);
  return draft.finish();
}

// A bed, perhaps with holes, and a spot around the origin, so that it is where its reference
// point is.
Polygon random_bed(testing::Random& random, const testing::Placing& placing) {
  if (random.chance(50)) {
    return {testing::random_ring(random, random.whole(4, 9), random.whole(5, 14), placing), {}};
  }
  for (;;) {
    testing::MosaicMaker maker(random, random.whole(3, 6), random.whole(3, 6), 75, false);
    for (const Polygon& part : maker.make(placing).polygons) {
      if (!part.holes.empty()) return part;
    }
  }
}

TEST(ErosionBeforeCgal, OfBedsBySpots) {
  const std::uint32_t seed = testing::seed_or(601);
  testing::Random random(seed);
  constexpr int kPairs = 600;
  int with_area = 0;
  int exact = 0;
  for (int i = 0; i < kPairs && !HasFailure(); ++i) {
    SCOPED_TRACE("LEEWAY_SEED=" + std::to_string(seed) + ", pair " + std::to_string(i));
    const testing::Placing placing{{3000, 0}, {0, 3000}};
    const Polygon bed = random_bed(random, placing);
    const double half = 0.25 * random.whole(1, 4);
    const double cut = 0.125 * random.whole(0, 2);
    const Polygon spot{{{-half, -half}, {half, -half + cut}, {half, half}, {-half + cut, half}},
                       {}};
    const judges::ExactSet wanted = judges::cgal_erosion(bed, spot);
    const MultiPolygon ours = eroded(bed, spot);
    const double off = judges::area_of_difference(judges::exact(ours), wanted);
    // Roundings to whole micrometres move the boundary.
    EXPECT_LE(off, 1e-9 + 0.003 * judges::perimeter(ours));
    with_area += !ours.empty();
    exact += off == 0;
  }
  std::cout << kPairs << " pairs, seed " << seed << ": " << with_area << " with something left, "
            << exact << " without any rounding\n";
  EXPECT_GT(with_area, kPairs / 2);
}

// The judge itself: a micrometre more or less is seen.
TEST(ErosionBeforeCgal, WouldNoticeAFault) {
  const Polygon bed{{{0, 0}, {9, 0}, {9, 9}, {0, 9}}, {{{3, 3}, {6, 3}, {6, 6}, {3, 6}}}};
  const Polygon spot{{{-1, -1}, {1, -1}, {1, 1}, {-1, 1}}, {}};
  const judges::ExactSet wanted = judges::cgal_erosion(bed, spot);
  MultiPolygon ours = eroded(bed, spot);
  EXPECT_EQ(judges::area_of_difference(judges::exact(ours), wanted), 0);
  ours[0].outer[0].x += 0.001;
  EXPECT_GT(judges::area_of_difference(judges::exact(ours), wanted), 0.001);
}

}  // namespace
}  // namespace leeway
