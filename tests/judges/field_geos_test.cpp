// The field of coverage against GEOS (https://libgeos.org) on random setups: at each offset all
// three regions are built by GEOS alone and overlaid.

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "geometry/areas/shifted_overlap.h"
#include "judges/complaints.h"
#include "judges/geos_regions.h"
#include "judges/random_setup.h"
#include "leeway/coverage_map.h"
#include "leeway/limits.h"
#include "model/regions/cover_sets.h"

namespace leeway::judges {
namespace {

constexpr double kUm2 = 1e6;  // per mm2

double both(const geos::Geometry& a, const geos::Geometry& b) {
  return geos::area(geos::checked(GEOSIntersection_r(geos::context(), a.get(), b.get()))) / kUm2;
}

Steps some_steps(Random& random, double most) {
  const double from = std::round(random.real(-most, most) * 100) / 100;
  return {from, from + std::round(random.real(1, most) * 100) / 100, random.whole(2, 9)};
}

class Comparison {
 public:
  explicit Comparison(const CaseRange& run)
      : wrong_area("the areas of the field are those that GEOS finds for the same polygons", run),
        wrong_share("the share of the field is what GEOS builds from the setup", run) {}

  void look_at(std::uint64_t index, std::uint64_t seed) {
    Random random(seed);
    RandomSetupOptions options;
    options.isotropic = true;
    const Setup setup = random_setup(seed, options);
    const Steps x = some_steps(random, 60);
    const Steps y = some_steps(random, 60);
    const std::optional<CoverageMap> field = coverage_map(setup, x, y);
    if (!field) return;
    ++setups;
    same_polygons(index, setup, *field, random);
    same_setup(index, setup, *field, random);
  }

  Complaints wrong_area;
  Complaints wrong_share;
  std::size_t setups = 0;
  double worst_area = 0;   // relative to the printable area
  double worst_share = 0;  // as a strip along the outline, in mm

 private:
  // To 1e-6 of the printable area: the same polygons, overlaid at the offset.
  void same_polygons(std::uint64_t index, const Setup& setup, const CoverageMap& field,
                     Random& random) {
    const CoverSets sets = cover_sets(Rig(setup));
    const geos::Geometry ground = valid(sets.ground);
    for (int i = 0; i < 4; ++i) {
      const int column = random.whole(0, field.x.count - 1);
      const int row = random.whole(0, field.y.count - 1);
      const Point o{field.x.at(column), field.y.at(row)};
      double truth = 0;
      if (sets.travel) {
        // So many sides that the polygon's area is the disc's to 1e-9 (n-gon: 2 pi^2 / 3 n^2).
        Ring ring;
        constexpr int kSides = 100'000;
        for (int k = 0; k < kSides; ++k) {
          const double angle = 2 * 3.14159265358979323846 * k / kSides;
          ring.push_back(sets.travel->center + o +
                         sets.travel->radius * Point{std::cos(angle), std::sin(angle)});
        }
        truth =
            both(ground, geos::ring_polygon(ring, {}, 1000)) - both(ground, valid(sets.blocked, o));
      } else {
        truth = both(ground, valid(sets.nozzle, o));
      }
      const double off = std::abs(field.at(column, row) * field.printable_area - truth);
      worst_area = std::max(worst_area, off / field.printable_area);
      if (off > 1e-6 * field.printable_area) {
        wrong_area.add(index, setup,
                       fmt::format("at {}, {}: {} against {} mm2", o.x, o.y,
                                   field.at(column, row) * field.printable_area, truth));
      }
    }
  }

  // From the setup, by GEOS alone. Ours are polygons on the safe side (growth.h), so that the share
  // may differ by a thin strip along every outline.
  void same_setup(std::uint64_t index, const Setup& setup, const CoverageMap& field,
                  Random& random) {
    const int column = random.whole(0, field.x.count - 1);
    const int row = random.whole(0, field.y.count - 1);
    Setup moved = setup;
    moved.probe.offset = {field.x.at(column), field.y.at(row)};
    moved.probe.stowed = true;  // as the map takes it
    const GeosRegions geos(moved);
    const geos::Geometry printable = geos.region(RegionKind::printable);
    const geos::Geometry reachable = geos.region(RegionKind::within_limits);
    const double truth = both(printable, reachable) / (geos::area(printable) / kUm2);
    const double edge = 2 * (geos::length(printable) + geos::length(reachable)) / 1000;
    const double off = std::abs(field.at(column, row) - truth) * field.printable_area;
    worst_share = std::max(worst_share, (off - kSpeck_mm2) / std::max(edge, 1.0));
    if (off > kSpeck_mm2 + kStrip_mm * edge) {
      wrong_share.add(index, setup,
                      fmt::format("at {}, {}: {} against {}", moved.probe.offset.x,
                                  moved.probe.offset.y, field.at(column, row), truth));
    }
  }

  static geos::Geometry valid(const MultiPolygon& region, Point by = {}) {
    geos::Geometry made = geos::polygons(region, 1000 * by, 1000);
    if (geos::checked(GEOSisValid_r(geos::context(), made.get()))) return made;
    return geos::checked(GEOSMakeValid_r(geos::context(), made.get()));
  }

  static constexpr double kSpeck_mm2 = 2e-3;
  static constexpr double kStrip_mm = 0.003;
};

TEST(FieldAgainstGeos, HasTheSharesThatGeosFinds) {
  const CaseRange run = cases_to_look_at();
  Comparison c(run);
  // Each looks at whole overlays several times.
  const std::uint64_t end = run.first + (run.end - run.first + 19) / 20;
  for (std::uint64_t i = run.first; i < end; ++i) {
    try {
      c.look_at(i, seed_of_case(run.seed, i));
    } catch (const SetupTooDetailed&) {
    }
  }
  fmt::print("{} setups, worst area {:.2g} of the printable one, widest strip {:.3g} mm\n",
             c.setups, c.worst_area, c.worst_share);
  EXPECT_EQ(c.wrong_area.count(), 0u);
  EXPECT_EQ(c.wrong_share.count(), 0u);
  EXPECT_GT(c.setups, (end - run.first) / 2);
}

}  // namespace
}  // namespace leeway::judges
